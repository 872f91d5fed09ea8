import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { senderGaps } from "@/lib/domain/invoices/senderGaps";
import type { OpenShop } from "@/lib/gate/open";

/** What the head of a paper will lack, said before it leaves the shop; nothing where it is complete. */
export function SenderGaps({ shop }: { shop: OpenShop }) {
  const gaps = senderGaps(shop.settings);
  if (gaps.length === 0) return null;
  const list = new Intl.ListFormat("en", { type: "conjunction" }).format(gaps);
  return (
    <Note title="Your papers do not say all of who you are:">
      {list} {gaps.length === 1 ? "is" : "are"} not entered.{" "}
      {shop.can("shop.write") ? (
        <Link href={`/s/${shop.slug}/shop/settings`}>Enter it in the settings</Link>
      ) : (
        "An owner enters it under Shop > Settings."
      )}
    </Note>
  );
}
