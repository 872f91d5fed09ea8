import { Link } from "@/app/_ui/Link";
import { mergedInto } from "@/lib/data/common/merged";
import type { OpenShop } from "@/lib/gate/open";

/** Doubles that were merged into this part, each with the way to its own ledger. */
export async function MergedFrom({ shop, partId }: { shop: OpenShop; partId: number }) {
  const gone = await mergedInto(shop.read, "part", partId);
  if (gone.length === 0) return null;
  return (
    <p className="mt-3 text-[15px] text-soft">
      Merged from{" "}
      {gone.map((one, at) => (
        <span key={one.goneId}>
          {at > 0 && ", "}
          <Link
            href={`/s/${shop.slug}/stock/${one.goneId}?ledger=own`}
            className="text-brass underline underline-offset-4"
          >
            {one.name}
          </Link>
        </span>
      ))}
      , with the moves it had.
    </p>
  );
}
