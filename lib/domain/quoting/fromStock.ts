import { dayWords } from "../schedule/days";
import { type Arrival, arrivalOf, type OnTheWay } from "../stock/arrival";
import { chainFrom, oldFirst } from "../stock/replaced";
import type { QuoteFacts, QuotePartRow } from "./facts";
import { kitOf, type QuotePart, type Wanted } from "./partsWanted";

/** Takes so much of a part of the shop's, as far as it is free after what was taken before. */
export type Take = (wanted: Wanted, row: QuotePartRow, quantityMilli: number) => QuotePart;

/** How a quote takes parts out of stock. */
export interface Taking {
  readonly take: Take;
  /** The same; of a part that is made no more what is left of it first, then of the parts that took its place. */
  takeReplaced(wanted: Wanted, row: QuotePartRow, quantityMilli: number): QuotePart[];
}

/** What one quote takes: each part is free once, and on its way once, whatever lines want it. */
export function takeFrom(facts: QuoteFacts): Taking {
  const left = new Map(facts.parts.map((p) => [p.id, { free: p.freeMilli, coming: p.coming }]));
  const take: Take = (wanted, row, quantityMilli) => {
    const { free, coming } = left.get(row.id) ?? { free: 0, coming: [] };
    const shortMilli = Math.max(0, quantityMilli - free);
    left.set(row.id, { free: Math.max(0, free - quantityMilli), coming: without(coming, shortMilli) });
    const arrival = shortMilli > 0 ? arrivalOf(shortMilli, coming, row.leadDays, facts.today) : null;
    return {
      partId: row.id,
      code: row.code,
      name: row.name,
      unit: row.unit,
      quantityMilli,
      operation: wanted.operation,
      option: wanted.option,
      setting: null,
      size: null,
      freeMilli: row.freeMilli,
      shortMilli,
      arrival,
      note: noteOf(row, arrival, facts.terms.locale),
      costE4: row.costE4,
      priceE4: row.priceE4,
      ...(row.taxMark ? { taxMark: row.taxMark } : {}),
      ...kitOf(wanted),
    };
  };
  const freeOf = (row: QuotePartRow) => left.get(row.id)?.free ?? 0;
  return {
    take,
    takeReplaced: (wanted, row, quantityMilli) => {
      const chain = chainFrom(row, (id) => facts.parts.find((other) => other.id === id));
      return oldFirst(chain, quantityMilli, freeOf).map(({ part, quantityMilli: milli }): QuotePart => {
        const taken = take(wanted, part, milli);
        if (part === row) return taken;
        return {
          ...taken,
          note: `${taken.note}; in place of ${row.code}, which is made no more`,
          inPlaceOf: row.code,
        };
      });
    },
  };
}

/** What is still on its way after so much of it was counted on. */
function without(coming: readonly OnTheWay[], milli: number): OnTheWay[] {
  let left = milli;
  return coming.flatMap((line) => {
    const taken = Math.min(left, line.openMilli);
    left -= taken;
    return taken < line.openMilli ? [{ ...line, openMilli: line.openMilli - taken }] : [];
  });
}

function noteOf(row: QuotePartRow, arrival: Arrival | null, locale: string): string {
  const where = row.kind === "jet" ? "in the drawer" : "in stock";
  const amount = (milli: number) => `${milli / 1000}${row.unit === "each" ? "" : ` ${row.unit}`}`;
  if (!arrival) return `${amount(row.freeMilli)} ${where}`;
  const short = row.freeMilli > 0 ? `only ${amount(row.freeMilli)} ${where}` : "not in stock";
  return `${short}, ${comingWords(row, arrival, locale)}`;
}

function comingWords({ leadDays, coming }: QuotePartRow, { by, on, late }: Arrival, locale: string): string {
  if (by === "order" && on !== null) return `on order, due ${dayWords(on, locale)}`;
  if (by === "order")
    return late === null
      ? "on order, no day known"
      : `on order, was due ${dayWords(late, locale)} and is not here`;
  const short = coming.length > 0 ? "on order but not enough, " : "";
  if (leadDays === null) return `${short}to be ordered`;
  const days = `${short}${leadDays} ${leadDays === 1 ? "day" : "days"} to come`;
  return on === null ? days : `${days}, ${dayWords(on, locale)} if ordered today`;
}
