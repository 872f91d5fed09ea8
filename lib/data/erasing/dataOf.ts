import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";

/** So many rows of a kind at most: a request bounds what it asks for. What is cut off is said. */
const MOST = 2_000;

type Rows = readonly Readonly<Record<string, unknown>>[];

export interface PersonalData {
  readonly madeAt: string;
  readonly shop: string;
  /** By what they are: customer, bikes, quotes, … each a list of rows. */
  readonly parts: Readonly<Record<string, Rows>>;
  /** Parts of which there are more rows than stand here. */
  readonly cutOff: readonly string[];
}

/**
 * All that a shop knows of a customer as a person, for whoever asks for their own data (GDPR art. 15 and 20): what they are called and
 * reached at, their bikes, what was agreed, done, written and paid. Nothing of what it cost the shop, and of photos their names alone.
 * Null where there is no such customer.
 */
export async function personalData(shop: ShopHandle, customerId: number): Promise<PersonalData | null> {
  const { read } = shop;
  const customer = await read.customer.findUnique({
    where: { id: customerId },
    omit: { searchKey: true, version: true },
  });
  if (!customer) return null;
  const where = { customerId };
  const ofJobs = { job: { customerId } };
  const page = { orderBy: { id: "asc" as const }, take: MOST + 1 };
  const [settings, bikes, quotes, jobs, bookings] = await Promise.all([
    read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { name: true } }),
    read.bike.findMany({ where, omit: { searchKey: true, version: true }, ...page }),
    read.quote.findMany({
      where,
      select: {
        id: true,
        number: true,
        title: true,
        state: true,
        sentAt: true,
        validUntil: true,
        declineReason: true,
      },
      ...page,
    }),
    read.job.findMany({
      where,
      select: { id: true, number: true, title: true, state: true, createdAt: true, notes: true },
      ...page,
    }),
    read.booking.findMany({
      where: { OR: [where, ofJobs] },
      select: {
        id: true,
        startsAt: true,
        endsAt: true,
        guestName: true,
        guestPhone: true,
        words: true,
        note: true,
      },
      ...page,
    }),
  ]);
  const bikeId = { in: bikes.map(({ id }) => id) };
  const about = [
    { noun: "customer", ids: [customerId] },
    { noun: "bike", ids: bikes.map(({ id }) => id) },
    { noun: "quote", ids: quotes.map(({ id }) => id) },
    { noun: "job", ids: jobs.map(({ id }) => id) },
    { noun: "booking", ids: bookings.map(({ id }) => id) },
  ];
  const acceptances = await read.acceptance.findMany({
    where: { revision: { quote: where } },
    select: { id: true, typedName: true, acknowledgements: true, agent: true, language: true, at: true },
    ...page,
  });
  const questions = await read.quoteQuestion.findMany({
    where: { quoteId: { in: quotes.map(({ id }) => id) } },
    ...page,
  });
  const intakes = await read.intake.findMany({
    where: { bikeId },
    select: { id: true, bikeId: true, complaint: true, changedBefore: true, note: true },
    ...page,
  });
  const arrivals = await read.arrival.findMany({
    where: { bikeId },
    select: {
      id: true,
      bikeId: true,
      at: true,
      words: true,
      accessories: true,
      signedBy: true,
      signature: true,
    },
    ...page,
  });
  const answers = await read.runAnswer.findMany({
    where: ofJobs,
    select: { id: true, answer: true, words: true },
    ...page,
  });
  const invoices = await read.invoice.findMany({
    where: { ...where, state: "issued" },
    select: { id: true, kind: true, written: true, issuedOn: true, dueOn: true, frozen: true },
    ...page,
  });
  const payments = await read.payment.findMany({
    where: { OR: [{ invoice: where }, ofJobs] },
    select: { id: true, kind: true, method: true, amountMinor: true, paidOn: true, reference: true },
    ...page,
  });
  const mails = await read.mail.findMany({
    where: {
      OR: [
        ...about.map(({ noun, ids }) => ({ noun, nounId: { in: ids } })),
        { noun: "invoice", nounId: { in: invoices.map(({ id }) => id) } },
        ...(customer.email ? [{ to: customer.email }] : []),
      ],
    },
    select: { id: true, to: true, subject: true, text: true, state: true, createdAt: true, sentAt: true },
    ...page,
  });
  const photos = await read.photo.findMany({
    where: { noun: "bike", nounId: bikeId },
    select: { id: true, noun: true, nounId: true, file: true },
    ...page,
  });
  const found: Record<string, Rows> = {
    customer: [customer],
    bikes,
    quotes,
    acceptances,
    questions,
    jobs,
    bookings,
    intakes,
    arrivals,
    answers,
    invoices,
    payments,
    mails,
    photos,
  };
  return {
    madeAt: shop.now.toISOString(),
    shop: settings.name,
    parts: Object.fromEntries(Object.entries(found).map(([part, rows]) => [part, rows.slice(0, MOST)])),
    cutOff: Object.entries(found).flatMap(([part, rows]) => (rows.length > MOST ? [part] : [])),
  };
}

/** Writes down that somebody took a customer's data away. */
export async function notePersonalDataTaken(shop: ShopHandle, customerId: number): Promise<void> {
  await shop.write((tx) => audit(tx, shop, "gave out personal data", "customer", customerId));
}
