import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader } from "@/lib/db/shop";
import { settled } from "@/lib/domain/invoices/held";
import { ratesOf, taxFor } from "@/lib/domain/tax/rates";
import { entriesOfDeposits, type JobHappening } from "@/lib/domain/taxReport/entries";
import type { TaxedAmount } from "@/lib/domain/taxReport/split";
import { chunks, fetched } from "../common/chunks";
import { storedQuote } from "../documents/quote";
import type { ShownEntry } from "./byMoney";

const INVOICE = {
  id: true,
  written: true,
  issuedOn: true,
  takenBack: true,
  creditedBy: {
    select: { id: true, written: true, issuedOn: true, createdAt: true },
    orderBy: { id: "asc" },
    take: 50,
  },
} as const satisfies Prisma.InvoiceSelect;
type Invoice = Prisma.InvoiceGetPayload<{ select: typeof INVOICE }>;

const ISSUED = { kind: "invoice", state: "issued" } as const;

const JOB = {
  id: true,
  number: true,
  customer: { select: { name: true } },
  revision: { select: { frozen: true } },
  payments: {
    where: { kind: { not: "writeOff" } },
    select: {
      id: true,
      kind: true,
      invoiceId: true,
      amountMinor: true,
      roundingMinor: true,
      paidOn: true,
      at: true,
    },
    orderBy: { id: "asc" },
    take: 500,
  },
  invoices: { where: ISSUED, select: INVOICE, orderBy: { id: "asc" }, take: 50 },
  alsoOn: {
    where: { invoice: ISSUED },
    select: { invoice: { select: INVOICE } },
    orderBy: { id: "asc" },
    take: 50,
  },
} as const satisfies Prisma.JobSelect;

/** Money before invoices of some jobs, as it came in and went out again when they were invoiced. */
export async function* depositEntries(
  read: ShopReader,
  ids: readonly number[],
): AsyncGenerator<ShownEntry[]> {
  const standard = await standardRate(read);
  for (const some of chunks(ids, 20)) {
    const jobs = await read.job.findMany({
      where: { id: { in: some } },
      select: JOB,
      orderBy: { id: "asc" },
    });
    const issues = await issuesOf(read, jobs);
    for (const job of jobs) {
      const invoices = invoicesOf(job);
      const held = job.payments.reduce((sum, payment) => sum + Math.abs(settled(payment)), 0);
      if (held === 0) continue;
      const happened = happenedTo(job.payments, invoices, issues);
      const { id, number } = job;
      yield entriesOfDeposits(happened, agreedOf(job.revision.frozen, standard)).map((entry) => ({
        ...entry,
        document: null,
        job: { id, number },
        customer: job.customer.name,
        moved: job.payments.find((one) => `p${one.id}` === entry.ref)?.kind ?? "",
      }));
    }
  }
}

type Job = Prisma.JobGetPayload<{ select: typeof JOB }>;

const invoicesOf = ({ invoices, alsoOn }: Pick<Job, "invoices" | "alsoOn">): Invoice[] => [
  ...invoices,
  ...alsoOn.map((one) => one.invoice),
];

/** When the invoices of some jobs were issued; each is once. */
async function issuesOf(read: ShopReader, jobs: readonly Job[]): Promise<ReadonlyMap<number, Date>> {
  const ids = [...new Set(jobs.flatMap((job) => invoicesOf(job).map((one) => one.id)))];
  const rows = await fetched(ids, (some) =>
    read.auditEntry.findMany({
      where: { noun: "invoice", act: "issued", nounId: { in: some } },
      select: { nounId: true, at: true },
      orderBy: { id: "desc" },
      take: 200,
    }),
  );
  // The newest first, so that the oldest stands.
  return new Map(rows.flatMap(({ nounId, at }) => (nounId === null ? [] : [[nounId, at] as const])));
}

/** Money, issues and full credits of a job in the order that they were recorded. */
function happenedTo(
  payments: Job["payments"],
  invoices: readonly Invoice[],
  issues: ReadonlyMap<number, Date>,
): JobHappening[] {
  const events: (JobHappening & { readonly at: number; readonly rank: number })[] = [
    ...payments.map((row) => ({
      kind: "money" as const,
      on: row.paidOn,
      ref: `p${row.id}`,
      minor: settled(row),
      at: row.at.getTime(),
      rank: row.invoiceId === null ? 0 : 2,
    })),
    ...invoices.flatMap((invoice) => {
      const last = invoice.takenBack ? invoice.creditedBy.at(-1) : undefined;
      return [
        {
          kind: "invoiced" as const,
          on: invoice.issuedOn ?? "",
          ref: `d${invoice.id}`,
          at: issues.get(invoice.id)?.getTime() ?? 0,
          rank: 1,
        },
        ...(last
          ? [
              {
                kind: "takenBack" as const,
                on: last.issuedOn ?? "",
                ref: `d${last.id}`,
                at: last.createdAt.getTime(),
                rank: 3,
              },
            ]
          : []),
      ];
    }),
  ];
  return events.sort((one, two) => one.at - two.at || one.rank - two.rank);
}

/** What was agreed, by category and rate; where that is not kept, all of it is at the shop's standard rate. */
function agreedOf(frozen: unknown, standard: TaxedAmount): readonly TaxedAmount[] {
  if (frozen === null) return [standard];
  const { taxes } = storedQuote(frozen);
  const agreed = taxes.map(({ category, rateBp, taxableMinor, taxMinor }) => ({
    category,
    rateBp,
    netMinor: taxableMinor,
    taxMinor,
  }));
  return agreed.length > 0 ? agreed : [standard];
}

/** An amount beyond any deposit at the shop's standard rate: shares of it have the rate's tax. */
async function standardRate(read: ShopReader): Promise<TaxedAmount> {
  const settings = await read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { taxRegime: true, taxRateBp: true, taxLabour: true, taxParts: true },
  });
  const { category, rateBp } = taxFor(settings.taxRegime, "labour", ratesOf(settings));
  const netMinor = 1_000_000_000;
  return { category, rateBp, netMinor, taxMinor: Math.round((netMinor / 10_000) * rateBp) };
}
