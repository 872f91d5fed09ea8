import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { countryKeeping, keepingOf, keptNoLonger, keptUntil } from "@/lib/domain/invoices/keeping";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, endOfDay } from "@/lib/domain/schedule/days";
import type { Tied } from "./tied";

type Reads = Pick<ShopTx, "settings"> | Pick<ShopReader, "settings">;

export const KEPT_NOUNS = ["invoice", "revision", "job"] as const;
export type KeptNoun = (typeof KEPT_NOUNS)[number];

/** How a shop reckons: its country's rule, or the longer time that it asked for. */
async function keepingTerms(reads: Reads) {
  const { country, keepYears, zone } = await reads.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { country: true, keepYears: true, zone: true },
  });
  return { country, zone, ...keepingOf(country, keepYears) };
}

/** Says for how many years; never fewer than a known rule of the country wants. */
export async function keepFor(shop: ShopHandle, years: number | null): Promise<void> {
  await shop.write(async (tx) => {
    const { country } = await keepingTerms(tx);
    const rule = countryKeeping(country);
    if (rule.known && years !== null && years < rule.years)
      throw new Refusal(
        `The law of your country wants ${rule.years} years. ${rule.source}.`,
        "Enter as many or more, or leave it blank. Nothing was changed.",
        { years: `At least ${rule.years}.` },
      );
    await tx.settings.update({ where: { id: 1 }, data: { keepYears: years }, select: { id: true } });
    await audit(tx, shop, "changed", "settings", null, { keepYears: years });
  });
}

interface ToKeep {
  readonly noun: KeptNoun;
  readonly nounId: number;
  readonly day: string;
}

const latest = (days: readonly (string | null)[]) =>
  days
    .filter((day) => day !== null)
    .sort()
    .at(-1) ?? "";

/**
 * What of a customer the law wants kept, each with the last day of what it tells: of a document the day it was issued or last paid, of
 * what was agreed the last of its documents too.
 */
async function toKeepOf(
  tx: Pick<ShopTx, "invoice" | "quoteRevision" | "job" | "settings">,
  { customerId }: Pick<Tied, "customerId">,
): Promise<ToKeep[]> {
  const { zone } = await keepingTerms(tx);
  const paid = { select: { paidOn: true }, orderBy: { paidOn: "desc" as const }, take: 1 };
  const invoices = await tx.invoice.findMany({
    where: { customerId, state: "issued" },
    select: { id: true, jobId: true, issuedOn: true, payments: paid, sale: { select: { payments: paid } } },
    orderBy: { id: "asc" },
  });
  const revisions = await tx.quoteRevision.findMany({
    where: { quote: { customerId }, OR: [{ acceptance: { isNot: null } }, { job: { isNot: null } }] },
    select: {
      id: true,
      createdAt: true,
      acceptance: { select: { at: true } },
      job: { select: { id: true } },
    },
    orderBy: { id: "asc" },
  });
  const jobs = await tx.job.findMany({
    where: { customerId },
    select: { id: true, createdAt: true, payments: paid },
    orderBy: { id: "asc" },
  });
  const ofInvoices = invoices.map((row) => ({
    jobId: row.jobId,
    noun: "invoice" as const,
    nounId: row.id,
    day: latest([row.issuedOn, ...[...row.payments, ...(row.sale?.payments ?? [])].map((one) => one.paidOn)]),
  }));
  const invoicedOn = (jobId: number | undefined) =>
    ofInvoices.filter((one) => one.jobId !== null && one.jobId === jobId).map((one) => one.day);
  return [
    ...ofInvoices.map(({ noun, nounId, day }) => ({ noun, nounId, day })),
    ...revisions.map(({ id, createdAt, acceptance, job }) => ({
      noun: "revision" as const,
      nounId: id,
      day: latest([dayIn(zone, acceptance?.at ?? createdAt), ...invoicedOn(job?.id)]),
    })),
    ...jobs.map(({ id, createdAt, payments }) => ({
      noun: "job" as const,
      nounId: id,
      day: latest([dayIn(zone, createdAt), ...payments.map((one) => one.paidOn), ...invoicedOn(id)]),
    })),
  ];
}

/** Notes what is kept of a customer who is being erased. */
export async function keepIn(tx: ShopTx, tied: Tied): Promise<void> {
  for (const one of await toKeepOf(tx, tied)) {
    const { customerId } = tied;
    await tx.keptRecord.upsert({
      where: { noun_nounId: { noun: one.noun, nounId: one.nounId } },
      create: { customerId, ...one },
      update: {},
      select: { id: true },
    });
  }
}

export interface Kept extends ToKeep {
  /** As people call it: “Invoice 1001”. */
  readonly name: string;
  readonly until: string;
  /** The record still says who they were. */
  readonly whole: boolean;
}

/** What is kept of a customer, or would be, until when and by which rule; the one that is over first comes first. */
export async function keptOf(
  shop: ShopHandle,
  customerId: number,
): Promise<{ kept: Kept[]; years: number; source: string; erased: boolean }> {
  const { country, years, source } = await keepingTerms(shop.read);
  const noted = await shop.read.keptRecord.findMany({
    where: { customerId },
    select: { noun: true, nounId: true, day: true, minimisedAt: true },
    orderBy: { id: "asc" },
    take: MOST_SHOWN,
  });
  const rows = noted.length
    ? noted
    : (await toKeepOf(shop.read as unknown as ShopTx, { customerId })).map((one) => ({
        ...one,
        minimisedAt: null,
      }));
  const names = await namesOf(shop, rows);
  const kept = rows.map((row) => ({
    noun: row.noun as KeptNoun,
    nounId: row.nounId,
    day: row.day,
    name: names.get(`${row.noun} ${row.nounId}`) ?? "",
    until: keptUntil(row.day, country, years),
    whole: row.minimisedAt === null,
  }));
  return {
    kept: kept.sort((one, other) => one.until.localeCompare(other.until) || one.nounId - other.nounId),
    years,
    source,
    erased: noted.length > 0,
  };
}

const MOST_SHOWN = 500;
const KINDS = { invoice: "Invoice", creditNote: "Credit note", receipt: "Receipt" } as const;

async function namesOf(shop: ShopHandle, rows: readonly { noun: string; nounId: number }[]) {
  const ids = (noun: KeptNoun) => ({ in: rows.filter((row) => row.noun === noun).map((row) => row.nounId) });
  const [invoices, revisions, jobs] = await Promise.all([
    shop.read.invoice.findMany({
      where: { id: ids("invoice") },
      select: { id: true, kind: true, written: true },
      orderBy: { id: "asc" },
    }),
    shop.read.quoteRevision.findMany({
      where: { id: ids("revision") },
      select: { id: true, quote: { select: { number: true } } },
      orderBy: { id: "asc" },
    }),
    shop.read.job.findMany({
      where: { id: ids("job") },
      select: { id: true, number: true },
      orderBy: { id: "asc" },
    }),
  ]);
  return new Map<string, string>([
    ...invoices.map((row) => [`invoice ${row.id}`, `${KINDS[row.kind]} ${row.written}`] as const),
    ...revisions.map((row) => [`revision ${row.id}`, `Quote ${row.quote.number}, accepted`] as const),
    ...jobs.map(
      (row) => [`job ${row.id}`, `What was agreed by word and paid for job ${row.number}`] as const,
    ),
  ]);
}

async function overIn(shop: ShopHandle) {
  const { country, zone, years } = await keepingTerms(shop.read);
  return { minimisedAt: null, day: { lte: keptNoLonger(dayIn(zone, shop.now), country, years) } };
}

const A_ROUND = 50;

/** Records whose time is over, some at a time. */
export async function recordsOver(shop: ShopHandle) {
  return shop.read.keptRecord.findMany({
    where: await overIn(shop),
    select: { id: true, customerId: true, noun: true, nounId: true },
    orderBy: { id: "asc" },
    take: A_ROUND,
  });
}

export async function hasRecordsOver(shop: ShopHandle): Promise<boolean> {
  const where = await overIn(shop);
  return (
    (await shop.read.keptRecord.findFirst({ where, select: { id: true }, orderBy: { id: "asc" } })) !== null
  );
}

/** When the next record's time is over; null where none is kept. */
export async function nextRecordOver(shop: ShopHandle): Promise<Date | null> {
  const { country, zone, years } = await keepingTerms(shop.read);
  const first = await shop.read.keptRecord.findFirst({
    where: { minimisedAt: null },
    select: { day: true },
    orderBy: { day: "asc" },
  });
  return first && endOfDay(keptUntil(first.day, country, years), zone);
}
