import type { Reason } from "../reason";
import { inPacks, type SoldAs } from "./orders";
import type { StockPolicy } from "./policy";

/** A job that is short of a part, and the day it is needed; null while the job has no booking. */
export interface JobShort {
  readonly jobId: number;
  readonly jobNumber: string;
  readonly shortMilli: number;
  readonly neededOn: string | null;
}

/** How the reasons write a quantity in thousandths, and a day. */
export interface Texts {
  readonly quantity: (milli: number) => string;
  readonly day: (day: string) => string;
}

/** A part as ordering sees it; quantities in thousandths. */
export interface PartToOrder {
  readonly freeMilli: number;
  /** On order, and on orders not yet placed. */
  readonly comingMilli: number;
  /** Set by hand; 0 where it is not. */
  readonly pointMilli: number;
  /** Fill up to, set by hand; null where it is not. */
  readonly topMilli: number | null;
  /** From a year of the part's uses; null where there is no such record. */
  readonly policy: StockPolicy | null;
  readonly sold: SoldAs;
  readonly shortages: readonly JobShort[];
}

export interface Suggested {
  /** The job it is for; null for the shelf. */
  readonly jobId: number | null;
  readonly neededOn: string | null;
  readonly quantityMilli: number;
  readonly rule: "short for a job" | "reorder point" | "min and max" | "fill up" | "twice the point";
  readonly because: readonly Reason[];
}

/**
 * What to order of a part: first what jobs are short of, the earliest needed first, less what is coming; then, where free and
 * coming stock is under the point, a quantity for the shelf. A point and a top set by hand go before computed ones; a point
 * set by hand calls below it, a computed one at it. Without a record of use the shelf is filled to twice the point (judgement).
 * Quantities are whole packs. `say` writes a quantity with its unit, and a day.
 */
export function suggestOrder(part: PartToOrder, say: Texts): Suggested[] {
  const text = say.quantity;
  const { sold } = part;
  const byNeed = part.shortages.toSorted(
    (a, b) => (a.neededOn ?? "9999").localeCompare(b.neededOn ?? "9999") || a.jobId - b.jobId,
  );
  let coming = part.comingMilli;
  let spare = 0;
  const lines: Suggested[] = [];
  for (const short of byNeed) {
    const fromComing = Math.min(coming, short.shortMilli);
    coming -= fromComing;
    const fromSpare = Math.min(spare, short.shortMilli - fromComing);
    spare -= fromSpare;
    const needMilli = short.shortMilli - fromComing - fromSpare;
    const quantityMilli = inPacks(needMilli, sold);
    if (quantityMilli === 0) continue;
    spare += quantityMilli - needMilli;
    const because: Reason[] = [
      {
        fact: `job ${short.jobNumber} is short of ${text(short.shortMilli)}`,
        from: "what it needs and does not hold",
        effect: text(needMilli),
      },
      ...(fromComing > 0 ? [{ fact: `${text(fromComing)} of it is coming`, from: "orders" }] : []),
      {
        fact: short.neededOn ? `needed on ${say.day(short.neededOn)}` : "no day yet",
        from: short.neededOn ? "the job's booking" : "the job has no booking",
      },
      ...packed(needMilli, quantityMilli, sold, text),
    ];
    lines.push({
      jobId: short.jobId,
      neededOn: short.neededOn,
      quantityMilli,
      rule: "short for a job",
      because,
    });
  }
  const shelf = forShelf(part, Math.max(0, part.freeMilli) + coming + spare, text);
  return shelf ? [...lines, shelf] : lines;
}

function forShelf(
  part: PartToOrder,
  positionMilli: number,
  text: (milli: number) => string,
): Suggested | null {
  const { policy, topMilli, sold } = part;
  const byHand = part.pointMilli > 0;
  const point = byHand ? part.pointMilli : (policy?.pointMilli ?? 0);
  if (point <= 0 || (byHand ? positionMilli >= point : positionMilli > point)) return null;
  const least = point - positionMilli;
  const [rule, wanted] = ((): [Suggested["rule"], number] => {
    if (topMilli !== null && topMilli > positionMilli) return ["fill up", topMilli - positionMilli];
    if (policy) return [policy.method, Math.max(policy.orderMilli, least)];
    return ["twice the point", 2 * point - positionMilli];
  })();
  const quantityMilli = inPacks(wanted, sold);
  const how: Record<Suggested["rule"], Reason[]> = {
    "fill up": [
      { fact: `filled up to ${text(topMilli ?? 0)}`, from: "set on the part", effect: text(wanted) },
    ],
    "reorder point": [...(policy?.because ?? [])],
    "min and max": [...(policy?.because ?? [])],
    "twice the point": [
      { fact: "no year of use to go by", from: "twice the point (judgement)", effect: text(wanted) },
    ],
    "short for a job": [],
  };
  const because: Reason[] = [
    {
      fact: `${text(positionMilli)} free and coming, point ${text(point)}`,
      from: byHand ? "the point set on the part" : "the point its use asks for",
      effect: "order",
    },
    ...how[rule],
    ...packed(wanted, quantityMilli, sold, text),
  ];
  return { jobId: null, neededOn: null, quantityMilli, rule, because };
}

function packed(wanted: number, quantity: number, sold: SoldAs, text: (milli: number) => string): Reason[] {
  if (quantity === wanted) return [];
  const sells = sold.packMilli > 0 ? `packs of ${text(sold.packMilli)}` : `at least ${text(sold.leastMilli)}`;
  return [{ fact: `sold in ${sells}`, from: "the supplier", effect: text(quantity) }];
}
