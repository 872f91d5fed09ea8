import type { ShopHandle } from "@/lib/db/shop";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { dayIn } from "./days";
import { type FrozenQuote, storedQuote } from "./frozen";
import { stateOn } from "./rows";

type Public = Pick<
  FrozenQuote,
  | "number"
  | "title"
  | "sentOn"
  | "validUntil"
  | "shop"
  | "bike"
  | "carburettors"
  | "locale"
  | "currency"
  | "pricesIncludeTax"
  | "options"
  | "taxes"
  | "netMinor"
  | "taxMinor"
  | "grossMinor"
  | "depositMinor"
  | "savedMinutes"
  | "savedMinor"
  | "minutes"
  | "settings"
  | "cautions"
  | "acknowledgements"
>;

/** What a customer sees of a quote by link: what was printed, without reasons, stock or calculations. */
export interface ShownQuote {
  readonly state: QuoteStateName;
  readonly hash: string;
  readonly customerName: string;
  readonly answeredAt: Date | null;
  readonly jobNumber: number | null;
  readonly zone: string;
  readonly printed: Public;
  readonly lines: readonly {
    readonly key: string;
    readonly kind: string;
    readonly name: string;
    readonly quantityMilli: number;
    readonly unit: string;
    readonly shownMinor: number;
  }[];
}

/** The quote of a link's revision; null where it has been changed since or was never sent. */
export async function shownQuote(shop: ShopHandle, revisionId: number): Promise<ShownQuote | null> {
  const row = await shop.read.quoteRevision.findUnique({
    where: { id: revisionId },
    select: {
      number: true,
      frozen: true,
      hash: true,
      job: { select: { number: true } },
      quote: {
        select: {
          state: true,
          validUntil: true,
          revisionNumber: true,
          answeredAt: true,
          variationOf: { select: { number: true } },
        },
      },
    },
  });
  if (!row || row.frozen === null || row.hash === null || row.number !== row.quote.revisionNumber)
    return null;
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const frozen = storedQuote(row.frozen);
  const {
    customer,
    lines,
    steps: _s,
    parts: _p,
    calculation: _c,
    conditions: _k,
    package: _g,
    ...printed
  } = frozen;
  return {
    state: stateOn(dayIn(zone, shop.now), row.quote),
    hash: row.hash,
    customerName: customer.name,
    answeredAt: row.quote.answeredAt,
    jobNumber: row.job?.number ?? row.quote.variationOf?.number ?? null,
    zone,
    printed,
    lines: lines.map(({ key, kind, name, quantityMilli, unit, shownMinor }) => ({
      key,
      kind,
      name,
      quantityMilli,
      unit,
      shownMinor,
    })),
  };
}
