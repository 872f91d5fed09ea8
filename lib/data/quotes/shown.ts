import type { ShopHandle } from "@/lib/db/shop";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { dayIn } from "./days";
import { standingExtras, storedFacts, withExtras } from "./extras";
import { type FrozenQuote, hashOf, storedQuote } from "./frozen";
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
  | "extras"
  | "taken"
>;

/** What the customer asked by link, with the shop's answer once there is one. */
export interface ShownQuestion {
  readonly id: number;
  readonly text: string;
  readonly askedAt: Date;
  readonly answer: string;
  readonly answeredAt: Date | null;
}

/** What a customer sees of a quote by link: what was printed, without reasons, stock or calculations. */
export interface ShownQuote {
  readonly state: QuoteStateName;
  readonly hash: string;
  readonly customerName: string;
  readonly answeredAt: Date | null;
  readonly jobNumber: number | null;
  readonly zone: string;
  readonly printed: Public;
  readonly extras: readonly ShownExtra[];
  readonly questions: readonly ShownQuestion[];
  readonly lines: readonly {
    readonly key: string;
    readonly kind: string;
    readonly name: string;
    readonly quantityMilli: number;
    readonly unit: string;
    readonly shownMinor: number;
  }[];
}

/** An extra the customer may add, and what the ones taken so far make of it. */
export interface ShownExtra {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly grossMinor: number;
  readonly minutes: number;
  readonly taken: boolean;
  /** Why it cannot be added beside the ones taken; empty where it can. */
  readonly because: string;
}

/** The quote of a link's revision, with some of its offered extras added; null where it has been changed since or was never sent. */
export async function shownQuote(
  shop: ShopHandle,
  revisionId: number,
  asked: readonly string[] = [],
): Promise<ShownQuote | null> {
  const row = await shop.read.quoteRevision.findUnique({
    where: { id: revisionId },
    select: {
      number: true,
      frozen: true,
      hash: true,
      facts: true,
      job: { select: { number: true } },
      quote: {
        select: {
          state: true,
          validUntil: true,
          revisionNumber: true,
          answeredAt: true,
          variationOf: { select: { number: true } },
          questions: {
            select: { id: true, text: true, askedAt: true, answer: true, answeredAt: true },
            orderBy: { id: "asc" },
            take: 20,
          },
        },
      },
    },
  });
  if (!row || row.frozen === null || row.hash === null || row.number !== row.quote.revisionNumber)
    return null;
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const sent = storedQuote(row.frozen);
  const facts = storedFacts(row.facts);
  const standing =
    facts && asked.length > 0 ? standingExtras(facts, sent, asked) : { taken: [], refused: [] };
  const frozen = facts && standing.taken.length > 0 ? withExtras(sent, facts, standing.taken) : sent;
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
    hash: frozen === sent ? row.hash : hashOf(frozen),
    customerName: customer.name,
    answeredAt: row.quote.answeredAt,
    jobNumber: row.job?.number ?? row.quote.variationOf?.number ?? null,
    zone,
    printed,
    extras: (sent.extras ?? []).map((e) => ({
      ...e,
      taken: standing.taken.includes(e.key),
      because: standing.refused.find((r) => r.key === e.key)?.because ?? "",
    })),
    questions: row.quote.questions,
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
