import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { newToken } from "@/lib/db/token";
import { formatMoney } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { type Said, wordsIn } from "@/lib/words/words";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";
import { encloseInvoiceIn } from "../mail/attachments";

export interface MadeLink {
  /** Below the product's own address; shown once, since only the token's hash is kept. */
  readonly path: string;
  readonly expiresAt: Date;
}

/** How long a customer's link opens, in days (judgement): an invoice's for as long as it is argued about. */
const DAYS = { invoice: 180, job: 60 } as const;

/** A link by which the customer sees one issued invoice or credit note. */
export async function makeInvoiceLink(shop: ShopHandle, invoiceId: number): Promise<MadeLink> {
  return shop.write((tx) => invoiceLinkIn(tx, shop, invoiceId));
}

async function invoiceLinkIn(tx: ShopTx, shop: ShopHandle, invoiceId: number): Promise<MadeLink> {
  const row = await tx.invoice.findUnique({ where: { id: invoiceId }, select: { state: true } });
  if (!row) throw new Refusal("There is no such invoice.", "Choose one from the list.", {}, "missing");
  if (row.state !== "issued")
    throw new Refusal("A draft is not shown to the customer.", "Issue it first.", {}, "conflict");
  return linkIn(tx, shop, "invoice", { invoiceId });
}

/** A link by which the customer follows one job. */
export async function makeJobLink(shop: ShopHandle, jobId: number): Promise<MadeLink> {
  return shop.write(async (tx) => {
    const job = await tx.job.findUnique({ where: { id: jobId }, select: { id: true } });
    if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
    return linkIn(tx, shop, "job", { jobId });
  });
}

/** A customer's link to a job or a document, made within a write that is under way. */
export async function linkIn(
  tx: ShopTx,
  shop: ShopHandle,
  purpose: "invoice" | "job",
  to: { invoiceId: number } | { jobId: number },
): Promise<MadeLink> {
  const token = newToken();
  const expiresAt = new Date(shop.now.getTime() + DAYS[purpose] * 86_400_000);
  const { id } = await tx.customerLink.create({
    data: { purpose, tokenHash: token.hash, createdAt: shop.now, expiresAt, ...to },
    select: { id: true },
  });
  await audit(tx, shop, "made", "customerLink", id, { purpose, ...to });
  return { path: `/c/${shop.slug}/${token.text}`, expiresAt };
}

/** Writes the customer, or whom `to` names, a mail with the invoice's link, into the mail queue. `origin` is the product's address. */
export async function mailInvoice(
  shop: ShopHandle,
  input: { id: number; origin: string; to?: string; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) => once(tx, shop, "wrote an invoice's mail", input, () => writeIn(tx, shop, input)));
}

const KIND = {
  invoice: "mails.kindInvoice",
  creditNote: "mails.kindCreditNote",
  receipt: "mails.kindReceipt",
} as const;

/** What a document charges, in a few words. */
const forWhat = ({ jobs }: FrozenInvoice, say: Said): string =>
  jobs.length === 0
    ? say("mails.overCounter")
    : jobs.map((job) => `${job.title} (${job.bike.name})`).join(", ");

/** Answers the mail's id: never the link, of which only a hash is kept. */
async function writeIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: { id: number; origin: string; to?: string },
): Promise<number> {
  const row = await tx.invoice.findUnique({
    where: { id: input.id },
    select: { frozen: true, customer: { select: { email: true } } },
  });
  const link = await invoiceLinkIn(tx, shop, input.id);
  const to = input.to ?? row?.customer?.email;
  if (!row || !to)
    throw new Refusal(
      "This customer has no mail address.",
      "Enter it on the customer's page, or hand over the link.",
    );
  const doc = storedInvoice(row.frozen);
  const say = wordsIn(doc.locale);
  const what = say(KIND[doc.kind]);
  const number = doc.written;
  const purpose = forWhat(doc, say);
  const day = new Date(`${doc.dueOn}T00:00:00Z`);
  const amount = formatMoney(doc.dueMinor, doc.currency, doc.locale);
  const text = [
    doc.buyer.name ? say("mails.dear", { name: doc.buyer.name }) : say("mails.goodDay"),
    doc.dueMinor > 0 && doc.settlements.length === 0
      ? say("mails.invoiceDue", { what, number, purpose, amount, day })
      : say("mails.invoice", { what, number, purpose, amount }),
    `${input.origin}${link.path}`,
    say("mails.linkUntil", { day: link.expiresAt }),
    doc.seller.name,
  ].join("\n\n");
  const mail = await tx.mail.create({
    data: {
      to,
      subject: say("mails.invoiceSubject", { shop: doc.seller.name, what, number }),
      text,
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await encloseInvoiceIn(tx, mail.id, input.id, doc);
  await audit(tx, shop, "wrote", "mail", mail.id, { invoice: doc.written });
  return mail.id;
}
