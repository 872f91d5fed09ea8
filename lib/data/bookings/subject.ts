import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { printedVisit, type Visited, visitOf } from "@/lib/domain/schedule/visit";
import { customerLocale } from "@/lib/words/language";
import { visitWords } from "@/lib/words/visit";
import { frozenVisit } from "../documents/visit";
import { encloseIn } from "../mail/attachments";
import { type Addressee, type Written, writeLetterIn } from "../mail/letters";
import { type BookedFor, bookedFor, FOR, UNKNOWN_BIKE } from "./bookedFor";
import type { Formats } from "./facts";
import { bookingLetter, type News } from "./words";

/** What a booking is for, as a write decides about it and tells of it. */
export interface Subject {
  readonly job: JobOf | null;
  readonly of: BookedFor;
  /** Where its news goes. */
  readonly to: Addressee;
  /** Theirs; empty is the shop's. */
  readonly language: string;
}

type JobOf = Awaited<ReturnType<typeof jobOf>>;

/** The job that a booking is for. */
export async function jobOf(tx: Pick<ShopTx, "job">, id: number) {
  const job = await tx.job.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      title: true,
      minutes: true,
      customerId: true,
      bikeId: true,
      customer: { select: { name: true, phone: true, email: true, language: true, noLetters: true } },
      bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
      steps: { select: { minutes: true, state: true }, orderBy: { position: "asc" } },
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Choose one from the list of jobs.", {}, "missing");
  return job;
}

const NOBODY = { customer: null, bike: null, guestName: "", guestPhone: "", words: "" };

export const ofJob = (job: JobOf): Subject => ({
  job,
  of: bookedFor({ ...NOBODY, job }),
  to: job.customer,
  language: job.customer.language,
});

/** What a booking that is there is for. */
export async function subjectOf(
  tx: Pick<ShopTx, "job" | "booking">,
  booking: { readonly id: number; readonly jobId: number | null },
): Promise<Subject> {
  if (booking.jobId !== null) return ofJob(await jobOf(tx, booking.jobId));
  const row = await tx.booking.findUniqueOrThrow({
    where: { id: booking.id },
    select: {
      ...FOR,
      customer: {
        select: { id: true, name: true, phone: true, email: true, language: true, noLetters: true },
      },
    },
  });
  return {
    job: null,
    of: bookedFor(row),
    to: row.customer ?? { email: "", noLetters: false },
    language: row.customer?.language ?? "",
  };
}

/** What a letter says of it: the bike with its plate, and nothing where nobody knows the bike yet. */
export const saidOf = ({ job, of }: Subject) => ({
  ...of,
  bike: of.bike === UNKNOWN_BIKE ? "" : [of.bike, of.plate].filter(Boolean).join(" "),
  job: job?.number ?? null,
});

/** How the audit trail names it. */
export const named = ({ job, of }: Subject) =>
  job ? { job: job.number } : { customer: of.customer, words: of.title };

export const told = (
  fitted: { startsAt: Date; endsAt: Date; bayId: number; staffId: number },
  subject: Subject,
) => ({
  ...named(subject),
  startsAt: fitted.startsAt.toISOString(),
  endsAt: fitted.endsAt.toISOString(),
  bayId: fitted.bayId,
  staffId: fitted.staffId,
});

/** Writes to whoever the bike belongs to, with an entry for their calendar; answers why where nothing is written. */
export async function tell(
  tx: ShopTx,
  shop: ShopHandle,
  shops: Formats,
  news: News,
  subject: Subject,
  booking: Visited,
  free: readonly number[] = [],
): Promise<Written> {
  const { job, of, to, language } = subject;
  const said = saidOf(subject);
  const formats = { ...shops, locale: customerLocale(shops.locale, language) };
  const written = await writeLetterIn(tx, shop, {
    ...bookingLetter(news, said, booking, formats, free),
    to,
    locale: formats.locale,
    about: { noun: "booking", nounId: booking.id },
  });
  if ("withheld" in written) return written;
  const visit = visitOf(booking, {
    slug: shop.slug,
    bike: said.bike,
    job,
    words: of.title,
    place: formats,
    said: visitWords(formats.locale),
  });
  await encloseIn(tx, written.mailId, {
    noun: "booking",
    nounId: booking.id,
    form: "ics",
    name: `${job ? `job-${job.number}` : `booking-${booking.id}`}.ics`,
    printed: frozenVisit(printedVisit(visit, news === "cancelled" || news === "missed", shop.now)),
  });
  return written;
}
