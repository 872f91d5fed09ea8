import { cx } from "@/app/_ui/cx";
import { Link } from "@/app/_ui/Link";
import type { Permission } from "@/lib/domain/access/permissions";
import type { OpenShop } from "@/lib/gate/open";

/** The rooms of the figures: path, name, who may enter. */
const ROOMS: readonly (readonly [path: string, name: string, needs: Permission])[] = [
  ["", "Quotes won", "figures.read"],
  ["revenue", "Revenue", "figures.read"],
  ["packages", "Packages", "margin.read"],
  ["hours", "Hours sold", "figures.read"],
  ["stock", "Stock", "figures.read"],
  ["owed", "Owed and paid", "figures.read"],
];

/** The way between the rooms of the figures; the range goes along. */
export function Rooms({ shop, room, query = "" }: { shop: OpenShop; room: string; query?: string }) {
  return (
    <nav aria-label="Figures" className="mb-4 flex flex-wrap gap-x-5 gap-y-1 print:hidden">
      {ROOMS.filter(([, , needs]) => shop.can(needs)).map(([path, name]) => (
        <Link
          key={path}
          href={`/s/${shop.slug}/figures${path && `/${path}`}${query}`}
          aria-current={path === room ? "page" : undefined}
          className={cx(
            "inline-flex min-h-6 items-center underline-offset-4 pointer-coarse:min-h-12",
            path === room ? "font-semibold text-ink" : "text-brass underline",
          )}
        >
          {name}
        </Link>
      ))}
    </nav>
  );
}
