import { audit, once } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type MoveKindName, quantityText } from "@/lib/schemas/quantity";
import { costIn } from "./cost";
import { type Filled, fillShortagesIn, type HeldBy, holdersIn } from "./shortages";

export interface MoveInput {
  partId: number;
  kind: MoveKindName;
  /** Thousandths of the part's unit. The kind gives the direction, so a size will do; count and split are signed. */
  quantityMilli: number;
  unitCostE4?: number | null | undefined;
  why?: string | undefined;
  jobId?: number | undefined;
  stepId?: number | undefined;
  key?: string | undefined;
}

export interface Moved {
  moveId: number;
  /** Short jobs that got what came in. */
  filled: Filled[];
}

const DIRECTION: Readonly<Record<MoveKindName, 1 | -1 | 0>> = {
  opening: 1,
  receipt: 1,
  use: -1,
  returnToStock: 1,
  returnToSupplier: -1,
  count: 0,
  scrap: -1,
  split: 0,
};

/** Appends one move to the ledger. On hand never goes below zero, nor below what is promised. */
export async function recordMove(shop: ShopHandle, input: MoveInput): Promise<Moved> {
  return shop.write(async (tx) => {
    let filled: Filled[] = [];
    const moveId = await once(tx, shop, input.key, async () => {
      const moved = await recordMoveIn(tx, shop, input);
      filled = moved.filled;
      return moved.moveId;
    });
    return { moveId, filled };
  });
}

/**
 * As recordMove, inside a transaction of the caller's (which also sees to the idempotency key).
 * `fromPromiseMilli` is how much of a use comes out of the job's own reservation; useReservedIn sets it.
 */
export async function recordMoveIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: Omit<MoveInput, "key"> & { fromPromiseMilli?: number },
): Promise<Moved> {
  const part = await tx.part.findUnique({
    where: { id: input.partId },
    select: {
      id: true,
      code: true,
      unit: true,
      onHandMilli: true,
      reservedMilli: true,
      onOrderMilli: true,
      averageE4: true,
      costE4: true,
    },
  });
  if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
  const quantityMilli = signed(input.kind, input.quantityMilli, part.unit);
  const fromPromise = input.fromPromiseMilli ?? 0;
  const left = part.onHandMilli + quantityMilli;
  if (left < 0) throw notThere(part, quantityMilli);
  if (left < part.reservedMilli - fromPromise)
    throw promised(part, quantityMilli, await holdersIn(tx, part.id));

  const given = input.unitCostE4 ?? null;
  const { unitCostE4, averageE4 } = await costIn(tx, part, {
    kind: input.kind,
    quantityMilli,
    unitCostE4: given,
  });
  const { count } = await tx.part.updateMany({
    where: { id: part.id, onHandMilli: part.onHandMilli, reservedMilli: part.reservedMilli },
    data: {
      onHandMilli: { increment: quantityMilli },
      reservedMilli: { decrement: fromPromise },
      averageE4,
      ...(input.kind === "receipt" ? { onOrderMilli: Math.max(0, part.onOrderMilli - quantityMilli) } : {}),
      ...(input.kind === "receipt" && given !== null ? { costE4: given } : {}),
    },
  });
  if (count !== 1) throw new Refusal("This part's stock has just changed.", "Do it again.", {}, "conflict");
  const move = await tx.move.create({
    data: {
      partId: part.id,
      kind: input.kind,
      quantityMilli,
      unitCostE4,
      at: shop.now,
      staffId: shop.by.staffId,
      jobId: input.jobId ?? null,
      stepId: input.stepId ?? null,
      why: input.why ?? "",
    },
    select: { id: true },
  });
  await audit(tx, shop, input.kind, "part", part.id, { moveId: move.id, quantityMilli });
  const filled = quantityMilli > 0 ? await fillShortagesIn(tx, shop, part.id) : [];
  return { moveId: move.id, filled };
}

/** Refuses a quantity that is not a positive whole number of thousandths, or a broken piece. */
export function demandQuantity(quantityMilli: number, unit: string): void {
  if (!Number.isSafeInteger(quantityMilli) || quantityMilli <= 0)
    throw new Refusal("A quantity must be more than nothing.", "Enter how much.", {
      quantityMilli: "Enter how much.",
    });
  if (unit === "each" && quantityMilli % 1000 !== 0)
    throw new Refusal("This part is counted in pieces.", "Enter a whole number.", {
      quantityMilli: "Enter a whole number.",
    });
}

function signed(kind: MoveKindName, quantityMilli: number, unit: string): number {
  demandQuantity(Math.abs(quantityMilli), unit);
  const direction = DIRECTION[kind];
  if (direction === 0) return quantityMilli;
  if (direction === 1 && quantityMilli < 0)
    throw new Refusal("What comes in cannot be less than nothing.", "Enter how much came in.", {
      quantityMilli: "Enter how much.",
    });
  return direction * Math.abs(quantityMilli);
}

interface Stood {
  code: string;
  unit: string;
  onHandMilli: number;
  reservedMilli: number;
}

function notThere(part: Stood, quantityMilli: number): Refusal {
  return new Refusal(
    `Only ${quantityText(part.onHandMilli, part.unit)} of ${part.code} is on hand, not ${quantityText(-quantityMilli, part.unit)}.`,
    "Count the bin, or receive what is missing first.",
    { quantityMilli: `At most ${quantityText(part.onHandMilli, part.unit)}.` },
  );
}

function promised(part: Stood, quantityMilli: number, holders: readonly HeldBy[]): Refusal {
  const free = part.onHandMilli - part.reservedMilli;
  const whom = holders.map((h) => `${quantityText(h.heldMilli, part.unit)} to job ${h.jobNumber}`).join(", ");
  return new Refusal(
    `${quantityText(-quantityMilli, part.unit)} of ${part.code} is not free: ${whom} is promised, ${quantityText(free, part.unit)} is left over.`,
    "Use it from that job's card, or release its reservation first.",
    { quantityMilli: `At most ${quantityText(free, part.unit)} is free.` },
  );
}
