import { createHash } from "node:crypto";
import type { DraftView } from "@/lib/data/quotes/draftView";
import { getQuote, type QuotePage } from "@/lib/data/quotes/get";
import { insteadOfShort } from "@/lib/data/quotes/instead";
import type { QuoteWarning } from "@/lib/domain/quoting/result";
import type { ScreenView } from "@/lib/gate/change";
import type { OpenShop } from "@/lib/gate/open";
import { systemOf } from "@/lib/schemas/bench";
import { type ChoicesShown, choicesShown } from "./choices";
import { type ConditionsShown, conditionsShown } from "./conditions";
import { type MarginShown, marginShown } from "./margin";
import { type MixtureShown, mixtureShown } from "./mixture";
import { type PartsShown, partsShown } from "./parts";
import { type PlanShown, planShown } from "./plan";
import { type PriceShown, priceShown, withoutReasons } from "./price";
import { type SettingsShown, settingsShown } from "./settings";
import { type TermsShown, termsShown } from "./terms";
import { type ToldShown, toldShown } from "./told";
import { type WorkShown, worksShown } from "./works";

/** All that follows from a draft's ticks and terms, as its page shows it. */
export interface DraftScreen {
  readonly fixed: { readonly currency: string; readonly locale: string };
  /** What every form of it sends. */
  readonly forms: { readonly hidden: { readonly id: string; readonly version: string } };
  readonly works: readonly WorkShown[];
  readonly choices: ChoicesShown;
  readonly told: ToldShown | null;
  readonly warnings: readonly QuoteWarning[];
  readonly sendable: boolean;
  readonly alternatives: DraftView["alternatives"];
  readonly again: QuotePage["again"];
  readonly mixture: MixtureShown;
  readonly air: ConditionsShown;
  readonly price: PriceShown;
  /** Null for those who may not see it. */
  readonly margin: MarginShown | null;
  readonly parts: PartsShown;
  readonly terms: TermsShown;
  readonly settings: readonly SettingsShown[];
  readonly plan: PlanShown;
}

/** A quote's page as it is kept live: its version, and what a draft shows; null for every other quote. */
export interface QuoteScreen extends ScreenView {
  readonly version: number;
  readonly draft: DraftScreen | null;
}

/** What a quote's page shows. `instead` as the stock has it for the parts that are short. */
export async function quoteScreen(shop: OpenShop, quote: QuotePage): Promise<QuoteScreen> {
  const { draft } = quote;
  return {
    served: servedOf(quote),
    version: quote.version,
    draft: draft && (await draftScreen(shop, quote, draft)),
  };
}

/** The screen that an act on a quote was made on. */
export async function screenOf(shop: OpenShop, { id }: { readonly id: number }): Promise<QuoteScreen | null> {
  const quote = shop.can("quote.read") ? await getQuote(shop, id, { margin: shop.can("margin.read") }) : null;
  return quote && quoteScreen(shop, quote);
}

async function draftScreen(shop: OpenShop, quote: QuotePage, draft: DraftView): Promise<DraftScreen> {
  const { currency, locale } = quote.terms;
  const units = systemOf(shop.settings.units);
  const margin = shop.can("margin.read");
  const instead = shop.can("stock.read") ? await insteadOfShort(shop, draft.parts) : {};
  const { savedMinutes, savedMinor, depositMinor, price } = draft;
  const costMinor = margin && price.costKnown ? price.costMinor : null;
  return {
    fixed: { currency, locale },
    forms: { hidden: { id: String(quote.id), version: String(quote.version) } },
    works: worksShown(quote),
    choices: choicesShown(quote, draft, shop.can("quote.write")),
    told: quote.intake && toldShown(quote.intake, draft.groups),
    warnings: draft.warnings,
    sendable: draft.sendable,
    alternatives: draft.alternatives,
    again: quote.again,
    mixture: mixtureShown(quote, draft.mixture, units),
    air: conditionsShown(quote, units),
    price: withoutReasons(
      priceShown({
        price,
        works: quote.works,
        savedMinutes,
        savedAgainst: "visits",
        savedMinor,
        depositMinor,
        locale,
        costMinor,
      }),
    ),
    margin: margin ? marginShown(quote, draft) : null,
    parts: partsShown(draft, instead, locale),
    terms: termsShown(quote, draft),
    settings: settingsShown(draft.target.sheet, locale, false),
    plan: planShown(draft.plan, savedMinutes),
  };
}

/**
 * What the server alone draws: the state with its acts, what packages did elsewhere, needles and described parts. Where one of
 * them changes, the page is drawn anew.
 */
function servedOf({ state, revisionNumber, works, draft }: QuotePage): string {
  const packages = works.flatMap((work) => (work.kind === "package" ? [work.packageId] : []));
  const drawn = (draft?.target.sheet?.carburettors ?? []).map((c) => [
    c.needle ?? null,
    c.needlePosition ?? null,
    c.parts ?? null,
  ]);
  const all = JSON.stringify([state, revisionNumber, packages, drawn]);
  return createHash("sha256").update(all).digest("base64url").slice(0, 16);
}
