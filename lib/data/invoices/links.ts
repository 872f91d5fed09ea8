import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { storedInvoice } from "../documents/invoice";
import { encloseInvoiceIn } from "../mail/attachments";
import { linkIn, type MadeLink } from "../mail/customerLinks";
import { demandWritten, writeLetterIn } from "../mail/letters";
import { payText } from "../shop/account";
import { invoiceValues } from "./letterValues";
import { payAskOf } from "./paying";

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

/** Writes the customer, or whom `to` names, a mail with the invoice's link, into the mail queue. `origin` is the product's address. */
export async function mailInvoice(
  shop: ShopHandle,
  input: { id: number; origin: string; to?: string; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) => once(tx, shop, "wrote an invoice's mail", input, () => writeIn(tx, shop, input)));
}

/** Answers the mail's id: never the link, of which only a hash is kept. */
async function writeIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: { id: number; origin: string; to?: string },
): Promise<number> {
  const row = await tx.invoice.findUnique({
    where: { id: input.id },
    select: {
      frozen: true,
      customer: { select: { name: true, phone: true, email: true, noLetters: true } },
    },
  });
  const link = await invoiceLinkIn(tx, shop, input.id);
  const customer = row?.customer ?? { name: "", phone: "", email: "", noLetters: false };
  const doc = storedInvoice(row?.frozen);
  const written = await writeLetterIn(tx, shop, {
    kind: doc.kind === "receipt" ? "receipt" : "invoice",
    to: { email: input.to ?? customer.email, noLetters: customer.noLetters },
    locale: doc.locale,
    values: invoiceValues(
      doc,
      { ...link, path: `${input.origin}${link.path}` },
      payText(await payAskOf(tx, doc), doc.locale),
    ),
    about: { noun: "invoice", nounId: input.id },
  });
  const mailId = demandWritten(written, customer);
  await encloseInvoiceIn(tx, mailId, input.id, doc);
  return mailId;
}
