import type { ShopTx } from "@/lib/db/shop";
import type { PrintedMoney } from "@/lib/domain/invoices/moneyPaper";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { customerLocale } from "@/lib/words/language";
import { sellerOf } from "../invoices/compose";
import { payAskFor } from "../shop/account";
import { dayTexts } from "../shop/dayTexts";
import { inCompanyRegister } from "../shop/taxTerms";
import { depositsAsked } from "./several";

type Db = Pick<ShopTx, "job" | "payment" | "settings" | "bankAccount" | "taxTerms">;

const OF_JOB = {
  id: true,
  number: true,
  title: true,
  customer: {
    select: {
      id: true,
      name: true,
      address: true,
      language: true,
      phone: true,
      email: true,
      noLetters: true,
    },
  },
} as const;

/** Whom a paper about money is for, and which job it is about. */
export interface MoneyPaper {
  readonly printed: PrintedMoney;
  readonly jobId: number;
  readonly customer: {
    readonly name: string;
    readonly phone: string;
    readonly email: string;
    readonly noLetters: boolean;
  };
}

async function headOf(db: Db, customer: { name: string; address: string; language: string }) {
  const settings = await db.settings.findUniqueOrThrow({ where: { id: 1 } });
  const { bankDetails: _, ...seller } = sellerOf(
    { ...settings, inCompanyRegister: await inCompanyRegister(db) },
    settings.taxRegime,
  );
  const { country, currency, zone } = settings;
  const buyer = { name: customer.name, address: customer.address };
  return {
    zone,
    head: { seller, buyer, country, currency, locale: customerLocale(settings.locale, customer.language) },
  };
}

/** What asks for the deposit of a job, with how to pay it. Refused where none is open. */
export async function depositRequest(db: Db, jobId: number, now: Date): Promise<MoneyPaper> {
  const job = await db.job.findUnique({
    where: { id: jobId },
    select: {
      ...OF_JOB,
      revision: { select: { grossMinor: true, quote: { select: { number: true, sequence: true } } } },
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  const [asked] = await depositsAsked(db, { id: jobId }, 1);
  if (!asked)
    throw new Refusal(
      `No deposit of job ${job.number} is open.`,
      "It was paid, it was not asked for, or the job is invoiced.",
      {},
      "conflict",
    );
  const { quote, grossMinor } = job.revision;
  const { head, zone } = await headOf(db, job.customer);
  const minor = asked.leftMinor;
  return {
    jobId,
    customer: job.customer,
    printed: {
      ...head,
      kind: "depositRequest",
      number: quote.number,
      day: dayIn(zone, now),
      lines: [{ of: "job", number: job.number, title: job.title, method: "", minor }],
      totalMinor: minor,
      agreedMinor: grossMinor,
      said: "",
      ask: await payAskFor(db, { kind: "deposit", number: quote.sequence, written: quote.number }),
    },
  };
}

const ROW = {
  id: true,
  kind: true,
  method: true,
  amountMinor: true,
  paidOn: true,
  reference: true,
  at: true,
  saleId: true,
  invoice: { select: { written: true } },
  job: { select: OF_JOB },
} as const;

const CAME_IN = ["payment", "deposit", "overpayment"] as const;

/** A receipt of money that came in, with all that came in the same act, or a note of what went back. Refused for other rows of the payments. */
export async function paymentPaper(db: Db, paymentId: number): Promise<MoneyPaper> {
  const row = await db.payment.findUnique({ where: { id: paymentId }, select: ROW });
  if (!row) throw new Refusal("There is no such payment.", "Open its invoice again.", {}, "missing");
  const { job } = row;
  const cameIn = CAME_IN.some((kind) => kind === row.kind);
  if (!job || row.method === "balance" || (!cameIn && row.kind !== "refund"))
    throw new Refusal(
      "There is no receipt of this.",
      "Only money that came in or went back has one.",
      {},
      "conflict",
    );
  const all = cameIn
    ? await db.payment.findMany({
        where: {
          kind: { in: [...CAME_IN] },
          method: { not: "balance" },
          at: row.at,
          paidOn: row.paidOn,
          reference: row.reference,
          job: { customerId: job.customer.id },
        },
        select: ROW,
        orderBy: { id: "asc" },
      })
    : [row];
  const back = await db.payment.findFirst({
    where: { reversesId: { in: all.map((one) => one.id) } },
    select: { paidOn: true },
    orderBy: { id: "asc" },
  });
  if (back)
    throw new Refusal(
      `This money was taken back on ${(await dayTexts(db))(back.paidOn)}.`,
      "It has no receipt any more.",
      {},
      "conflict",
    );
  const { head } = await headOf(db, job.customer);
  return {
    jobId: job.id,
    customer: job.customer,
    printed: {
      ...head,
      kind: cameIn ? "received" : "paidBack",
      number: String(all[0]?.id ?? row.id),
      day: row.paidOn,
      lines: all.map((one) => ({
        of:
          one.kind === "overpayment" ? "balance" : one.kind === "payment" && one.invoice ? "invoice" : "job",
        number: (one.kind === "payment" && one.invoice?.written) || (one.job?.number ?? ""),
        title: one.job?.title ?? "",
        method: one.method,
        minor: one.amountMinor,
      })),
      totalMinor: all.reduce((sum, one) => sum + one.amountMinor, 0),
      agreedMinor: null,
      // What the bank wrote is the shop's; why money goes back is the customer's to know.
      said: cameIn ? "" : row.reference,
      ask: null,
    },
  };
}
