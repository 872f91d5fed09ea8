import { inTurns } from "@/lib/db/giveWay";
import type { ShopHandle } from "@/lib/db/shop";
import { depositLeftOf, settled } from "@/lib/domain/invoices/held";
import type { DocumentKind } from "@/lib/domain/invoices/printed";
import { gapIn, writtenNumber } from "@/lib/domain/numbers/series";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { hashOf } from "../common/hash";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";
import { costless } from "./basis";
import { creditProblems } from "./creditInvariants";
import { dateProblems } from "./order";

/** A sentence for each thing about a shop's money that does not hold; empty when all of it does. */
export async function moneyProblems(shop: ShopHandle): Promise<string[]> {
  const found = await Promise.all([
    invoicedTwice(shop),
    seriesProblems(shop, "invoice"),
    seriesProblems(shop, "receipt"),
    seriesProblems(shop, "creditNote"),
    dateProblems(shop, "invoice"),
    dateProblems(shop, "receipt"),
    dateProblems(shop, "creditNote"),
    documentProblems(shop),
  ]);
  return found.flat();
}

async function documentProblems(shop: ShopHandle): Promise<string[]> {
  const problems: string[] = [];
  for await (const row of eachIssued(shop)) problems.push(...problemsOf(row));
  return problems;
}

/** A job stands on one invoice at a time, be it its own or one that it shares. */
async function invoicedTwice(shop: ShopHandle): Promise<string[]> {
  const live = { kind: "invoice", takenBack: false } as const;
  const shared = await shop.read.invoiceJob.findMany({
    where: { invoice: live },
    select: {
      invoiceId: true,
      job: {
        select: {
          id: true,
          number: true,
          invoices: { where: live, select: { id: true }, orderBy: { id: "asc" }, take: 1 },
        },
      },
    },
    orderBy: { id: "asc" },
  });
  const invoices = new Map<number, Set<number>>();
  for (const { invoiceId, job } of shared)
    invoices.set(job.id, (invoices.get(job.id) ?? new Set<number>()).add(invoiceId));
  const twice = shared.filter(({ job }) => job.invoices.length > 0 || (invoices.get(job.id)?.size ?? 0) > 1);
  return [...new Set(twice.map(({ job }) => `Job ${job.number} stands on two invoices.`))];
}

/** What is wrong with the numbers of a kind of document: a gap, a counter that does not follow, a number written otherwise. */
export async function seriesProblems(shop: ShopHandle, kind: DocumentKind): Promise<string[]> {
  const [rows, counter] = await Promise.all([
    shop.read.invoice.findMany({
      where: { kind, state: "issued" },
      select: { number: true, written: true },
      orderBy: { number: "asc" },
    }),
    shop.read.counter.findUnique({
      where: { name: kind },
      select: { next: true, prefix: true, yearly: true },
    }),
  ]);
  const numbers = rows.map((row) => row.number ?? 0);
  const last = numbers.at(-1);
  if (last === undefined) return [];
  const style = { prefix: counter?.prefix ?? "", yearly: counter?.yearly ?? false };
  const next = counter?.next ?? 0;
  const gap = gapIn(style, numbers);
  return [
    ...(gap === null ? [] : [`The ${kind} numbers have a gap before ${writtenNumber(style, gap)}.`]),
    ...(next === last + 1 ? [] : [`The next ${kind} number is ${next}, not ${last + 1}.`]),
    ...rows
      .filter((row) => row.written !== writtenNumber(style, row.number ?? 0))
      .slice(0, 1)
      .map((row) => `The ${kind} number ${row.number} is written ${row.written}.`),
  ];
}

/** Frozen documents are long, and as many again may credit them: read beside other ledgers, so many at a time. */
const PAGE = 100;

const MONEY = {
  select: {
    payments: {
      select: { kind: true, invoiceId: true, amountMinor: true, roundingMinor: true },
      orderBy: { id: "asc" },
    },
  },
} as const;

async function pageAfter(shop: ShopHandle, after: number) {
  return shop.read.invoice.findMany({
    where: { state: "issued", id: { gt: after } },
    select: {
      id: true,
      kind: true,
      number: true,
      written: true,
      frozen: true,
      hash: true,
      netMinor: true,
      taxMinor: true,
      grossMinor: true,
      prepaidMinor: true,
      paidMinor: true,
      takenBack: true,
      taxes: { select: { issuedOn: true, category: true, rateBp: true, netMinor: true, taxMinor: true } },
      credits: { select: { frozen: true } },
      creditedBy: { select: { frozen: true, grossMinor: true }, orderBy: { id: "asc" } },
      job: { select: { number: true, ...MONEY.select } },
      furtherJobs: { select: { job: { select: { number: true, ...MONEY.select } } }, orderBy: { id: "asc" } },
      sale: MONEY,
    },
    orderBy: { id: "asc" },
    take: PAGE,
  });
}

type Row = Awaited<ReturnType<typeof pageAfter>>[number];

async function* eachIssued(shop: ShopHandle): AsyncGenerator<Row> {
  for (let after = 0; ; ) {
    const page = await pageAfter(shop, after);
    yield* inTurns(page);
    const last = page.at(-1);
    if (!last || page.length < PAGE) return;
    after = last.id;
  }
}

function problemsOf(row: Row): string[] {
  const name = `${KIND_NAMES[row.kind]} ${row.written}`;
  const jobs = [...(row.job ? [row.job] : []), ...row.furtherJobs.map((one) => one.job)];
  const payments = row.sale?.payments ?? jobs.flatMap((job) => job.payments);
  const doc = readable(row.frozen);
  if (!doc) return [`${name} cannot be read any more.`];
  // A note of a part counts on with the tax of those before it: the invoice's own check adds it up.
  const totals = doc.takes
    ? doc
    : invoiceTotals({ ...doc, lines: doc.lines.map(costless) }, doc.prepaidMinor);
  const credits = row.creditedBy.map((credit) => readable(credit.frozen));
  const own = payments
    .filter((payment) => payment.invoiceId === row.id)
    .reduce((sum, payment) => sum + settled(payment), 0);
  const overpaid = payments
    .filter((payment) => payment.invoiceId === row.id && payment.kind === "overpayment")
    .reduce((sum, payment) => sum + settled(payment), 0);
  // What is written off of another invoice of the job is no money of this one.
  const others = depositLeftOf(payments.filter((payment) => payment.invoiceId !== row.id));
  const creditedMinor = row.creditedBy.reduce((sum, credit) => sum - credit.grossMinor, 0);
  const holds: readonly (readonly [boolean, string])[] = [
    [hashOf(row.frozen) === row.hash, "is not what its hash was made of"],
    [
      doc.number === row.number && doc.written === row.written && doc.kind === row.kind,
      "prints another number than it has",
    ],
    [
      totals.netMinor === doc.netMinor &&
        totals.taxMinor === doc.taxMinor &&
        totals.grossMinor === doc.grossMinor,
      "does not add up",
    ],
    [
      doc.netMinor === row.netMinor && doc.taxMinor === row.taxMinor && doc.grossMinor === row.grossMinor,
      "prints other totals than are kept",
    ],
    [doc.netMinor + doc.taxMinor === doc.grossMinor, "has a total that is not net plus tax"],
    [keptTaxes(row) === printedTaxes(doc), "prints other taxes by rate than are kept"],
    [doc.prepaidMinor === row.prepaidMinor, "prints other money paid before than is kept"],
    [(row.job === null) !== (row.sale === null), "is of no job and no sale, or of both"],
    [
      doc.jobs.map((job) => job.number).join() === jobs.map((job) => job.number).join(),
      "prints other jobs than are kept",
    ],
    ...(row.kind === "creditNote"
      ? [
          [
            doc.takes !== undefined || mirrors(doc, row.credits?.frozen),
            "does not mirror the invoice it credits",
          ] as const,
        ]
      : [
          [row.paidMinor === own + creditedMinor, "keeps another sum paid than its payments"] as const,
          [
            own - overpaid + row.prepaidMinor <= Math.max(row.grossMinor, row.prepaidMinor),
            "is paid more than was due",
          ] as const,
          [
            row.takenBack || row.prepaidMinor === others,
            "takes off other money than was paid before",
          ] as const,
        ]),
  ];
  const ofCredits = creditProblems(
    doc,
    credits.flatMap((credit) => credit ?? []),
    row.takenBack,
  );
  return [...holds.flatMap(([fine, what]) => (fine ? [] : [what])), ...ofCredits].map(
    (what) => `${name} ${what}.`,
  );
}

const keptTaxes = ({ taxes }: Row): string =>
  taxes
    .map((tax) => [tax.issuedOn, tax.category, tax.rateBp, tax.netMinor, tax.taxMinor].join(" "))
    .sort()
    .join();

const printedTaxes = ({ issuedOn, taxes }: FrozenInvoice): string =>
  taxes
    .map((tax) => [issuedOn, tax.category, tax.rateBp, tax.taxableMinor, tax.taxMinor].join(" "))
    .sort()
    .join();

function mirrors(credit: FrozenInvoice, invoiceJson: unknown): boolean {
  const invoice = readable(invoiceJson);
  return (
    invoice !== null &&
    credit.grossMinor === 0 - invoice.grossMinor &&
    credit.taxMinor === 0 - invoice.taxMinor &&
    credit.lines.length === invoice.lines.length &&
    credit.lines.every((line, at) => line.netMinor === 0 - (invoice.lines[at]?.netMinor ?? Number.NaN))
  );
}

/** A damaged document is for the check to tell of, among all the others. */
function readable(json: unknown): FrozenInvoice | null {
  try {
    return storedInvoice(json);
  } catch {
    return null;
  }
}
