import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { BookedInFor } from "@/lib/schemas/bookings";
import { markBookedIn } from "../jobs/states";
import { bookingOf, guarded } from "./book";
import { formatsOf } from "./facts";
import { fitIn, type Wanted } from "./fit";
import { jobOf, ofJob, subjectOf, tell, told } from "./subject";

export interface BookInInput extends Wanted, BookedInFor {
  minutes: number;
  key?: string | undefined;
}

/** Books a bike in before there is a quote or a job: whose it is, as far as that is known, what for, and how long. Answers its id. */
export async function bookIn(shop: ShopHandle, input: BookInInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "booked a bike in", input, async () => {
      const whose = await whoseIn(tx, input);
      const formats = await formatsOf(tx);
      const fitted = await fitIn(tx, shop, formats, input, input.minutes, null);
      const made = await tx.booking.create({
        data: { ...whose, words: input.words, ...fitted },
        select: { id: true, jobId: true },
      });
      const subject = await subjectOf(tx, made);
      await audit(tx, shop, "booked", "booking", made.id, told(fitted, subject));
      await tell(tx, shop, formats, "made", subject, { ...fitted, id: made.id, version: 1 });
      return made.id;
    }),
  );
}

/** A known bike is its owner's; a known customer may come with a bike that is not known yet. */
async function whoseIn(tx: ShopTx, { bikeId, customerId, guestName, guestPhone }: BookedInFor) {
  if (bikeId !== undefined) {
    const bike = await tx.bike.findUnique({ where: { id: bikeId }, select: { customerId: true } });
    if (!bike) throw new Refusal("There is no such bike.", "Choose one from the list.", {}, "missing");
    return { bikeId, customerId: bike.customerId };
  }
  if (customerId === undefined) return { guestName, guestPhone };
  const found = await tx.customer.findUnique({ where: { id: customerId }, select: { id: true } });
  if (!found) throw new Refusal("There is no such customer.", "Choose one from the list.", {}, "missing");
  return { customerId };
}

/** Makes a booking that was made first the booking of a job of the same customer; its time stays. */
export async function bookingToJob(
  shop: ShopHandle,
  input: { id: number; version: number; jobId: number; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "gave a booking its job", input, async () => {
      const before = await bookingOf(tx, input.id, input.version, "held");
      if (before.jobId !== null)
        throw new Refusal("This booking has a job already.", "Open it from the day.", {}, "conflict");
      const job = await jobOf(tx, input.jobId);
      if (before.customerId !== null && before.customerId !== job.customerId)
        throw new Refusal(
          `Job ${job.number} is another customer's.`,
          "Choose a job of the customer who is booked in.",
          { jobId: "Another customer's." },
          "conflict",
        );
      await markBookedIn(tx, shop, job.id);
      await guarded(tx, before, { jobId: job.id });
      if (before.arrivedAt) await hereWithJobIn(tx, before.id, before.arrivedAt, job);
      await audit(tx, shop, "given its job", "booking", before.id, told(before, ofJob(job)));
      return before.id;
    }),
  );
}

/** A bike that stood here before its job was known is the job's bike, here since then. */
async function hereWithJobIn(
  tx: ShopTx,
  bookingId: number,
  arrivedAt: Date,
  job: { readonly id: number; readonly bikeId: number },
): Promise<void> {
  const { count } = await tx.arrival.updateMany({
    where: { bookingId, bikeId: job.bikeId, jobId: null },
    data: { jobId: job.id },
  });
  if (count === 0) return;
  await tx.job.updateMany({
    where: { id: job.id, arrivedAt: null, state: { in: ["waiting", "booked"] } },
    data: { arrivedAt, version: { increment: 1 } },
  });
}
