import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { EinvoiceOrderInput } from "@/lib/schemas/einvoices";

/** Notes the customer's own order number on a draft invoice; empty takes it off. */
export async function noteOrderNumber(shop: ShopHandle, { id, number }: EinvoiceOrderInput): Promise<void> {
  await shop.write(async (tx) => {
    const row = await tx.invoice.findUnique({ where: { id }, select: { state: true } });
    if (!row) throw new Refusal("There is no such invoice.", "Choose one from the list.", {}, "missing");
    if (row.state !== "draft")
      throw new Refusal("An issued document never changes.", "Credit it instead.", {}, "conflict");
    await tx.einvoiceOrder.upsert({
      where: { invoiceId: id },
      create: { invoiceId: id, number },
      update: { number },
    });
    await audit(tx, shop, "noted the order number of", "invoice", id, { number });
  });
}
