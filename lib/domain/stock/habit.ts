import type { MeasuredLead } from "./leadTime";
import { type StockPolicy, stockPolicy } from "./policy";

const DAY_MS = 86_400_000;
export const HABIT_DAYS = 365;
/** A shorter record says nothing about a year (judgement). */
const LEAST_DAYS = 28;
const SEASON_DAYS = 91;

/** Judgement, until a shop's own figures are asked for: each is named among the reasons. */
const USUAL = { leadDays: 7, risk: 0.05, costPerOrder: 10, holdingShare: 0.2, unitCost: 5 };

/** What is known of a part's use: instants in milliseconds, quantities in thousandths and above nothing. */
export interface UseRecord {
  readonly uses: readonly { readonly at: number; readonly quantityMilli: number }[];
  /** The part's first move of any kind. */
  readonly firstAt: number;
  readonly now: number;
  readonly unit: string;
  readonly leadDays: number | null;
  /** How long its supplier took to deliver; null where too few deliveries show it. */
  readonly measured?: MeasuredLead | null;
  /** In ten-thousandths; null while unknown. */
  readonly unitCostE4: number | null;
}

/** When and how much to order of a part, from up to a year of its uses. Null before there is a month of them. Assumptions are among the reasons. */
export function habitPolicy(record: UseRecord): StockPolicy | null {
  const { uses, now, unit, measured = null } = record;
  if (uses.length === 0) return null;
  // A history entered later may be dated before the first move.
  const oldest = uses.reduce((least, use) => Math.min(least, use.at), record.firstAt);
  const begin = Math.max(now - HABIT_DAYS * DAY_MS, oldest);
  const days = Math.ceil((now - begin) / DAY_MS);
  if (days < LEAST_DAYS) return null;
  const byDay = new Map<number, number>();
  for (const use of uses) {
    const day = Math.floor((use.at - begin) / DAY_MS);
    byDay.set(day, (byDay.get(day) ?? 0) + use.quantityMilli);
  }
  const unitCost = (record.unitCostE4 ?? USUAL.unitCost * 10_000) / 10_000;
  const packMilli = unit === "each" ? 1000 : 1;
  const policy = stockPolicy({
    uses: [...byDay].map(([day, quantityMilli]) => ({ day, quantityMilli })),
    days: days + 1,
    leadDays: measured?.meanDays ?? record.leadDays ?? USUAL.leadDays,
    leadSd: measured?.sdDays ?? 0,
    leadFrom: measured
      ? `the supplier's last ${measured.deliveries} deliveries, from order to arrival`
      : "the supplier, with no spread known",
    risk: USUAL.risk,
    costPerOrder: USUAL.costPerOrder,
    holdingPerUnitYear: Math.max(0.001, unitCost * USUAL.holdingShare),
    packMilli,
  });
  const assumed = {
    fact: `an order costs ${USUAL.costPerOrder}, holding ${USUAL.holdingShare * 100} % of cost a year${record.leadDays === null && measured === null ? `, ${USUAL.leadDays} days to arrive` : ""}`,
    from: "assumed (judgement)",
  };
  // A season's worth at most: cheap parts would otherwise be ordered by the year.
  const used = uses.reduce((sum, use) => sum + use.quantityMilli, 0);
  const season = Math.max(1, Math.ceil((used * SEASON_DAYS) / (days + 1) / packMilli)) * packMilli;
  const orderMilli =
    policy.method === "reorder point" ? Math.min(policy.orderMilli, season) : policy.orderMilli;
  const capped =
    orderMilli < policy.orderMilli
      ? [{ fact: `no more than is used in ${SEASON_DAYS} days`, from: "judgement", effect: "less to order" }]
      : [];
  // Pieces come whole, so their point is the next whole piece.
  const pointMilli = unit === "each" ? Math.ceil(policy.pointMilli / 1000) * 1000 : policy.pointMilli;
  return { ...policy, pointMilli, orderMilli, because: [...policy.because, ...capped, assumed] };
}
