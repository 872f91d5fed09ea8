import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { sumColumns } from "@/lib/domain/chasing/accountLines";
import {
  moneyEntries,
  runningBalance,
  type Statement,
  type StatementPaper,
} from "@/lib/domain/chasing/statement";
import { settled } from "@/lib/domain/invoices/held";
import type { PayAsk } from "@/lib/domain/money/payAsk";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { customerLocale } from "@/lib/words/language";
import { payAskFor } from "../shop/account";
import { dayTexts } from "../shop/dayTexts";
import { type AccountLine, accountLines } from "./accounts";
import { letterheadOf } from "./letterhead";

type Reader = Pick<ShopTx, "invoice" | "job" | "payment" | "settings">;

interface Days {
  readonly from: string;
  readonly to: string;
}

/** So many documents, and so many rows of money, fit on one statement. Judgement. */
const MOST = 500;

/** A customer's documents; counter sales are paid as they are made and are no part of the account. */
const documentsOf = (customerId: number) =>
  ({
    customerId,
    saleId: null,
    state: "issued",
    kind: { in: ["invoice", "creditNote"] },
  }) satisfies Prisma.InvoiceWhereInput;

/** A customer's account over some days: what stood before, every document and all money in order, and what stands after. */
async function statementOf(
  db: Reader,
  customerId: number,
  days: Days,
): Promise<Statement & { readonly lines: readonly AccountLine[] }> {
  const { from, to } = days;
  const openingMinor = await balanceBefore(db, customerId, from);
  const entries = runningBalance(openingMinor, await entriesOf(db, customerId, days));
  const { lines } = await accountLines(db, to, customerId);
  return {
    from,
    to,
    openingMinor,
    entries,
    closingMinor: entries.at(-1)?.balanceMinor ?? openingMinor,
    ageing: sumColumns(lines).columns,
    lines,
  };
}

async function balanceBefore(db: Reader, customerId: number, from: string): Promise<number> {
  const [documents, money] = await Promise.all([
    db.invoice.aggregate({
      where: { ...documentsOf(customerId), issuedOn: { lt: from } },
      _sum: { grossMinor: true },
    }),
    db.payment.groupBy({
      by: ["kind"],
      where: { job: { customerId }, paidOn: { lt: from } },
      _sum: { amountMinor: true, roundingMinor: true },
    }),
  ]);
  const paid = money.map(({ kind, _sum }) =>
    settled({ kind, amountMinor: _sum.amountMinor ?? 0, roundingMinor: _sum.roundingMinor ?? 0 }),
  );
  return (documents._sum.grossMinor ?? 0) - paid.reduce((sum, minor) => sum + minor, 0);
}

async function entriesOf(db: Reader, customerId: number, { from, to }: Days) {
  const [documents, money] = await Promise.all([
    db.invoice.findMany({
      where: { ...documentsOf(customerId), issuedOn: { gte: from, lte: to } },
      select: { kind: true, written: true, issuedOn: true, grossMinor: true },
      orderBy: { id: "asc" },
      take: MOST + 1,
    }),
    db.payment.findMany({
      where: { job: { customerId }, paidOn: { gte: from, lte: to } },
      select: {
        kind: true,
        method: true,
        paidOn: true,
        reference: true,
        amountMinor: true,
        roundingMinor: true,
        at: true,
        invoice: { select: { written: true } },
        job: { select: { number: true } },
      },
      orderBy: { id: "asc" },
      take: MOST + 1,
    }),
  ]);
  if (documents.length > MOST || money.length > MOST) {
    const text = await dayTexts(db);
    throw new Refusal(
      `More than ${MOST} documents or payments lie between ${text(from)} and ${text(to)}.`,
      "Choose fewer days.",
      { to: "Choose fewer days." },
    );
  }
  return [
    ...documents.map(({ kind, written, issuedOn, grossMinor }) => ({
      on: issuedOn ?? "",
      kind: kind === "creditNote" ? ("creditNote" as const) : ("invoice" as const),
      numbers: [written],
      method: "",
      reference: "",
      minor: grossMinor,
    })),
    ...moneyEntries(
      money.map(({ paidOn, at, invoice, job, ...row }) => ({
        ...row,
        act: at.toISOString(),
        on: paidOn,
        number: invoice?.written ?? job?.number ?? "",
      })),
    ),
  ];
}

/** The days of a statement that ends on a day, where no first one is asked for: three months. */
export const usualDays = (to: string): Days => ({ from: dayAfter(to, -91), to });

/** A customer's statement as it is printed, in the customer's language; null where there is no such customer. */
export async function statementPaper(
  db: Reader & Pick<ShopTx, "bankAccount" | "customer" | "settings" | "taxTerms">,
  customerId: number,
  days: Days,
  now: Date,
): Promise<StatementPaper | null> {
  const [customer, { zone, locale, ...head }] = await Promise.all([
    db.customer.findUnique({
      where: { id: customerId },
      select: { name: true, address: true, taxNumber: true, language: true },
    }),
    letterheadOf(db),
  ]);
  if (!customer) return null;
  const { language, ...buyer } = customer;
  const { lines, ...statement } = await statementOf(db, customerId, days);
  return {
    ...statement,
    ask: statement.closingMinor > 0 ? await askFor(db, lines) : null,
    ...head,
    buyer,
    locale: customerLocale(locale, language),
    day: dayIn(zone, now),
  };
}

/** A payment's reference is no longer in an EPC code, nor in most banks' forms (EPC069-12: unstructured remittance of 140 characters). */
const MOST_REFERENCE = 140;

/** How what is owing is to be paid: one invoice by its own reference, several by their numbers. */
async function askFor(
  db: Pick<ShopTx, "bankAccount" | "invoice" | "settings">,
  lines: readonly AccountLine[],
): Promise<PayAsk> {
  const open = lines.filter(({ of, minor }) => of.noun === "invoice" && minor > 0).map(({ of }) => of);
  const [first] = open;
  const row = first && (await db.invoice.findUnique({ where: { id: first.id }, select: { number: true } }));
  const written = open
    .map((one) => one.number)
    .join(", ")
    .slice(0, MOST_REFERENCE);
  const ask = await payAskFor(db, { kind: "invoice", number: row?.number ?? 0, written });
  if (open.length === 1 || !ask.payTo) return ask;
  return { ...ask, payTo: { ...ask.payTo, kid: false, reference: written } };
}
