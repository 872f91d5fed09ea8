import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type MoveKindName, quantityText } from "@/lib/schemas/quantity";
import { costIn } from "./cost";
import { changeBinIn, sharesAmongBins, type Where } from "./lying";
import { demandMayCost } from "./mayCost";
import { countArrivedIn, sharesIn } from "./orderLines";
import { demandQuantity } from "./quantity";
import { type Filled, fillShortagesIn, holdersIn, type ReservedBy } from "./shortages";

/** Every kind but moves between bins, which come in pairs (see betweenBins.ts). */
export type SingleKind = Exclude<MoveKindName, "betweenBins">;

export interface MoveInput extends Where {
  partId: number;
  kind: SingleKind;
  /** Thousandths of the part's unit. The kind gives the direction, so a size will do; count and split are signed. */
  quantityMilli: number;
  unitCostE4?: number | null | undefined;
  why?: string | undefined;
  jobId?: number | undefined;
  stepId?: number | undefined;
  /** When it happened, where that was before now. */
  at?: Date | undefined;
  key?: string | undefined;
}

export interface Moved {
  moveId: number;
  /** Short jobs that got what came in. */
  filled: Filled[];
}

const DIRECTION: Readonly<Record<SingleKind, 1 | -1 | 0>> = {
  opening: 1,
  receipt: 1,
  use: -1,
  returnToStock: 1,
  returnToSupplier: -1,
  count: 0,
  scrap: -1,
  split: 0,
};

/** Appends one move to the ledger. On hand never goes below zero, nor below what is reserved. */
export async function recordMove(shop: ShopHandle, input: MoveInput): Promise<Moved> {
  demandMayCost(shop, input.unitCostE4, "unitCost");
  return shop.write(async (tx) => {
    let filled: Filled[] = [];
    const moveId = await once(tx, shop, "recorded a move", input, async () => {
      const moved = await recordMoveIn(tx, shop, input);
      filled = moved.filled;
      return moved.moveId;
    });
    return { moveId, filled };
  });
}

export interface MoveIn extends Omit<MoveInput, "key"> {
  /** How much of a use comes out of the job's own reservation; useReservedIn sets it. */
  fromReservedMilli?: number;
  /** The counter sale that takes it out or brings it back. */
  saleId?: number;
  /** What comes in is to leave again at once, so no job that is short gets it. */
  passesThrough?: boolean;
  /** The order line a receipt comes in on; without one it answers the open lines there are, the one due first. */
  orderLineId?: number;
}

/**
 * As recordMove, inside a transaction of the caller's (which also sees to the idempotency key). What spans several
 * order lines or bins is a row of the ledger for each; the id is the last one's.
 */
export async function recordMoveIn(tx: ShopTx, shop: ShopHandle, input: MoveIn): Promise<Moved> {
  const part = await partIn(tx, input.partId);
  const quantityMilli = signed(input.kind, input.quantityMilli, part.unit);
  await demandThere(tx, part, quantityMilli, input.fromReservedMilli ?? 0);
  let reservedLeft = input.fromReservedMilli ?? 0;
  let before = part;
  let moveId = 0;
  const filled: Filled[] = [];
  for (const share of await sharesOf(tx, part, quantityMilli, input)) {
    if (moveId !== 0) before = await partIn(tx, part.id);
    const fromReservedMilli = Math.min(reservedLeft, Math.abs(share.quantityMilli));
    reservedLeft -= fromReservedMilli;
    const moved = await oneMoveIn(tx, shop, { ...input, fromReservedMilli }, before, share);
    moveId = moved.moveId;
    filled.push(...moved.filled);
  }
  return { moveId, filled };
}

interface RowShare {
  bin: string;
  quantityMilli: number;
  orderLineId: number | null;
}

/** A receipt without a line answers the open lines there are; what comes in goes to one bin, what goes out may come from several. */
async function sharesOf(tx: ShopTx, part: Stood, quantityMilli: number, input: MoveIn): Promise<RowShare[]> {
  const bins = await sharesAmongBins(tx, part, quantityMilli, input);
  const orderLineId = input.orderLineId ?? null;
  if (input.kind !== "receipt" || orderLineId !== null || part.onOrderMilli <= 0)
    return bins.map((share) => ({ ...share, orderLineId }));
  const [{ bin }] = bins as [RowShare];
  const lines = await sharesIn(tx, part.id, quantityMilli);
  return lines.map((line) => ({ bin, quantityMilli: line.quantityMilli, orderLineId: line.lineId }));
}

async function partIn(tx: ShopTx, id: number) {
  const part = await tx.part.findUnique({
    where: { id },
    select: {
      id: true,
      code: true,
      unit: true,
      bin: true,
      onHandMilli: true,
      reservedMilli: true,
      onOrderMilli: true,
      averageE4: true,
      costE4: true,
    },
  });
  if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
  return part;
}

type Stood = Awaited<ReturnType<typeof partIn>>;

/** Refuses what would leave less than nothing, or less than is reserved for others. */
async function demandThere(tx: ShopTx, part: Stood, quantityMilli: number, fromReservedMilli: number) {
  const left = part.onHandMilli + quantityMilli;
  if (left < 0) throw notThere(part, quantityMilli);
  if (left < part.reservedMilli - fromReservedMilli)
    throw reserved(part, quantityMilli, await holdersIn(tx, part.id));
}

/** One row of the ledger with the projections it changes. */
async function oneMoveIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: MoveIn,
  part: Stood,
  { bin, quantityMilli, orderLineId }: RowShare,
): Promise<Moved> {
  if (input.at && input.at.getTime() > shop.now.getTime())
    throw new Refusal("A move cannot lie ahead.", "Enter the day it happened, today at the latest.", {
      on: "Today at the latest.",
    });

  const given = input.unitCostE4 ?? null;
  const { unitCostE4, averageE4 } = await costIn(tx, part, {
    kind: input.kind,
    quantityMilli,
    unitCostE4: given,
  });
  await demandOne(
    tx.part.updateMany({
      where: { id: part.id, onHandMilli: part.onHandMilli, reservedMilli: part.reservedMilli },
      data: {
        onHandMilli: { increment: quantityMilli },
        reservedMilli: { decrement: input.fromReservedMilli ?? 0 },
        averageE4,
        ...(orderLineId === null ? {} : { onOrderMilli: { decrement: quantityMilli } }),
        ...(input.kind === "receipt" && given !== null ? { costE4: given } : {}),
      },
    }),
    () => new Refusal("This part's stock has just changed.", "Do it again.", {}, "conflict"),
  );
  await changeBinIn(tx, part, bin, quantityMilli);
  if (orderLineId !== null) await countArrivedIn(tx, orderLineId, quantityMilli);
  const move = await tx.move.create({
    data: {
      partId: part.id,
      kind: input.kind,
      quantityMilli,
      bin,
      unitCostE4,
      at: input.at ?? shop.now,
      writtenAt: input.at ? shop.now : null,
      staffId: shop.by.staffId,
      jobId: input.jobId ?? null,
      stepId: input.stepId ?? null,
      saleId: input.saleId ?? null,
      orderLineId,
      why: input.why ?? "",
    },
    select: { id: true },
  });
  await audit(tx, shop, input.kind, "part", part.id, { moveId: move.id, quantityMilli });
  const filled = quantityMilli > 0 && !input.passesThrough ? await fillShortagesIn(tx, shop, part.id) : [];
  return { moveId: move.id, filled };
}

function signed(kind: SingleKind, quantityMilli: number, unit: string): number {
  demandQuantity(Math.abs(quantityMilli), unit);
  const direction = DIRECTION[kind];
  if (direction === 0) return quantityMilli;
  if (direction === 1 && quantityMilli < 0)
    throw new Refusal("What comes in cannot be less than nothing.", "Enter how much came in.", {
      quantityMilli: "Enter how much.",
    });
  return direction * Math.abs(quantityMilli);
}

function notThere(part: Stood, quantityMilli: number): Refusal {
  return new Refusal(
    `Only ${quantityText(part.onHandMilli, part.unit)} of ${part.code} is on hand, not ${quantityText(-quantityMilli, part.unit)}.`,
    "Count the bin, or receive what is missing first.",
    { quantityMilli: `At most ${quantityText(part.onHandMilli, part.unit)}.` },
  );
}

function reserved(part: Stood, quantityMilli: number, holders: readonly ReservedBy[]): Refusal {
  const free = part.onHandMilli - part.reservedMilli;
  const whom = holders
    .map((h) => `${quantityText(h.reservedMilli, part.unit)} to job ${h.jobNumber}`)
    .join(", ");
  return new Refusal(
    `${quantityText(-quantityMilli, part.unit)} of ${part.code} is not free: ${whom} is reserved, ${quantityText(free, part.unit)} is left over.`,
    "Use it from that job's card, or release its reservation first.",
    { quantityMilli: `At most ${quantityText(free, part.unit)} is free.` },
  );
}
