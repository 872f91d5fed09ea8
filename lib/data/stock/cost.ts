import type { ShopTx } from "@/lib/db/shop";
import { firstInFirstOut } from "@/lib/domain/stock/cost";
import { applyMove, type MoveKind, type StockMove, worthE4 } from "@/lib/domain/stock/moves";

export interface Costed {
  id: number;
  onHandMilli: number;
  averageE4: number | null;
  costE4: number | null;
}

export interface MoveCost {
  /** What one unit of this move cost; null while nothing is known. */
  unitCostE4: number | null;
  /** Average of what is on hand after it. */
  averageE4: number | null;
}

/**
 * What a move costs, and the average it leaves. What goes out takes the moving average, or its oldest layers
 * in a shop that costs first in, first out.
 */
export async function costIn(
  tx: ShopTx,
  part: Costed,
  move: { kind: MoveKind; quantityMilli: number; unitCostE4: number | null },
): Promise<MoveCost> {
  const known = part.averageE4 ?? part.costE4;
  if (move.quantityMilli < 0) {
    const settings = await tx.settings.findUnique({ where: { id: 1 }, select: { stockCosting: true } });
    if (settings?.stockCosting === "fifo" && known !== null) return oldestFirst(tx, part, move, known);
    return { unitCostE4: known, averageE4: part.averageE4 };
  }
  const unitCostE4 = move.unitCostE4 ?? known;
  if (unitCostE4 === null) return { unitCostE4, averageE4: null };
  const averageE4 = part.averageE4 ?? unitCostE4;
  const { onHandMilli } = part;
  const after = applyMove(
    { onHandMilli, averageE4, valueE4: worthE4(onHandMilli, averageE4) },
    { ...move, unitCostE4 },
  );
  return { unitCostE4, averageE4: after.averageE4 };
}

async function oldestFirst(
  tx: ShopTx,
  part: Costed,
  move: { kind: MoveKind; quantityMilli: number },
  known: number,
): Promise<MoveCost> {
  const before: StockMove[] = await tx.move.findMany({
    where: { partId: part.id, kind: { not: "betweenBins" } },
    select: { kind: true, quantityMilli: true, unitCostE4: true },
    orderBy: { id: "asc" },
  });
  const then = firstInFirstOut([...before, { ...move, unitCostE4: null }]);
  const worth = then.outE4 - firstInFirstOut(before).outE4;
  return {
    unitCostE4: Math.round((worth * 1000) / -move.quantityMilli),
    averageE4: then.onHandMilli > 0 ? Math.round((then.valueE4 * 1000) / then.onHandMilli) : known,
  };
}
