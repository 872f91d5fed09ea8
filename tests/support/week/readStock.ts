import type { ShopHandle } from "@/lib/db/shop";
import { Differences, half, total } from "./sums";

/** An order as its paper is made from. */
export interface OrderText {
  readonly number: string;
  readonly orderedOn: string | null;
  readonly supplier: { readonly name: string };
  readonly lines: readonly {
    readonly quantityMilli: number;
    readonly receivedMilli: number;
    readonly openMilli: number;
    readonly unitCostE4: number | null;
    readonly part: { readonly code: string };
  }[];
}

/** Whether an order says what its lines and the receipts of the ledger tell. */
export async function readOrder(shop: ShopHandle, orderId: number, paper: OrderText): Promise<string[]> {
  const row = await shop.read.purchaseOrder.findUniqueOrThrow({
    where: { id: orderId },
    include: { supplier: true, lines: { include: { part: true }, orderBy: { id: "asc" } } },
  });
  const diff = new Differences(`Order ${row.number}`);
  diff.same(
    "its head",
    [paper.number, paper.orderedOn, paper.supplier.name],
    [row.number, row.orderedOn, row.supplier.name],
  );
  const told = [];
  for (const line of row.lines) {
    const receipts = await shop.read.move.findMany({ where: { orderLineId: line.id, kind: "receipt" } });
    const received = receipts.reduce((sum, move) => sum + move.quantityMilli, 0);
    const open = line.quantityMilli - received - line.cancelledMilli;
    told.push([line.part.code, line.quantityMilli, received, open, line.unitCostE4]);
  }
  diff.same(
    "its lines",
    paper.lines.map((line) => [
      line.part.code,
      line.quantityMilli,
      line.receivedMilli,
      line.openMilli,
      line.unitCostE4,
    ]),
    told,
  );
  return diff.found;
}

/** Whether every part's figures, and every job's money, are what the ledgers add up to. */
export async function readLedgers(shop: ShopHandle): Promise<string[]> {
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const diff = new Differences("Ledgers");
  const parts = await shop.read.part.findMany({
    include: {
      moves: { orderBy: { id: "asc" } },
      bins: true,
      reservations: { where: { state: "held" } },
      orderLines: { include: { order: true } },
    },
  });
  for (const part of parts) {
    const moved = part.moves.reduce((sum, move) => sum + move.quantityMilli, 0);
    diff.same(`${part.code} on hand`, part.onHandMilli, moved);
    diff.same(
      `${part.code} in its bins`,
      part.bins.reduce((sum, bin) => sum + bin.onHandMilli, 0),
      moved,
    );
    diff.same(
      `${part.code} promised`,
      part.reservedMilli,
      part.reservations.reduce((sum, one) => sum + one.reservedMilli, 0),
    );
    const placed = part.orderLines.filter((line) => ["ordered", "partReceived"].includes(line.order.state));
    const open = placed.reduce(
      (sum, line) => sum + line.quantityMilli - line.receivedMilli - line.cancelledMilli,
      0,
    );
    diff.same(`${part.code} on order`, part.onOrderMilli, open);
    if (settings.stockCosting === "average")
      diff.same(`${part.code}, average cost`, part.averageE4, averageOf(part.moves));
  }
  for (const invoice of await shop.read.invoice.findMany({
    where: { kind: "invoice", state: "issued" },
    include: { payments: true, creditedBy: true, job: true },
  })) {
    const paid = invoice.payments.reduce(
      (sum, one) => sum + (one.kind === "refund" ? -1 : 1) * (one.amountMinor - one.roundingMinor),
      0,
    );
    const credited = invoice.creditedBy.length > 0;
    diff.same(
      `paid of invoice ${invoice.number}`,
      invoice.paidMinor,
      paid + (credited ? invoice.grossMinor : 0),
    );
    const left = invoice.grossMinor - invoice.prepaidMinor - paid;
    if (!credited && invoice.job)
      diff.same(`job ${invoice.job.number} is closed`, invoice.job.state === "closed", left === 0);
  }
  return diff.found;
}

interface MoveRow {
  readonly quantityMilli: number;
  readonly unitCostE4: number | null;
}

/** Moving weighted average of a ledger, in ten-thousandths; null before anything came in (IAS 2.27). */
function averageOf(moves: readonly MoveRow[]): number | null {
  let [onHand, average] = [0n, null as bigint | null];
  for (const { quantityMilli, unitCostE4 } of moves) {
    const milli = BigInt(quantityMilli);
    if (milli > 0n && unitCostE4 !== null) {
      const worth = onHand * (average ?? 0n) + milli * BigInt(unitCostE4);
      average = half(worth, total([onHand, milli]));
    }
    onHand += milli;
  }
  return average === null ? null : Number(average);
}
