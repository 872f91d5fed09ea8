import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import {
  amount,
  compareMoney,
  labour,
  type PaperMoney,
  STANDARD,
  sumsHold,
  type ToldLine,
  unitPrice,
  withOff,
} from "./money";
import type { QuoteText, RecipeRow, TermsRow } from "./readQuote";
import { localDay } from "./readSheets";
import { Differences, half, total, upTo } from "./sums";

/** An issued document's text, as it is kept. */
export interface InvoiceText extends PaperMoney {
  readonly kind: string;
  readonly number: number;
  readonly written: string;
  readonly issuedOn: string;
  readonly dueOn: string;
  readonly supplyOn: string;
  readonly basis: string;
  readonly credits: {
    readonly number: number;
    readonly written: string;
    readonly issuedOn: string;
    readonly reason: string;
  } | null;
  readonly buyer: { readonly name: string; readonly address: string };
  readonly jobs: readonly {
    readonly number: string;
    readonly title: string;
    readonly bike: { readonly plate: string; readonly odometerKm: number | null };
  }[];
  readonly quotes: readonly string[];
  readonly prepaidMinor: number;
  readonly dueMinor: number;
  readonly deposits: readonly {
    readonly paidOn: string;
    readonly method: string;
    readonly amountMinor: number;
  }[];
}

const JOB = {
  customer: true,
  bike: true,
  steps: true,
  timeEntries: true,
  payments: { orderBy: { id: "asc" } },
  moves: {
    where: { kind: { in: ["use", "returnToStock"] } },
    include: { part: true },
    orderBy: { id: "asc" },
  },
  revision: { include: { works: { include: { packageRevision: true } }, quote: true } },
  variations: {
    where: { state: "accepted" },
    include: {
      revisions: {
        where: { acceptance: { isNot: null } },
        include: { works: { include: { packageRevision: true } }, quote: true },
      },
    },
    orderBy: { id: "asc" },
  },
} satisfies Prisma.JobInclude;

type JobRows = Awaited<ReturnType<typeof jobRows>>;
const jobRows = (shop: ShopHandle, id: number) =>
  shop.read.job.findUniqueOrThrow({ where: { id }, include: JOB });

/**
 * Whether an issued invoice or credit note says what its rows tell. To be read as it is issued: what of the job's money is taken
 * off is what had come by then, which `paymentsBefore` counts for a document that is read later.
 */
export async function readInvoice(
  shop: ShopHandle,
  invoiceId: number,
  paymentsBefore?: number,
): Promise<string[]> {
  const row = await shop.read.invoice.findUniqueOrThrow({
    where: { id: invoiceId },
    include: { credits: true },
  });
  const text = row.frozen as unknown as InvoiceText;
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  if (row.jobId === null) throw new Error(`Document ${row.number} belongs to no job.`);
  const job = await jobRows(shop, row.jobId);
  const diff = new Differences(`${row.kind === "invoice" ? "Invoice" : "Credit note"} ${row.number}`);
  diff.same(
    "its row",
    [text.number, text.issuedOn, text.netMinor, text.taxMinor, text.grossMinor],
    [row.number, row.issuedOn, row.netMinor, row.taxMinor, row.grossMinor],
  );
  const [charged] = text.jobs;
  diff.same("the jobs", text.jobs.length, 1);
  diff.same("the job", [charged?.number, charged?.title], [job.number, job.title]);
  diff.same("the buyer", [text.buyer.name, text.buyer.address], [job.customer.name, job.customer.address]);
  diff.same(
    "the bike",
    [charged?.bike.plate, charged?.bike.odometerKm],
    [job.bike.plate, job.odometerKm ?? job.bike.odometerKm],
  );
  diff.same("the day of the work", text.supplyOn, localDay(job.finishedAt, settings.zone));
  if (row.kind === "creditNote") {
    readCredit(diff, text, row.credits?.frozen as unknown as InvoiceText, row.reason);
    return diff.found;
  }
  diff.same("the day it is due", text.dueOn, dayAfter(text.issuedOn, settings.paymentDays));
  const agreed = [job.revision, ...job.variations.flatMap((variation) => variation.revisions)];
  diff.same(
    "its quotes",
    text.quotes,
    agreed.map((revision) => revision.quote.number),
  );
  if (text.basis === "fixed") asQuoted(diff, text, agreed);
  else compareMoney(diff, text, await asWorked(shop, job, agreed));
  moneyBefore(diff, text, job.payments.slice(0, paymentsBefore ?? job.payments.length));
  return diff.found;
}

type Agreed = JobRows["revision"];
const textOf = (revision: Agreed) => revision.frozen as unknown as QuoteText;

/** As quoted: the lines of the accepted quotes, each at what it showed. */
function asQuoted(diff: Differences, text: InvoiceText, agreed: readonly Agreed[]): void {
  const told = agreed.flatMap((revision, at) =>
    textOf(revision).lines.map((line) => ({
      key: at === 0 ? line.key : `${revision.quote.number}-${line.key}`,
      shown: line.shownMinor,
      milli: line.quantityMilli,
    })),
  );
  const printed = text.lines.map(({ key, shownMinor, quantityMilli }) => ({
    key,
    shown: shownMinor,
    milli: quantityMilli,
  }));
  diff.same("its lines", printed, told);
  sumsHold(diff, text);
  // Documents of one quote carry its totals to the cent.
  const [first, ...others] = agreed;
  if (first && others.length === 0)
    diff.same(
      "its totals",
      [text.netMinor, text.taxMinor, text.grossMinor],
      [textOf(first).netMinor, textOf(first).taxMinor, textOf(first).grossMinor],
    );
}

/** As worked: minutes of the time entries and parts of the ledger, beside what was agreed whatever the work. */
async function asWorked(shop: ShopHandle, job: JobRows, agreed: readonly Agreed[]) {
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const grades = await shop.read.labourGrade.findMany({ orderBy: { id: "asc" } });
  const bands = await shop.read.markupBand.findMany();
  const rate = STANDARD[settings.country] ?? 0n;
  const fixedOf = (revision: Agreed) => {
    const recipe = revision.works[0]?.packageRevision?.recipe as unknown as RecipeRow | undefined;
    const own = (recipe?.options ?? []).filter((option) =>
      textOf(revision).options.some((one) => one.key === option.key),
    );
    return own.filter((option) => option.fixedPriceMinor !== undefined);
  };
  const paidFor = new Set(
    agreed.flatMap((revision) => fixedOf(revision).flatMap((option) => option.operations)),
  );
  const byTime = job.steps.filter((step) => step.kind !== "operation" || !paidFor.has(step.key));

  const planned = Map.groupBy(job.steps, (step) => step.grade);
  const most = [...planned].toSorted(
    ([, a], [, b]) =>
      b.reduce((sum, step) => sum + step.minutes, 0) - a.reduce((sum, step) => sum + step.minutes, 0),
  )[0]?.[0];
  const spent = new Map<string, bigint>();
  for (const entry of job.timeEntries) {
    const step = byTime.find((one) => one.id === entry.stepId);
    if (entry.stepId !== null && !step) continue;
    const grade = grades.some((one) => one.code === step?.grade) ? (step?.grade ?? "") : (most ?? "");
    const ms = BigInt((entry.endedAt?.getTime() ?? Number.NaN) - entry.startedAt.getTime());
    spent.set(grade, (spent.get(grade) ?? 0n) + ms);
  }
  const unit = settings.billingUnit === "tenths" ? 6n : 1n;
  const lines: ToldLine[] = [...spent].flatMap(([code, ms]) => {
    const grade = grades.find((one) => one.code === code);
    if (ms === 0n) return [];
    return [labour(`worked-${code}`, upTo(ms, unit * 60_000n) * unit, grade?.ratePerHourMinor ?? 0, rate)];
  });

  for (const [code, moves] of Map.groupBy(job.moves, (move) => move.part.code)) {
    const milli = -total(moves.map((move) => BigInt(move.quantityMilli)));
    const part = moves[0]?.part;
    if (!part || milli <= 0n) continue;
    const out = moves.filter((move) => move.quantityMilli < 0);
    const worth = total(out.map((move) => BigInt(-move.quantityMilli) * BigInt(move.unitCostE4 ?? 0)));
    const cost = half(worth, total(out.map((move) => BigInt(-move.quantityMilli))));
    const {
      unitE4,
      category,
      rate: own,
    } = unitPrice(part, Number(cost), bands, rate, settings.pricesIncludeTax);
    lines.push({ key: code, shown: amount(unitE4, milli), category, rate: own, milli, unitE4, worked: true });
  }

  const lineDiscounts: { line: string; bp: bigint }[] = [];
  for (const [at, revision] of agreed.entries()) {
    const quote = textOf(revision);
    for (const line of quote.lines.filter((one) => one.kind === "fixed" || one.kind === "outside"))
      lines.push({
        key: at === 0 ? line.key : `${revision.quote.number}-${line.key}`,
        shown: BigInt(line.shownMinor),
        category: line.taxCategory,
        rate: BigInt(line.taxRateBp),
      });
    lineDiscounts.push(...discountsOf(quote, (revision.terms ?? {}) as unknown as TermsRow));
  }
  const terms = (job.revision.terms ?? {}) as unknown as TermsRow;
  return withOff(lines, {
    lineDiscounts,
    discountBp: BigInt(
      (terms.discount?.kind === "percent" ? terms.discount.bp : job.customer.discountBp) ?? 0,
    ),
    sundriesBp: BigInt(settings.sundriesBp),
    sundriesMost: settings.sundriesMaxMinor === null ? null : BigInt(settings.sundriesMaxMinor),
    rate,
  });
}

/** Discounts agreed on lines; those on a grade's work and on its opening up meet on the one line of its time, by their weight. */
function discountsOf(quote: QuoteText, terms: TermsRow): { line: string; bp: bigint }[] {
  const agreed = terms.lineDiscounts ?? [];
  const gradeOf = (key: string) => /^(?:work|opening)-(.*)$/.exec(key)?.[1];
  const grades = new Set(agreed.flatMap(({ line }) => gradeOf(line) ?? []));
  return [
    ...agreed
      .filter(({ line }) => gradeOf(line) === undefined)
      .map(({ line, bp }) => ({ line, bp: BigInt(bp) })),
    ...[...grades].map((grade) => {
      const own = quote.lines.filter((line) => line.kind === "labour" && gradeOf(line.key) === grade);
      const off = own.map(
        (line) => BigInt(line.shownMinor) * BigInt(agreed.find((one) => one.line === line.key)?.bp ?? 0),
      );
      return {
        line: `worked-${grade}`,
        bp: half(total(off), total(own.map((line) => BigInt(line.shownMinor)))),
      };
    }),
  ];
}

/** What the job's money takes off: in less out, without what cash rounding changed. */
function moneyBefore(diff: Differences, text: InvoiceText, payments: JobRows["payments"]): void {
  const told = payments.map((one) => ({
    paidOn: one.paidOn,
    method: one.method,
    amountMinor: (one.kind === "refund" ? -1 : 1) * (one.amountMinor - one.roundingMinor),
  }));
  diff.same("money that came before", text.deposits, told);
  const held = told.reduce((sum, one) => sum + one.amountMinor, 0);
  diff.same("what is taken off and due", [text.prepaidMinor, text.dueMinor], [held, text.grossMinor - held]);
}

/** A credit note is its invoice with the other sign, line by line. */
function readCredit(diff: Differences, text: InvoiceText, invoice: InvoiceText, reason: string): void {
  const { kind, number, written, issuedOn } = invoice;
  diff.same("what it credits", text.credits, { kind, number, written, issuedOn, reason });
  const plain = (lines: InvoiceText["lines"], sign: number) =>
    lines.map((line) => [line.key, sign * line.quantityMilli, sign * line.netMinor, sign * line.shownMinor]);
  diff.same("its lines", plain(text.lines, 1), plain(invoice.lines, -1));
  const sums = (doc: InvoiceText, sign: number) =>
    [doc.netMinor, doc.taxMinor, doc.grossMinor].map((one) => sign * one);
  diff.same("its totals", sums(text, 1), sums(invoice, -1));
  sumsHold(diff, text);
}

export function dayAfter(day: string, days: number): string {
  const date = new Date(`${day}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}
