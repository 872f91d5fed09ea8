import { Caution } from "@/app/_ui/Caution";
import { moneyText } from "@/app/_ui/format";
import { spentByWord } from "@/lib/data/invoices/byWord";
import type { OpenShop } from "@/lib/gate/open";

/** Said on the card once a job agreed by word nears its amount. */
export async function OnWord({ shop, jobId, kind }: { shop: OpenShop; jobId: number; kind: string }) {
  const spent = kind === "word" ? await spentByWord(shop, jobId) : null;
  if (!spent || spent.state === "inside" || spent.spentMinor === null) return null;
  const { currency, locale } = shop.settings;
  const money = (minor: number) => moneyText(minor, currency, locale);
  return (
    <Caution title={spent.state === "over" ? "Past what was agreed." : "Near what was agreed."}>
      {money(spent.spentMinor)} of the {money(spent.upToMinor)} that {spent.saidBy} agreed to.
    </Caution>
  );
}
