import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import { insertReservation, reserveAll } from "@/lib/db/reserving";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { reserve } from "@/lib/domain/stock/reserve";
import { quantityText } from "@/lib/schemas/quantity";
import { recordMoveIn } from "./moves";
import { demandAmount, demandQuantity } from "./quantity";
import { fillShortagesIn, holdersIn, type ReservedBy, reserveMore, shortOf } from "./shortages";

export type { ReservedBy } from "./shortages";

export interface ReserveInput {
  jobId: number;
  stepId?: number | undefined;
  partId: number;
  wantedMilli: number;
}

export interface Reserved {
  reservationId: number;
  reservedMilli: number;
  shortMilli: number;
  /** When short: the jobs that have the rest. */
  reservedBy: ReservedBy[];
}

/**
 * Reservations a part to a job: holds what is free, records the rest as short and says who has it. The row is its own
 * record of who wanted what and when; acceptance, which makes most of them, is on the audit trail itself.
 */
export async function reserveIn(tx: ShopTx, shop: ShopHandle, input: ReserveInput): Promise<Reserved> {
  const { jobId, stepId = null, partId, wantedMilli } = input;
  demandAmount(wantedMilli);
  // Nearly always all of it is free: the write that reserves it then is the check as well.
  const all = await reserveAll(tx, shop, partId, wantedMilli);
  const reservedMilli = all ? wantedMilli : await reserveSome(tx, partId, wantedMilli);
  const reservationId = await insertReservation(tx, shop, {
    partId,
    jobId,
    stepId,
    wantedMilli,
    reservedMilli,
  });
  const shortMilli = wantedMilli - reservedMilli;
  const reservedBy = shortMilli > 0 ? await holdersIn(tx, partId, jobId) : [];
  return { reservationId, reservedMilli, shortMilli, reservedBy };
}

/** Reserves what is free of a part where that is less than is wanted, or refuses what cannot be wanted; answers how much. */
async function reserveSome(tx: ShopTx, partId: number, wantedMilli: number): Promise<number> {
  const part = await tx.part.findUnique({
    where: { id: partId },
    select: { id: true, unit: true, onHandMilli: true, reservedMilli: true },
  });
  if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
  demandQuantity(wantedMilli, part.unit);
  const { fromStockMilli } = reserve({
    wantedMilli,
    onHandMilli: part.onHandMilli,
    reservedMilli: part.reservedMilli,
  });
  await reserveMore(tx, part, fromStockMilli);
  return fromStockMilli;
}

/** Gives back everything a job still holds; what becomes free goes to jobs that are short, oldest first. */
export async function releaseIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const rows = await tx.reservation.findMany({
    where: { jobId, state: "held" },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  for (const row of rows) await releaseOneIn(tx, shop, row.id);
}

/** Gives back one reservation, for a reason where a person gives one; what was used of it stays used. */
export async function releaseOneIn(
  tx: ShopTx,
  shop: ShopHandle,
  reservationId: number,
  unusedWhy = "",
): Promise<void> {
  const found = await held(tx, reservationId);
  await demandOne(
    tx.reservation.updateMany({
      where: { id: reservationId, state: "held", version: found.version },
      data: {
        state: found.usedMilli > 0 ? "used" : "released",
        reservedMilli: 0,
        unusedWhy,
        version: { increment: 1 },
      },
    }),
    () => changed(),
  );
  await reserveMore(tx, found.part, -found.reservedMilli);
  await audit(tx, shop, "released", "part", found.part.id, {
    job: found.job.number,
    reservedMilli: found.reservedMilli,
    ...(unusedWhy ? { why: unusedWhy } : {}),
  });
  await fillShortagesIn(tx, shop, found.part.id);
}

export async function releaseReservation(shop: ShopHandle, reservationId: number): Promise<void> {
  await shop.write((tx) => releaseOneIn(tx, shop, reservationId));
}

export interface UseInput {
  reservationId: number;
  quantityMilli: number;
  stepId?: number | undefined;
  key?: string | undefined;
}

/** Uses parts that a job holds: one move out of stock, and that much less reserved. */
export async function useReserved(shop: ShopHandle, input: UseInput): Promise<{ moveId: number }> {
  return shop.write(async (tx) => {
    // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
    const use = async () => (await useReservedIn(tx, shop, input)).moveId;
    return { moveId: await once(tx, shop, "used a reserved part", input, use) };
  });
}

/** As useReserved, inside a transaction of the caller's (which also sees to the idempotency key). */
export async function useReservedIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: Omit<UseInput, "key">,
): Promise<{ moveId: number }> {
  const { reservationId, quantityMilli, stepId } = input;
  const found = await held(tx, reservationId);
  const { part } = found;
  demandQuantity(quantityMilli, part.unit);
  if (quantityMilli > found.reservedMilli) throw await notHeld(tx, found, quantityMilli);
  const used = found.usedMilli + quantityMilli;
  await demandOne(
    tx.reservation.updateMany({
      where: { id: reservationId, state: "held", version: found.version },
      data: {
        reservedMilli: { decrement: quantityMilli },
        usedMilli: { increment: quantityMilli },
        state: used >= found.wantedMilli ? "used" : "held",
        version: { increment: 1 },
      },
    }),
    () => changed(),
  );
  const { moveId } = await recordMoveIn(tx, shop, {
    partId: part.id,
    kind: "use",
    quantityMilli,
    jobId: found.jobId,
    stepId: stepId ?? found.stepId ?? undefined,
    fromReservedMilli: quantityMilli,
  });
  return { moveId };
}

type Found = Awaited<ReturnType<typeof held>>;

async function held(tx: ShopTx, reservationId: number) {
  const found = await tx.reservation.findUnique({
    where: { id: reservationId },
    select: {
      id: true,
      jobId: true,
      stepId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      state: true,
      version: true,
      job: { select: { number: true } },
      part: { select: { id: true, code: true, unit: true, onHandMilli: true, reservedMilli: true } },
    },
  });
  if (!found) throw new Refusal("There is no such reservation.", "Reload the job.", {}, "missing");
  if (found.state !== "held")
    throw new Refusal(
      `This reservation of ${found.part.code} is ${found.state === "used" ? "used up" : "released"}.`,
      "Reload the job, and reserve the part again if it is still needed.",
      {},
      "conflict",
    );
  return found;
}

async function notHeld(tx: ShopTx, found: Found, quantityMilli: number): Promise<Refusal> {
  const { part } = found;
  const others = await holdersIn(tx, part.id, found.jobId);
  const who = others
    .map((o) => `job ${o.jobNumber} has ${quantityText(o.reservedMilli, part.unit)}`)
    .join(", ");
  const waits = shortOf(found) > 0 ? ` It is short of ${quantityText(shortOf(found), part.unit)}.` : "";
  return new Refusal(
    `Job ${found.job.number} holds ${quantityText(found.reservedMilli, part.unit)} of ${part.code}, not ${quantityText(quantityMilli, part.unit)}.${waits}${who && ` ${who[0]?.toUpperCase()}${who.slice(1)}.`}`,
    "Use what is held, or receive more first.",
    { quantityMilli: `At most ${quantityText(found.reservedMilli, part.unit)}.` },
  );
}

const changed = () =>
  new Refusal(
    "This reservation has just been changed by someone else.",
    "Reload the job and look again.",
    {},
    "conflict",
  );
