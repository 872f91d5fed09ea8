import { openJob } from "@/lib/data/acceptance/openJob";
import { createBike } from "@/lib/data/bikes/bikes";
import { cancelBooking } from "@/lib/data/bookings/book";
import { bookIn } from "@/lib/data/bookings/bookIn";
import { firstTimesFor } from "@/lib/data/bookings/times";
import { createCustomer } from "@/lib/data/customers/customers";
import { closeFree } from "@/lib/data/jobs/closeFree";
import { finishJob } from "@/lib/data/jobs/finish";
import { declineQuote } from "@/lib/data/quotes/answer";
import { sell } from "@/lib/data/sales/sell";
import { takeBack } from "@/lib/data/sales/takeBack";
import { OpenJobSchema } from "@/lib/schemas/agreements";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { SellSchema, TakeBackSchema } from "@/lib/schemas/sales";
import { type Bench, work } from "./acts";

/** Somebody whom nobody knows comes through the door with a bike of a model that the shop has a card of. */
export async function walkIn(bench: Bench, name: string, plate: string): Promise<number> {
  bench.pass(5);
  const customerId = await createCustomer(bench.shop, CustomerSchema.parse({ name, address: "9 Spit Lane" }));
  const card = await bench.shop.read.modelCard.findFirstOrThrow({ orderBy: { id: "asc" } });
  return createBike(
    bench.shop,
    NewBikeSchema.parse({
      card: "known",
      customerId: String(customerId),
      modelCardId: String(card.id),
      plate,
      frameNumber: `F-${plate}`,
    }),
  );
}

/** A look for an hour, said yes to on the phone; answers the job. */
export async function hourly(bench: Bench, bikeId: number, saidBy: string, upTo: string): Promise<number> {
  bench.pass(5);
  return openJob(
    bench.shop,
    OpenJobSchema.parse({
      bikeId: String(bikeId),
      kind: "word",
      title: "Have a look: stalls when hot",
      minutes: "60",
      grade: "workshop",
      saidBy,
      how: "phone",
      upTo,
    }),
  );
}

/** The bike comes back from a job that was finished; answers the new one. */
export async function comeback(bench: Bench, bikeId: number, of: number, percent: number): Promise<number> {
  bench.pass(5);
  return openJob(
    bench.shop,
    OpenJobSchema.parse({
      bikeId: String(bikeId),
      kind: "comeback",
      title: "Still stalls",
      minutes: "30",
      grade: "workshop",
      comebackOfId: String(of),
      charged: percent === 0 ? "nothing" : "part",
      percent: percent === 0 ? "" : String(percent),
      why: "We overlooked the vent hose",
    }),
  );
}

/** Works and finishes a job that changes no setting. */
export async function workPlain(bench: Bench, jobId: number): Promise<void> {
  await work(bench, jobId);
  bench.pass(3);
  const { version } = await bench.shop.read.job.findUniqueOrThrow({ where: { id: jobId } });
  await finishJob(bench.shop, {
    jobId,
    version,
    values: {},
    hows: {},
    odometerKm: null,
    cautions: "on",
    note: "Runs again.",
  });
}

export async function closedFree(bench: Bench, jobId: number): Promise<void> {
  bench.pass(2);
  const { version } = await bench.shop.read.job.findUniqueOrThrow({ where: { id: jobId } });
  await closeFree(bench.shop, { jobId, version });
}

/** Parts over the counter to a walk-in, by code and pieces, at a price of one; paid in cash to the coin. Answers the sale. */
export async function counter(
  bench: Bench,
  lines: readonly { code: string; pieces: number; price: string }[],
): Promise<number> {
  bench.pass(4);
  const sold = await Promise.all(
    lines.map(async ({ code, pieces, price }) => {
      const part = await bench.shop.read.part.findUniqueOrThrow({ where: { code } });
      return { partId: String(part.id), quantity: String(pieces), price };
    }),
  );
  const { given: _, ...input } = SellSchema.parse({ lines: sold, method: "cash" });
  return sell(bench.shop, { ...input, givenMinor: null });
}

/** All of a sale brought back, fit to be sold again. */
export async function broughtBack(bench: Bench, saleId: number): Promise<void> {
  bench.pass(30);
  const moves = await bench.shop.read.move.findMany({ where: { saleId } });
  await takeBack(
    bench.shop,
    TakeBackSchema.parse({
      saleId: String(saleId),
      reason: "Wrong size",
      method: "cash",
      back: moves.map((move) => String(move.partId)),
    }),
  );
}

/** Somebody calls, gets a time, and never comes; answers the booking. */
export async function noShow(bench: Bench, guestName: string): Promise<number> {
  bench.pass(5);
  const [time] = await firstTimesFor(bench.shop, 60);
  if (!time) throw new Error("No time was offered.");
  const id = await bookIn(bench.shop, {
    guestName,
    guestPhone: "555 0107",
    words: "runs hot",
    minutes: 60,
    bayId: time.bayId,
    staffId: time.staffId,
    startsAt: new Date(time.startsAt),
  });
  bench.pass(60);
  const { version } = await bench.shop.read.booking.findUniqueOrThrow({ where: { id } });
  await cancelBooking(bench.shop, { id, version, why: "Did not come" });
  return id;
}

/** The customer's no to a quote that was sent. */
export async function no(bench: Bench, revisionId: number, reason: string): Promise<void> {
  bench.pass(15);
  const { quoteId } = await bench.shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  const { version } = await bench.shop.read.quote.findUniqueOrThrow({ where: { id: quoteId } });
  await declineQuote(bench.shop, { id: quoteId, version, reason });
}
