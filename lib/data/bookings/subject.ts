import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { printedVisit, type Visited, visitOf } from "@/lib/domain/schedule/visit";
import { customerLocale } from "@/lib/words/language";
import { visitWords } from "@/lib/words/visit";
import { frozenVisit } from "../documents/visit";
import { encloseIn } from "../mail/attachments";
import { type BookedFor, bookedFor, FOR } from "./bookedFor";
import type { Formats } from "./facts";
import { bookingMail } from "./words";

/** What a booking is for, as a write decides about it and tells of it. */
export interface Subject {
  readonly job: JobOf | null;
  readonly of: BookedFor;
  /** Where its news goes; empty for nobody. */
  readonly email: string;
  /** Theirs; empty is the shop's. */
  readonly language: string;
}

type JobOf = Awaited<ReturnType<typeof jobOf>>;

/** The job that a booking is for. */
export async function jobOf(tx: ShopTx, id: number) {
  const job = await tx.job.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      title: true,
      minutes: true,
      customerId: true,
      customer: { select: { name: true, phone: true, email: true, language: true } },
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
  email: job.customer.email,
  language: job.customer.language,
});

/** What a booking that is there is for. */
export async function subjectOf(
  tx: ShopTx,
  booking: { readonly id: number; readonly jobId: number | null },
): Promise<Subject> {
  if (booking.jobId !== null) return ofJob(await jobOf(tx, booking.jobId));
  const row = await tx.booking.findUniqueOrThrow({
    where: { id: booking.id },
    select: {
      ...FOR,
      customer: { select: { id: true, name: true, phone: true, email: true, language: true } },
    },
  });
  return {
    job: null,
    of: bookedFor(row),
    email: row.customer?.email ?? "",
    language: row.customer?.language ?? "",
  };
}

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

/** Writes to whoever the bike belongs to, with an entry for their calendar; nobody where there is no address. */
export async function tell(
  tx: ShopTx,
  shop: ShopHandle,
  shops: Formats,
  news: Parameters<typeof bookingMail>[0],
  { job, of, email, language }: Subject,
  booking: Visited,
): Promise<void> {
  if (!email) return;
  const bike = [of.bike, of.plate].filter(Boolean).join(" ");
  const formats = { ...shops, locale: customerLocale(shops.locale, language) };
  const said = bookingMail(news, { ...of, bike, job: job?.number ?? null }, booking, formats);
  const mail = await tx.mail.create({
    data: { to: email, ...said, createdAt: shop.now },
    select: { id: true },
  });
  const visit = visitOf(booking, {
    slug: shop.slug,
    bike,
    job,
    words: of.title,
    place: formats,
    said: visitWords(formats.locale),
  });
  await encloseIn(tx, mail.id, {
    noun: "booking",
    nounId: booking.id,
    form: "ics",
    name: `${job ? `job-${job.number}` : `booking-${booking.id}`}.ics`,
    printed: frozenVisit(printedVisit(visit, news === "cancelled", shop.now)),
  });
}
