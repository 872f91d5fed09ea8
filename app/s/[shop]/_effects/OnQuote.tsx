import { Section } from "@/app/_ui/Section";
import { effectsOfQuote } from "@/lib/data/figures/effects";
import type { OpenShop } from "@/lib/gate/open";
import { OverBikes } from "./OverBikes";

/** Beside a quote: what its packages did on other bikes here. A record of what was, and no promise. */
export async function OnQuote({ shop, quoteId }: { shop: OpenShop; quoteId: number }) {
  const packages = await effectsOfQuote(shop, quoteId);
  return packages.map((one) => (
    <Section key={one.id} title={`What “${one.name}” did here`}>
      <p className="mb-1 text-[14px] text-soft">
        Read before and after, the middle value of each bike. No promise: this bike may do otherwise.
      </p>
      <OverBikes effects={one.effects} slug={shop.slug} locale={shop.settings.locale} />
    </Section>
  ));
}
