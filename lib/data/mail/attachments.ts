import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { KIND_FILES } from "@/lib/schemas/invoices";
import { hashOf } from "../common/hash";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";
import { type FrozenMoney, storedMoney } from "../documents/money";
import { type PrintedOrder, storedOrder } from "../documents/order";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { type FrozenReminder, storedReminder } from "../documents/reminder";
import { type PrintedStatement, storedStatement } from "../documents/statement";
import { type FrozenVisit, storedVisit } from "../documents/visit";

/**
 * What goes with mails. A mail's transaction writes only a reference to the document that was frozen (an order, a
 * booking or a customer's account, which go on changing, leave what they said): printing takes too long to hold a shop's one writer. It is printed when the
 * mail leaves, from that frozen text and nothing else, once its hash has been found to agree.
 */
export type Enclosed =
  | {
      readonly document: "quote";
      readonly name: string;
      readonly printed: FrozenQuote;
      readonly country: string;
    }
  | {
      readonly document: "invoice";
      readonly form: "pdf" | "xml";
      readonly name: string;
      readonly printed: FrozenInvoice;
    }
  | {
      readonly document: "order";
      readonly form: "pdf" | "csv";
      readonly name: string;
      readonly printed: PrintedOrder;
    }
  | { readonly document: "visit"; readonly name: string; readonly printed: FrozenVisit }
  | { readonly document: "money"; readonly name: string; readonly printed: FrozenMoney }
  | { readonly document: "statement"; readonly name: string; readonly printed: PrintedStatement }
  | { readonly document: "reminder"; readonly name: string; readonly printed: FrozenReminder };

interface Reference {
  readonly noun: "quote" | "invoice" | "order" | "booking" | "money" | "statement" | "reminder";
  readonly nounId: number;
  readonly form: "pdf" | "csv" | "ics" | "xml";
  readonly name: string;
  readonly printed?: PrintedOrder | FrozenVisit | FrozenMoney | PrintedStatement;
}

/** Puts a document with a mail, in the mail's own transaction. */
export async function encloseIn(
  tx: ShopTx,
  mailId: number,
  { printed, ...reference }: Reference,
): Promise<void> {
  await tx.mailAttachment.create({
    data: {
      mailId,
      ...reference,
      ...(printed ? { printed: printed as unknown as Prisma.InputJsonObject } : {}),
    },
    select: { id: true },
  });
}

/** Puts a sent quote's paper with a mail. */
export async function encloseQuoteIn(tx: ShopTx, mailId: number, frozen: FrozenQuote): Promise<void> {
  const revision = await tx.quoteRevision.findFirstOrThrow({
    where: { number: frozen.revision, quote: { number: frozen.number } },
    select: { id: true },
  });
  const name = `quote-${frozen.number}-${frozen.revision}.pdf`;
  await encloseIn(tx, mailId, { noun: "quote", nounId: revision.id, form: "pdf", name });
}

/** Puts an issued invoice's or credit note's paper with a mail, and its e-invoice where it has one. */
export async function encloseInvoiceIn(
  tx: ShopTx,
  mailId: number,
  nounId: number,
  doc: FrozenInvoice,
): Promise<void> {
  for (const form of doc.einvoice ? (["pdf", "xml"] as const) : (["pdf"] as const)) {
    const name = `${KIND_FILES[doc.kind]}-${doc.written}.${form}`;
    await encloseIn(tx, mailId, { noun: "invoice", nounId, form, name });
  }
}

const ROW = {
  id: true,
  mailId: true,
  noun: true,
  nounId: true,
  form: true,
  name: true,
  printed: true,
} as const;
type Row = Prisma.MailAttachmentGetPayload<{ select: typeof ROW }>;

/** What goes with one mail, in the order it was put there. */
export async function enclosedWith(shop: ShopHandle, mailId: number): Promise<Enclosed[]> {
  const rows = await shop.read.mailAttachment.findMany({
    where: { mailId },
    select: ROW,
    orderBy: { id: "asc" },
    take: 20,
  });
  return Promise.all(rows.map((row) => enclosedOf(shop, row)));
}

/** One document that goes with a mail; null where there is none. */
export async function getEnclosed(shop: ShopHandle, id: number): Promise<Enclosed | null> {
  const row = await shop.read.mailAttachment.findUnique({ where: { id }, select: ROW });
  return row && enclosedOf(shop, row);
}

async function enclosedOf(shop: ShopHandle, row: Row): Promise<Enclosed> {
  const { name } = row;
  if (row.noun === "order")
    return {
      document: "order",
      form: row.form === "csv" ? "csv" : "pdf",
      name,
      printed: storedOrder(row.printed),
    };
  if (row.noun === "money") return { document: "money", name, printed: storedMoney(row.printed) };
  if (row.noun === "booking") return { document: "visit", name, printed: storedVisit(row.printed) };
  if (row.noun === "statement") return { document: "statement", name, printed: storedStatement(row.printed) };
  const of = { where: { id: row.nounId }, select: { frozen: true, hash: true } } as const;
  if (row.noun === "quote") {
    const kept = await shop.read.quoteRevision.findUnique(of);
    demandSound(name, kept);
    const { country } = await shop.read.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { country: true },
    });
    return { document: "quote", name, printed: storedQuote(kept?.frozen), country };
  }
  if (row.noun === "reminder") {
    const kept = await shop.read.reminder.findUnique(of);
    demandSound(name, kept);
    return { document: "reminder", name, printed: storedReminder(kept?.frozen) };
  }
  const kept = await shop.read.invoice.findUnique(of);
  demandSound(name, kept);
  return {
    document: "invoice",
    form: row.form === "xml" ? "xml" : "pdf",
    name,
    printed: storedInvoice(kept?.frozen),
  };
}

function demandSound(name: string, kept: { frozen: unknown; hash: string | null } | null): void {
  if (!kept?.frozen || hashOf(kept.frozen) !== kept.hash)
    throw new Error(`${name} is not what its hash was made of, so it does not leave.`);
}
