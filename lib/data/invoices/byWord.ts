import type { ShopHandle } from "@/lib/db/shop";
import { type LimitState, limitState } from "@/lib/domain/invoices/agreedLimit";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { grossOfJob } from "@/lib/domain/invoices/severalJobs";
import { moneyText } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { isFree } from "../jobs/closeFree";
import { composeInvoice } from "./compose";
import { type InvoiceFacts, invoiceFacts } from "./facts";
import type { ChargedJobs } from "./jobsOn";

/** Refuses an invoice for a job that nobody is invoiced for. */
export function demandPaidFor({ job }: InvoiceFacts): void {
  if (!isFree(job.agreement)) return;
  throw new Refusal(
    job.agreement?.kind === "ownBike"
      ? `Job ${job.number} is on the shop's own bike: nobody is invoiced.`
      : `Job ${job.number} is a comeback that is charged nothing.`,
    "Close it on its page: its time and parts stay booked to it.",
    {},
    "conflict",
  );
}

/** Refuses to bill more for any job than was agreed for it by word. */
export function demandInsideYes(jobs: ChargedJobs, printed: PrintedInvoice): void {
  for (const { facts } of jobs)
    demandJobInsideYes(facts, grossOfJob(printed, facts.job.number), jobs.length > 1);
}

function demandJobInsideYes({ job, settings }: InvoiceFacts, grossMinor: number, several: boolean): void {
  const [yes] = job.yeses;
  if (!yes || limitState(grossMinor, yes.upToMinor) !== "over") return;
  const text = (minor: number) => moneyText(minor, settings.currency, settings.locale);
  throw new Refusal(
    `${several ? `Job ${job.number} on this invoice` : "This invoice"} comes to ${text(grossMinor)}; ${yes.saidBy} agreed up to ${text(yes.upToMinor)}.`,
    "Ask for another yes and write it down on the job, or take something off the invoice.",
    {},
    "conflict",
  );
}

/** What a job agreed by word has come to. */
export interface SpentByWord {
  readonly upToMinor: number;
  readonly saidBy: string;
  /** Time so far and parts used, as they would be billed now, with tax; null where they cannot be priced. */
  readonly spentMinor: number | null;
  readonly state: LimitState;
  /** Why it cannot be priced; empty where it can. */
  readonly trouble: string;
}

/** The same for a job of any kind; null where it is not agreed by word. Running time counts up to now. */
export async function spentByWord(shop: ShopHandle, jobId: number): Promise<SpentByWord | null> {
  const facts = await invoiceFacts(shop.read, jobId);
  const [yes] = facts.job.yeses;
  if (!yes) return null;
  const { saidBy, upToMinor } = yes;
  const timeEntries = facts.job.timeEntries.map((entry) => ({
    ...entry,
    endedAt: entry.endedAt ?? shop.now,
  }));
  if (timeEntries.length === 0 && facts.job.moves.length === 0)
    return { upToMinor, saidBy, spentMinor: 0, state: "inside", trouble: "" };
  try {
    const now = { ...facts, job: { ...facts.job, timeEntries } };
    const spentMinor = composeInvoice([{ facts: now, basis: "asWorked" }], shop.now).grossMinor;
    return { upToMinor, saidBy, spentMinor, state: limitState(spentMinor, upToMinor), trouble: "" };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { upToMinor, saidBy, spentMinor: null, state: "inside", trouble: cause.message };
  }
}

/** Jobs agreed by word that near their amount or are past it, of those that work is done on. */
export async function nearTheirAmount(shop: ShopHandle, most: number) {
  const jobs = await shop.read.job.findMany({
    where: { state: { in: ["inWork", "ride", "ready"] }, agreement: { kind: "word" } },
    select: { id: true, number: true, title: true, customer: { select: { name: true, phone: true } } },
    orderBy: { id: "asc" },
    take: most,
  });
  const found = [];
  for (const job of jobs) {
    const spent = await spentByWord(shop, job.id);
    if (spent && spent.state !== "inside") found.push({ ...job, ...spent });
  }
  return found;
}
