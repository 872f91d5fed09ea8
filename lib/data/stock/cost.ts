import { Decimal, roundHalfAway } from "@/lib/domain/money/round";

/** The moving weighted average after a move, in E4 of the major unit. Null while nothing is known of the cost. */
export function averageAfter(
  before: { onHandMilli: number; averageE4: number | null },
  move: { quantityMilli: number; unitCostE4: number | null },
): number | null {
  if (move.quantityMilli <= 0 || move.unitCostE4 === null) return before.averageE4;
  if (before.onHandMilli <= 0 || before.averageE4 === null) return move.unitCostE4;
  const value = new Decimal(before.averageE4).mul(before.onHandMilli).plus(new Decimal(move.unitCostE4).mul(move.quantityMilli));
  return roundHalfAway(value.div(before.onHandMilli + move.quantityMilli));
}
