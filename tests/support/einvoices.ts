import { einvoiceBuyer, saveEinvoiceBuyer } from "@/lib/data/einvoice/buyer";
import { noteOrderNumber } from "@/lib/data/einvoice/order";
import { einvoiceSeller, saveEinvoiceSeller } from "@/lib/data/einvoice/seller";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { addInvoiceLine } from "@/lib/data/invoices/edits";
import { issueInvoice } from "@/lib/data/invoices/issue";
import type { ShopHandle } from "@/lib/db/shop";
import { EinvoiceBuyerSchema, EinvoiceSellerSchema } from "@/lib/schemas/einvoices";
import { AddInvoiceLineSchema } from "@/lib/schemas/invoiceEdits";
import { invoiceNow } from "./invoices";

/** Switches e-invoices on for a shop, as its form would. */
export async function einvoicesOn(shop: ShopHandle, more: Record<string, string> = {}): Promise<void> {
  const { country } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const { version } = await einvoiceSeller(shop.read);
  await saveEinvoiceSeller(
    shop,
    EinvoiceSellerSchema.parse({ version: String(version), country, on: "on", ...more }),
  );
}

/** Makes a customer a business that gets e-invoices, as its forms would. */
export async function wantsEinvoices(
  shop: ShopHandle,
  customerId: number,
  more: Record<string, string> = {},
): Promise<void> {
  await shop.write((tx) =>
    tx.customer.update({
      where: { id: customerId },
      data: { business: true, address: "9 Ridge Road\nSaltpan" },
    }),
  );
  const { version, country } = await einvoiceBuyer(shop.read, customerId);
  await saveEinvoiceBuyer(
    shop,
    EinvoiceBuyerSchema.parse({
      customerId: String(customerId),
      version: String(version),
      country,
      on: "on",
      ...more,
    }),
  );
}

export interface AddedLine {
  readonly name: string;
  readonly price: string;
  readonly taxMark?: string;
  /** Per cent off it. */
  readonly discount?: string;
}

/** A job's invoice, with lines added by hand and the customer's order number, issued. Answers its id. */
export async function issuedWith(
  shop: ShopHandle,
  jobId: number,
  { lines = [], order = "PO-7", also = [] }: { lines?: AddedLine[]; order?: string; also?: number[] } = {},
): Promise<number> {
  const id = await draftInvoice(shop, { jobId, basis: "fixed", also });
  const seen = async () => ({ id: String(id), version: String((await invoiceNow(shop, id)).version) });
  for (const line of lines)
    await addInvoiceLine(
      shop,
      AddInvoiceLineSchema.parse({
        ...(await seen()),
        kind: "fixed",
        reason: "Agreed on the phone",
        ...line,
      }),
    );
  await noteOrderNumber(shop, { id, number: order });
  return issueInvoice(shop, { id, version: (await invoiceNow(shop, id)).version });
}
