import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";

const BIKE = {
  select: { plate: true, modelCard: { select: { make: true, model: true } } },
} satisfies Prisma.Booking$bikeArgs;

/** What a booking is for: its job, or whose bike comes and what for, as far as that is known. */
export const FOR = {
  job: {
    select: {
      id: true,
      number: true,
      title: true,
      state: true,
      arrivedAt: true,
      customer: { select: { name: true, phone: true } },
      bike: BIKE,
    },
  },
  customer: { select: { id: true, name: true, phone: true } },
  bike: BIKE,
  guestName: true,
  guestPhone: true,
  words: true,
} satisfies Prisma.BookingSelect;

type Row = Pick<
  Prisma.BookingGetPayload<{ select: typeof FOR }>,
  "customer" | "bike" | "guestName" | "guestPhone" | "words"
> & {
  readonly job: {
    readonly number: string;
    readonly title: string;
    readonly customer: { readonly name: string; readonly phone: string };
    readonly bike: Prisma.BikeGetPayload<typeof BIKE>;
  } | null;
};

/** What staff read where nobody knows yet which bike comes. */
export const UNKNOWN_BIKE = "bike not known yet";

export interface BookedFor {
  /** "Job 612", or that there is none yet. */
  readonly name: string;
  readonly title: string;
  /** Make and model; that it is not known yet. */
  readonly bike: string;
  /** The model alone, for where there is little room. */
  readonly model: string;
  readonly plate: string;
  readonly customer: string;
  readonly phone: string;
}

/** What a booking is for, as screens, calendars and mails say it. */
export function bookedFor(row: Row): BookedFor {
  const { job } = row;
  const bike = job?.bike ?? row.bike;
  const customer = job?.customer ?? row.customer;
  return {
    name: job ? `Job ${job.number}` : "No job yet",
    title: job?.title ?? row.words,
    bike: bike ? `${bike.modelCard.make} ${bike.modelCard.model}` : UNKNOWN_BIKE,
    model: bike?.modelCard.model ?? UNKNOWN_BIKE,
    plate: bike?.plate ?? "",
    customer: customer?.name ?? row.guestName,
    phone: customer?.phone ?? row.guestPhone,
  };
}
