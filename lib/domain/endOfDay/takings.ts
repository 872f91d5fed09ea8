import { movedMinor, type PaymentKind } from "../invoices/held";

/** A row of money as far as a day's takings need it. */
export interface TakenRow {
  readonly kind: PaymentKind;
  readonly method: string;
  readonly amountMinor: number;
  /** What cash rounding added to it or took from it. */
  readonly roundingMinor: number;
  /** Paid or given back over the counter, not for a job. */
  readonly overCounter: boolean;
}

/** What moved by one method, in minor units; every part of it is positive but the net and the rounding. */
export interface MethodTakings {
  readonly method: string;
  readonly count: number;
  /** Over the counter, and what came back there. */
  readonly soldMinor: number;
  readonly returnedMinor: number;
  /** For jobs and invoices, what was given back of them, and what never came. */
  readonly paidMinor: number;
  readonly givenBackMinor: number;
  readonly bouncedMinor: number;
  /** All that came in less all that went out. */
  readonly netMinor: number;
  /** What of the net is rounding to coins (BT-114); below zero where it took more than it added. */
  readonly roundingMinor: number;
}

/** In this order, the two that are looked for first always there. */
const METHODS: readonly string[] = ["cash", "card", "transfer", "balance"];
const ALWAYS = 2;

type Part = "soldMinor" | "returnedMinor" | "paidMinor" | "givenBackMinor" | "bouncedMinor";

const partOf = ({ kind, overCounter }: TakenRow): Part => {
  if (kind === "bounced") return "bouncedMinor";
  if (kind === "refund") return overCounter ? "returnedMinor" : "givenBackMinor";
  return overCounter ? "soldMinor" : "paidMinor";
};

const isOut = (part: Part) => part !== "soldMinor" && part !== "paidMinor";

function byMethod(method: string, rows: readonly TakenRow[]): MethodTakings {
  const parts = { soldMinor: 0, returnedMinor: 0, paidMinor: 0, givenBackMinor: 0, bouncedMinor: 0 };
  let [netMinor, roundingMinor] = [0, 0];
  for (const row of rows) {
    const part = partOf(row);
    parts[part] += row.amountMinor;
    netMinor += movedMinor(row);
    roundingMinor += isOut(part) ? 0 - row.roundingMinor : row.roundingMinor;
  }
  return { method, count: rows.length, ...parts, netMinor, roundingMinor };
}

/**
 * Rows of money summed by how it moved: cash and card first, whether or not there is any. A write-off is no money and left out; what
 * was paid from a customer's balance goes out of one invoice and into another, and comes to nothing. The order of rows is of no account.
 */
export function takingsOf(rows: readonly TakenRow[]): MethodTakings[] {
  const moved = Map.groupBy(
    rows.filter((row) => row.kind !== "writeOff"),
    (row) => row.method,
  );
  const others = [...moved.keys()].filter((method) => !METHODS.includes(method)).sort();
  return [...METHODS, ...others]
    .filter((method, at) => at < ALWAYS || moved.has(method))
    .map((method) => byMethod(method, moved.get(method) ?? []));
}

const PARTS = [
  { part: "soldMinor", name: "Counter", out: false },
  { part: "paidMinor", name: "Jobs", out: false },
  { part: "returnedMinor", name: "Returned", out: true },
  { part: "givenBackMinor", name: "Given back", out: true },
  { part: "bouncedMinor", name: "Bounced", out: true },
] as const satisfies readonly { part: Part; name: string; out: boolean }[];

/** The parts that takings are shown by: the two that bring money always, the others where there is any. */
export const partsOf = (takings: readonly MethodTakings[]) =>
  PARTS.filter(({ part, out }) => !out || takings.some((one) => one[part] !== 0));

/** The net of one method, in minor units; 0 where nothing moved by it. */
export const netOf = (takings: readonly MethodTakings[], method: string): number =>
  takings.find((one) => one.method === method)?.netMinor ?? 0;
