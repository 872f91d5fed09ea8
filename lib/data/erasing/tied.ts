import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { NO_JSON } from "@/lib/db/noJson";
import type { ShopTx } from "@/lib/db/shop";
import type { Replaced } from "@/lib/db/withoutGuards";
import { hashOf } from "../common/hash";
import { cleaned, cleanedJson } from "./known";

/** Ids of all that hangs on a customer. */
export interface Tied {
  readonly customerId: number;
  readonly email: string;
  readonly bikes: readonly number[];
  readonly quotes: readonly number[];
  readonly revisions: readonly number[];
  readonly jobs: readonly number[];
  readonly bookings: readonly number[];
  readonly arrivals: readonly number[];
  readonly invoices: readonly number[];
}

const ids = (rows: readonly { id: number }[]) => rows.map(({ id }) => id);
const only = { select: { id: true }, orderBy: { id: "asc" } } as const;

export async function tiedTo(tx: ShopTx, customerId: number, email: string): Promise<Tied> {
  const where = { customerId };
  const [bikes, quotes, jobs] = [
    ids(await tx.bike.findMany({ where, ...only })),
    ids(await tx.quote.findMany({ where, ...only })),
    ids(await tx.job.findMany({ where, ...only })),
  ];
  const ofThem = { OR: [{ customerId }, { jobId: { in: jobs } }, { bikeId: { in: bikes } }] };
  return {
    customerId,
    email,
    bikes,
    quotes,
    jobs,
    revisions: ids(await tx.quoteRevision.findMany({ where: { quoteId: { in: quotes } }, ...only })),
    bookings: ids(await tx.booking.findMany({ where: ofThem, ...only })),
    arrivals: ids(await tx.arrival.findMany({ where: { bikeId: { in: bikes } }, ...only })),
    invoices: ids(await tx.invoice.findMany({ where, ...only })),
  };
}

/** The rows of all photos of their bikes and jobs go. Answers the names of their files. */
export async function erasePhotosIn(tx: ShopTx, { bikes, jobs, arrivals }: Tied): Promise<string[]> {
  const pairs = ids(await tx.photoPair.findMany({ where: { bikeId: { in: [...bikes] } }, ...only }));
  const of = { jobId: { in: [...jobs] } };
  const nouns: Record<string, number[]> = {
    bike: [...bikes],
    step: ids(await tx.step.findMany({ where: of, ...only })),
    finding: ids(await tx.finding.findMany({ where: of, ...only })),
    damage: ids(await tx.arrivalDamage.findMany({ where: { arrivalId: { in: [...arrivals] } }, ...only })),
    pairBefore: pairs,
    pairAfter: pairs,
  };
  const where = { OR: Object.entries(nouns).map(([noun, all]) => ({ noun, nounId: { in: all } })) };
  const photos = await tx.photo.findMany({ where, select: { file: true }, orderBy: { id: "asc" } });
  await tx.photo.deleteMany({ where });
  await tx.photoPair.deleteMany({ where: { id: { in: pairs } } });
  return photos.map(({ file }) => file);
}

/** Accepted revisions stay as they were agreed; others stay without a name. What is out can be answered no more. */
export async function eraseQuotesIn(tx: ShopTx, tied: Tied, texts: readonly Replaced[]): Promise<void> {
  const of = { quoteId: { in: [...tied.quotes] } };
  await tx.quoteQuestion.deleteMany({ where: of });
  await tx.quote.updateMany({
    where: { id: { in: [...tied.quotes] }, state: "sent" },
    data: { state: "declined", version: { increment: 1 } },
  });
  const quotes = await tx.quote.findMany({
    where: { id: { in: [...tied.quotes] } },
    select: { id: true, title: true, searchKey: true },
    orderBy: { id: "asc" },
  });
  for (const { id, title, searchKey } of quotes)
    await tx.quote.update({
      where: { id },
      data: {
        title: cleaned(title, texts),
        searchKey: cleaned(searchKey, texts),
        declineReason: "",
        callOn: null,
      },
      select: { id: true },
    });
  const open = await tx.quoteRevision.findMany({
    where: { ...of, acceptance: null, job: null },
    select: { id: true, frozen: true, terms: true, facts: true },
    orderBy: { id: "asc" },
  });
  for (const { id, frozen, terms, facts } of open) {
    const json = (value: unknown) =>
      value === null ? NO_JSON : (cleanedJson(value, texts) as Prisma.InputJsonValue);
    const now = frozen === null ? null : cleanedJson(frozen, texts);
    await tx.quoteRevision.update({
      where: { id },
      data: {
        frozen: json(frozen),
        terms: json(terms),
        facts: json(facts),
        hash: now === null ? null : hashOf(now),
      },
      select: { id: true },
    });
  }
}

/** Jobs, bookings and what was signed with them: the work stays, who it was for and their words go. */
export async function eraseJobsIn(
  tx: ShopTx,
  tied: Tied,
  texts: readonly Replaced[],
  name: string,
): Promise<void> {
  const of = { jobId: { in: [...tied.jobs] } };
  const jobs = await tx.job.findMany({
    where: { id: { in: [...tied.jobs] } },
    select: { id: true, title: true, searchKey: true },
    orderBy: { id: "asc" },
  });
  for (const { id, title, searchKey } of jobs)
    await tx.job.update({
      where: { id },
      data: { title: cleaned(title, texts), searchKey: cleaned(searchKey, texts), notes: "" },
      select: { id: true },
    });
  await tx.bookingWish.deleteMany({ where: of });
  const bookings = { id: { in: [...tied.bookings] } };
  await tx.booking.updateMany({ where: bookings, data: { guestName: "", guestPhone: "", note: "" } });
  await tx.booking.updateMany({ where: { ...bookings, words: { not: "" } }, data: { words: name } });
  const arrivals = { id: { in: [...tied.arrivals] } };
  await tx.arrival.updateMany({ where: arrivals, data: { words: "", accessories: "", signature: "" } });
  await tx.arrival.updateMany({ where: { ...arrivals, signedBy: { not: "" } }, data: { signedBy: name } });
  await tx.handoverSignature.updateMany({ where: of, data: { signedBy: name, signature: "" } });
  await tx.runAnswer.updateMany({ where: of, data: { words: "" } });
}

/** What was said of the bike in free words goes; what was measured and set stays. */
export async function eraseWordsIn(tx: ShopTx, { jobs, bikes }: Tied): Promise<void> {
  const [jobId, bikeId] = [{ in: [...jobs] }, { in: [...bikes] }];
  const intake = { OR: [{ jobId }, { bikeId }] };
  await tx.intakeObservation.updateMany({ where: { intake }, data: { note: "" } });
  await tx.intake.updateMany({
    where: intake,
    data: { complaint: "", changedBefore: "", note: "", withdrawnWhy: "" },
  });
  await tx.observation.updateMany({ where: { ride: { jobId } }, data: { note: "" } });
  await tx.testRide.updateMany({ where: { jobId }, data: { note: "" } });
  await tx.stepNote.deleteMany({ where: { step: { jobId } } });
  await tx.jobWait.updateMany({ where: { jobId }, data: { note: "" } });
  await tx.jobHandOver.updateMany({ where: { jobId }, data: { note: "" } });
  await tx.followUp.updateMany({ where: { bikeId }, data: { outcome: "" } });
}

/** Documents stay as they were issued; they are not found by the name any more. */
export async function eraseKeysIn(tx: ShopTx, tied: Tied, texts: readonly Replaced[]): Promise<void> {
  const rows = await tx.invoice.findMany({
    where: { id: { in: [...tied.invoices] } },
    select: { id: true, searchKey: true },
    orderBy: { id: "asc" },
  });
  for (const { id, searchKey } of rows)
    await tx.invoice.update({
      where: { id },
      data: { searchKey: cleaned(searchKey, texts) },
      select: { id: true },
    });
}

/** Mails, links, and what the shop's own books of record say of them. */
export async function eraseTracesIn(tx: ShopTx, tied: Tied, name: string): Promise<void> {
  const { customerId, bikes, quotes, jobs, bookings, arrivals, invoices, revisions, email } = tied;
  const nouns: Record<string, readonly number[]> = {
    customer: [customerId],
    bike: bikes,
    quote: quotes,
    job: jobs,
    booking: bookings,
    arrival: arrivals,
    invoice: invoices,
  };
  const about = Object.entries(nouns).map(([noun, all]) => ({ noun, nounId: { in: [...all] } }));
  const mails = ids(
    await tx.mail.findMany({ where: { OR: [...about, ...(email ? [{ to: email }] : [])] }, ...only }),
  );
  await tx.mailAttachment.deleteMany({ where: { mailId: { in: mails } } });
  await tx.reminder.updateMany({ where: { mailId: { in: mails } }, data: { mailId: null } });
  await tx.mail.deleteMany({ where: { id: { in: mails } } });
  await tx.customerLink.deleteMany({
    where: {
      OR: [
        { revisionId: { in: [...revisions] } },
        { jobId: { in: [...jobs] } },
        { invoiceId: { in: [...invoices] } },
      ],
    },
  });
  for (const noun of ["customer", "bike"]) {
    const nounId = { in: [...(nouns[noun] ?? [])] };
    await tx.knownKey.deleteMany({ where: { noun, nounId } });
    await tx.importEntry.updateMany({ where: { noun, nounId }, data: { was: NO_JSON } });
  }
  await tx.merged.updateMany({ where: { noun: "customer", keptId: customerId }, data: { name } });
  const told = ["customer", "bike", "booking", "arrival"].map((noun) => ({
    noun,
    nounId: { in: [...(nouns[noun] ?? [])] },
  }));
  await tx.auditEntry.updateMany({ where: { OR: told }, data: { detail: NO_JSON } });
}
