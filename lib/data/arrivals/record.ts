import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { ArrivalInput } from "@/lib/schemas/arrivals";
import type { SignatureInput } from "@/lib/schemas/signature";
import { keepOdometerIn } from "../bikes/odometer";
import { jobIn, moveJobIn } from "../jobs/states";

/**
 * Takes a bike in: how it stood is kept with its bike, and with its job or booking, which say from then on that it is here. A
 * record that replaces another is of the same bike, job and booking. Answers its id.
 */
export async function recordArrival(shop: ShopHandle, input: ArrivalInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "took down how a bike came", input, () => recordIn(tx, shop, input)),
  );
}

async function recordIn(tx: ShopTx, shop: ShopHandle, input: ArrivalInput): Promise<number> {
  const { odometerKm, odometerRight, fuelEighths, keys, accessories, words } = input;
  const of = input.replacesId === undefined ? await ofIn(tx, input) : await replacedIn(tx, input.replacesId);
  await keepOdometerIn(tx, shop, of.bikeId, { odometerKm, odometerRight });
  if (of.jobId !== null) await jobHereIn(tx, shop, of.jobId, odometerKm);
  if (of.bookingId !== null) await bookingHereIn(tx, shop, of.bookingId, of.bikeId);
  const firstIds = await firstsIn(tx, input);
  const made = await tx.arrival.create({
    data: {
      ...of,
      at: shop.now,
      staffId: shop.by.staffId,
      odometerKm,
      fuelEighths,
      keys,
      accessories,
      words,
      replacesId: input.replacesId ?? null,
      damages: {
        create: input.damages.map(({ firstId, ...damage }) => ({
          ...damage,
          firstId: firstId === undefined ? null : (firstIds.get(firstId) ?? null),
        })),
      },
    },
    select: { id: true },
  });
  await audit(tx, shop, input.replacesId === undefined ? "recorded" : "recorded anew", "arrival", made.id, {
    ...of,
    ...(input.replacesId === undefined ? {} : { replaces: input.replacesId }),
  });
  return made.id;
}

interface Of {
  readonly bikeId: number;
  readonly jobId: number | null;
  readonly bookingId: number | null;
}

/** What a first record is of: a job's bike, a booking's, or a bike that just came. */
async function ofIn(tx: ShopTx, { jobId, bookingId, bikeId }: ArrivalInput): Promise<Of> {
  if (jobId !== undefined) {
    const job = await jobIn(tx, jobId);
    if (!["waiting", "booked", "inWork", "ride"].includes(job.state))
      throw new Refusal(
        `Job ${job.number} is not going on any more.`,
        "Record how a bike came while its job goes on.",
        {},
        "conflict",
      );
    return { jobId, bikeId: job.bikeId, bookingId: null };
  }
  if (bookingId !== undefined) return ofBooking(tx, bookingId, bikeId);
  return { bikeId: (await demandBike(tx, bikeId)).id, jobId: null, bookingId: null };
}

async function ofBooking(tx: ShopTx, bookingId: number, chosen: number | undefined): Promise<Of> {
  const booking = await tx.booking.findUnique({
    where: { id: bookingId },
    select: { jobId: true, bikeId: true, customerId: true, state: true, job: { select: { bikeId: true } } },
  });
  if (!booking) throw new Refusal("There is no such booking.", "Open it from the bookings.", {}, "missing");
  if (booking.state === "cancelled")
    throw new Refusal(
      "This booking was cancelled.",
      "Take it up again, or book the bike in anew.",
      {},
      "conflict",
    );
  const known = booking.job?.bikeId ?? booking.bikeId;
  if (known !== null) return { bookingId, bikeId: known, jobId: booking.jobId };
  const bike = await demandBike(tx, chosen);
  if (booking.customerId !== null && booking.customerId !== bike.customerId)
    throw new Refusal("This bike is another customer's.", "Choose a bike of the customer who is booked in.", {
      bikeId: "Another customer's.",
    });
  await tx.booking.updateMany({
    where: { id: bookingId, bikeId: null },
    data: { bikeId: bike.id, customerId: bike.customerId, version: { increment: 1 } },
  });
  return { bookingId, bikeId: bike.id, jobId: null };
}

async function demandBike(tx: ShopTx, id: number | undefined) {
  const bike =
    id === undefined
      ? null
      : await tx.bike.findUnique({ where: { id }, select: { id: true, customerId: true } });
  if (bike) return bike;
  throw new Refusal("It is not said which bike came.", "Choose the bike, or enter it first.", {
    bikeId: "Choose the bike.",
  });
}

async function replacedIn(tx: ShopTx, id: number): Promise<Of> {
  const before = await tx.arrival.findUnique({
    where: { id },
    select: { bikeId: true, jobId: true, bookingId: true, replacedBy: { select: { id: true } } },
  });
  if (!before) throw new Refusal("There is no such arrival.", "Open it from its bike.", {}, "missing");
  const { replacedBy, ...of } = before;
  if (replacedBy)
    throw new Refusal(
      "A later record replaces this one already.",
      "Open the later one, and correct that.",
      {},
      "conflict",
    );
  return of;
}

/** The job's bike is here from now on; a later record only puts the odometer right. */
async function jobHereIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  odometerKm: number | null,
): Promise<void> {
  const job = await jobIn(tx, jobId);
  if (job.arrivedAt === null && (job.state === "waiting" || job.state === "booked")) {
    await moveJobIn(tx, job, ["waiting", "booked"], { arrivedAt: shop.now, odometerKm });
    await audit(tx, shop, "arrived", "job", job.id, { odometerKm });
  } else if (odometerKm !== null) await tx.job.updateMany({ where: { id: jobId }, data: { odometerKm } });
}

async function bookingHereIn(tx: ShopTx, shop: ShopHandle, id: number, bikeId: number): Promise<void> {
  const { count } = await tx.booking.updateMany({
    where: { id, arrivedAt: null },
    data: { arrivedAt: shop.now, version: { increment: 1 } },
  });
  if (count > 0) await audit(tx, shop, "arrived", "booking", id, { bikeId });
}

/** By each mark of the replaced record the one that it goes back to, whose photos are its own. */
async function firstsIn(tx: ShopTx, { replacesId, damages }: ArrivalInput): Promise<Map<number, number>> {
  const asked = damages.flatMap(({ firstId }) => (firstId === undefined ? [] : [firstId]));
  if (replacesId === undefined || asked.length === 0) return new Map();
  const rows = await tx.arrivalDamage.findMany({
    where: { id: { in: asked }, arrivalId: replacesId },
    select: { id: true, firstId: true },
    orderBy: { id: "asc" },
  });
  return new Map(rows.map((row) => [row.id, row.firstId ?? row.id]));
}

/** Whoever brought the bike signs how it came: from then on nothing of it changes. */
export async function signArrival(
  shop: ShopHandle,
  input: SignatureInput & { id: number; version: number; key?: string | undefined },
): Promise<void> {
  const { id, version, signedBy, signature } = input;
  await shop.write((tx) =>
    once(tx, shop, "signed an arrival", input, async () => {
      await demandOne(
        tx.arrival.updateMany({
          where: { id, version, signedAt: null, replacedBy: null },
          data: { signedAt: shop.now, signedBy, signature, version: { increment: 1 } },
        }),
        () =>
          new Refusal(
            "This arrival was signed or replaced meanwhile.",
            "Open it again and look at it as it is now.",
            {},
            "conflict",
          ),
      );
      await audit(tx, shop, "signed", "arrival", id, { signedBy, drawn: signature !== "" });
      return id;
    }),
  );
}
