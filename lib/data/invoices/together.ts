import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { MOST_JOBS } from "@/lib/domain/invoices/severalJobs";

const STANDS = { kind: "invoice", takenBack: false } satisfies Prisma.InvoiceWhereInput;

/** Jobs of the same customer that are done, are charged, and stand on no invoice: they can go on one with this job. Oldest first. */
export async function joinableTo(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({ where: { id: jobId }, select: { customerId: true } });
  if (!job) return [];
  return shop.read.job.findMany({
    where: {
      customerId: job.customerId,
      id: { not: jobId },
      state: { in: ["ready", "invoiced", "closed"] },
      invoices: { none: STANDS },
      alsoOn: { none: { invoice: STANDS } },
      // As isFree says it: nobody is invoiced for those.
      NOT: { agreement: { is: { kind: { not: "word" }, chargedBp: 0 } } },
    },
    select: { id: true, number: true, title: true },
    orderBy: { id: "asc" },
    take: MOST_JOBS - 1,
  });
}

/** A draft that a further job can be added to. */
export interface JobDraft {
  readonly id: number;
  readonly version: number;
  readonly grossMinor: number;
  /** Numbers of the jobs on it. */
  readonly jobs: readonly string[];
}

/** Drafts of the customer's other jobs, newest first: a job can be added to one of them. */
export async function draftsToJoin(shop: ShopHandle, jobId: number): Promise<JobDraft[]> {
  const job = await shop.read.job.findUnique({ where: { id: jobId }, select: { customerId: true } });
  if (!job) return [];
  const drafts = await shop.read.invoice.findMany({
    where: { state: "draft", kind: "invoice", customerId: job.customerId, jobId: { not: jobId } },
    select: {
      id: true,
      version: true,
      grossMinor: true,
      job: { select: { number: true } },
      furtherJobs: { select: { job: { select: { number: true } } }, orderBy: { id: "asc" } },
    },
    orderBy: { id: "desc" },
    take: 10,
  });
  return drafts
    .filter((one) => one.furtherJobs.length + 1 < MOST_JOBS)
    .map(({ job: first, furtherJobs, ...draft }) => ({
      ...draft,
      jobs: [first?.number ?? "", ...furtherJobs.map((one) => one.job.number)],
    }));
}
