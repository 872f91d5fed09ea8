import { cx } from "@/app/_ui/cx";
import { Link } from "@/app/_ui/Link";

const MENU = [
  ["", "Parts"],
  ["/drawer", "Drawer"],
  ["/kits", "Kits"],
  ["/orders", "Orders"],
  ["/suppliers", "Suppliers"],
  ["/counts", "Counts"],
  ["/scan", "Scan"],
  ["/labels", "Labels"],
  ["/figures", "Figures"],
] as const;

/** The rooms of stock, under the page's head. */
export function StockMenu({ shop, here }: { shop: string; here: (typeof MENU)[number][0] }) {
  return (
    <nav aria-label="Stock" className="-mt-2 mb-4">
      <ul className="flex flex-wrap gap-x-5 gap-y-1">
        {MENU.map(([path, name]) => (
          <li key={path}>
            <Link
              href={`/s/${shop}/stock${path}`}
              aria-current={path === here ? "page" : undefined}
              className={cx(
                "inline-flex min-h-8 items-center border-b-2 no-underline hover:underline pointer-coarse:min-h-12",
                path === here ? "border-brass-fill font-bold" : "border-transparent",
              )}
            >
              {name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
