import type { ShopHandle } from "@/lib/db/shop";
import { bikeByPlate } from "../bikes/bikeName";
import { type ArrivalView, getArrival, standingArrival } from "./get";

const BIKE = {
  id: true,
  plate: true,
  odometerKm: true,
  customer: { select: { name: true } },
  modelCard: { select: { make: true, model: true } },
} as const;

interface ComingBike {
  readonly id: number;
  readonly plate: string;
  readonly odometerKm: number | null;
  readonly customer: { readonly name: string };
  readonly modelCard: { readonly make: string; readonly model: string };
}

/** What a record is going to be of, and what is known of it already. */
export interface ToRecord {
  readonly hidden: Readonly<Partial<Record<"jobId" | "bookingId" | "bikeId" | "replacesId", number>>>;
  /** Null where the booking's bike is not known yet: it is chosen. */
  readonly bike: {
    readonly name: string;
    readonly customer: string;
    readonly odometerKm: number | null;
  } | null;
  readonly about: string;
  /** What was said when it was booked in. */
  readonly words: string;
  /** The record that stands already. */
  readonly standing: number | null;
  /** The record that is being corrected. */
  readonly before: ArrivalView | null;
}

const bikeOf = (bike: ComingBike) => ({
  name: bikeByPlate(bike),
  customer: bike.customer.name,
  odometerKm: bike.odometerKm,
});

/** What is asked for: a job, a booking, a bike, or a record to be corrected; null where there is no such thing. */
export async function arrivalToRecord(
  shop: ShopHandle,
  asked: Partial<Record<"jobId" | "bookingId" | "bikeId" | "replacesId", number | undefined>>,
): Promise<ToRecord | null> {
  if (asked.replacesId) return toCorrect(shop, asked.replacesId);
  if (asked.jobId) {
    const job = await shop.read.job.findUnique({
      where: { id: asked.jobId },
      select: { id: true, number: true, title: true, bike: { select: BIKE } },
    });
    if (!job) return null;
    const standing = await standingArrival(shop, { jobId: job.id });
    const about = `Job ${job.number}, ${job.title}`;
    return { hidden: { jobId: job.id }, bike: bikeOf(job.bike), about, words: "", standing, before: null };
  }
  if (asked.bookingId) {
    const booking = await shop.read.booking.findUnique({
      where: { id: asked.bookingId },
      select: {
        id: true,
        words: true,
        guestName: true,
        bike: { select: BIKE },
        customer: { select: { name: true } },
        job: { select: { number: true, title: true, bike: { select: BIKE } } },
      },
    });
    if (!booking) return null;
    const { job, words } = booking;
    const bike = job?.bike ?? booking.bike;
    return {
      hidden: { bookingId: booking.id },
      bike: bike && bikeOf(bike),
      about: job
        ? `Job ${job.number}, ${job.title}`
        : [booking.customer?.name ?? booking.guestName, words].filter(Boolean).join(": "),
      words: job ? "" : words,
      standing: await standingArrival(shop, { bookingId: booking.id }),
      before: null,
    };
  }
  const bike = asked.bikeId
    ? await shop.read.bike.findUnique({ where: { id: asked.bikeId }, select: BIKE })
    : null;
  if (!bike) return null;
  return {
    hidden: { bikeId: bike.id },
    bike: bikeOf(bike),
    about: "",
    words: "",
    standing: null,
    before: null,
  };
}

async function toCorrect(shop: ShopHandle, id: number): Promise<ToRecord | null> {
  const before = await getArrival(shop, id);
  if (!before) return null;
  return {
    hidden: { replacesId: before.id },
    bike: {
      name: [before.bike.name, before.bike.plate].filter(Boolean).join(", "),
      customer: before.customer.name,
      odometerKm: before.odometerKm,
    },
    about: before.job ? `Job ${before.job.number}` : "",
    words: before.words,
    standing: before.replacedBy?.id ?? null,
    before,
  };
}
