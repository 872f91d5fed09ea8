import type { ShopTx } from "@/lib/db/shop";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { agreedDiscount } from "@/lib/domain/quoting/price";
import type { QuoteView } from "@/lib/domain/quoting/result";
import { type SaidOfNumber, saidOfNumber } from "@/lib/domain/tax/sellerNumber";
import { recordOfShape } from "@/lib/domain/tuning/needleRecord";
import type { Observation } from "@/lib/domain/tuning/rideTypes";
import { type Said, wordsIn } from "@/lib/words/words";
import { bikeName } from "../bikes/bikeName";
import type { FrozenQuote, FrozenSetting } from "../documents/quote";
import { LETTERHEAD } from "../shop/letterhead";
import { inCompanyRegister } from "../shop/taxTerms";
import type { FoundQuote } from "./rows";
import { withoutCost } from "./withoutCost";

type Letterhead = Record<keyof typeof LETTERHEAD | "ownTerms", string> & SaidOfNumber;

/** Who the shop is, with its note and its own terms as `say` says them. */
export async function letterheadOf(
  tx: Pick<ShopTx, "settings" | "taxTerms">,
  say: (text: string) => string = (text) => text,
): Promise<Letterhead> {
  const [head, registered] = await Promise.all([
    tx.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { ...LETTERHEAD, taxRegime: true, country: true, ownTerms: true },
    }),
    inCompanyRegister(tx),
  ]);
  const { taxRegime, country, ...said } = head;
  return {
    ...said,
    ...saidOfNumber(taxRegime, country, registered),
    documentNote: say(head.documentNote),
    ownTerms: say(head.ownTerms),
  };
}

/** All that a quote prints and promises, as plain values: what its hash is taken of. */
export function freeze(
  found: FoundQuote,
  facts: QuoteFacts,
  view: QuoteView,
  head: Letterhead,
  sentOn: string,
  offered: Pick<FrozenQuote, "extras" | "alternatives" | "alternative" | "did"> = {},
): FrozenQuote {
  const { quote, revision } = found;
  const { documentNote, ownTerms, ...shop } = head;
  const { name, address, taxNumber, business } = quote.customer;
  const frozen: FrozenQuote = {
    format: "throttlewright-quote",
    version: 3,
    number: quote.number,
    revision: revision.number,
    sentOn,
    validUntil: quote.validUntil,
    title: quote.title,
    ...(quote.variationOf ? { ofJob: quote.variationOf.number } : {}),
    shop: { ...shop, note: documentNote },
    customer: { name, address, taxNumber, business },
    bike: { name: bikeName(quote.bike), plate: quote.bike.plate, frameNumber: quote.bike.frameNumber },
    carburettors: facts.carburettors.map((c) => c.name),
    ...named(facts, revision),
    ...computedPart(facts, view),
    ...offered,
    ...(ownTerms ? { ownTerms } : {}),
  };
  // Through JSON once, so that what is hashed is what will be read back.
  return JSON.parse(JSON.stringify(frozen)) as FrozenQuote;
}

/** The package that a quote is, or the works that it lists. */
function named({ works }: QuoteFacts, { works: rows }: FoundQuote["revision"]) {
  const [only] = rows;
  return works || !only?.packageRevision
    ? { works: works ?? [] }
    : { package: { name: only.packageRevision.package.name, revision: only.packageRevision.number } };
}

/** The part of a frozen quote that follows from its facts: options, price, work, parts, settings, what is said before a yes. */
export function computedPart(facts: QuoteFacts, view: QuoteView) {
  const { price, plan } = view;
  const discount = agreedDiscount(facts);
  const say = wordsIn(facts.terms.locale);
  return {
    locale: facts.terms.locale,
    currency: price.currency,
    pricesIncludeTax: price.pricesIncludeTax,
    taxRegime: facts.terms.taxRegime,
    options: view.groups.flatMap(({ work, options }) =>
      options
        .filter((o) => o.ticked)
        .map(({ key, name: option, plain, minutes, roadUse, answered }) => ({
          key,
          ...(work === undefined ? {} : { work }),
          name: option,
          plain,
          minutes,
          roadUse,
          ...(answered.length > 0 ? { answers: answered.map((one) => observedSaid(one, say)) } : {}),
        })),
    ),
    lines: price.lines.map((line) => {
      const { costMinor: _, ...printed } = withoutCost(line);
      return printed;
    }),
    taxes: price.taxes,
    netMinor: price.netMinor,
    taxMinor: price.taxMinor,
    grossMinor: price.grossMinor,
    depositMinor: view.depositMinor,
    savedMinutes: view.savedMinutes,
    savedAgainst: "visits" as const,
    savedMinor: view.savedMinor,
    minutes: plan.minutes,
    steps: plan.steps,
    parts: view.parts.map(
      ({ partId, code, name: part, unit, quantityMilli, operation, setting, unsettled }) => ({
        partId,
        code,
        name: part,
        unit,
        quantityMilli,
        operation,
        ...(unsettled && setting !== null ? { unsettled: { setting, ...unsettled } } : {}),
      }),
    ),
    conditions: facts.conditions,
    settings: settingsOf(facts, view),
    ...needlesOf(facts, view),
    ...partsOf(facts, view),
    calculation: view.target.sheet,
    cautions: view.cautions,
    acknowledgements: view.acknowledgements.map((key) => ({ key, text: say(`acknowledgement.${key}`) })),
    discount: { bp: discount.discountBp, why: discount.discountWhy },
  } satisfies Partial<FrozenQuote>;
}

/** What was told of a bike, in a customer's language; a note is as it was written. */
function observedSaid({ throttle, condition, engine, sign, note }: Observation, say: Said): string {
  const said = say("observed.said", {
    place: say(`observed.place.${throttle}`),
    condition: say(`observed.condition.${condition}`),
    engine: say(`observed.engine.${engine}`),
    sign: say(`observed.sign.${sign}`),
  });
  return note ? `${said} (${note})` : said;
}

export function settingsOf(facts: QuoteFacts, view: QuoteView): FrozenSetting[] {
  return (view.target.sheet?.carburettors ?? []).flatMap((c, at) =>
    c.settings.map((s) => ({
      carburettor: facts.positions[at] ?? at + 1,
      setting: s.key,
      value: s.value,
      from: s.from,
      how: s.how,
    })),
  );
}

/** The needles that the work leaves, where it changes one whose shape is known. */
function needlesOf(facts: QuoteFacts, view: QuoteView): Pick<FrozenQuote, "needles"> {
  const needles = (view.target.sheet?.carburettors ?? []).flatMap((c, at) => {
    const work = c.needle?.work;
    const record =
      c.needle &&
      (work?.kind === "exchange"
        ? recordOfShape(c.needle.after, "bought", work.code)
        : recordOfShape(c.needle.after, "reshaped"));
    return record ? [{ carburettor: facts.positions[at] ?? at + 1, record }] : [];
  });
  return needles.length > 0 ? { needles } : {};
}

/** Springs, holes, openings, filters and silencers that the work leaves otherwise, before and after. */
function partsOf(facts: QuoteFacts, view: QuoteView): Pick<FrozenQuote, "described"> {
  const described = (view.target.sheet?.carburettors ?? []).flatMap((c, at) =>
    (c.parts ?? []).map((part) => ({ carburettor: facts.positions[at] ?? at + 1, ...part })),
  );
  return described.length > 0 ? { described } : {};
}
