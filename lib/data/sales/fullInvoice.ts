import { once } from "@/lib/db/once";
import { audit, nextWritten } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { depositLeftOf, settled } from "@/lib/domain/invoices/held";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { sharesOf } from "@/lib/domain/invoices/shares";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { invoiceRequirements } from "@/lib/domain/tax/requirements";
import type { FullInvoiceInput } from "@/lib/schemas/sales";
import { frozenOf, storedInvoice } from "../documents/invoice";
import { demandEinvoice, withEinvoice } from "../einvoice/printed";
import { demandComplete } from "../invoices/compose";
import { creditIn } from "../invoices/credit";
import { figuresOf } from "../invoices/draft";
import { FIRST_INVOICE, findBy, issued } from "../invoices/issue";
import { demandLater } from "../invoices/order";
import { saleIn } from "./rows";
import { customerIn } from "./sell";

/**
 * A full invoice in place of a receipt, on request: a credit note takes the receipt back, the invoice names the buyer, and
 * what was paid comes off it. Parts and money stay where they are. Answers the sale's id.
 */
export async function invoiceSale(
  shop: ShopHandle,
  input: FullInvoiceInput & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) => once(tx, shop, "invoiced a sale", input, () => invoiceIn(tx, shop, input)));
}

async function invoiceIn(tx: ShopTx, shop: ShopHandle, input: FullInvoiceInput): Promise<number> {
  const sale = await saleIn(tx, input.saleId);
  const { live } = sale;
  if (live.kind === "invoice")
    throw new Refusal(
      `This sale has a full invoice already: ${live.written}.`,
      "Open or print that one.",
      {},
      "conflict",
    );
  const receipt = storedInvoice(live.frozen);
  const buyer = await customerIn(tx, input.customerId);
  if (!buyer) throw new Error("An invoice without a buyer.");
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const day = dayIn(zone, shop.now);
  const rule = invoiceRequirements(receipt.taxRegime, receipt.grossMinor, receipt.currency);
  const prepaidMinor = depositLeftOf(sale.payments);
  const paper: PrintedInvoice = {
    ...receipt,
    kind: "invoice",
    number: null,
    written: "",
    title: rule.title,
    issuedOn: day,
    dueOn: day,
    buyer,
    settlements: [],
    prepaidMinor,
    dueMinor: receipt.grossMinor - prepaidMinor,
    deposits: sale.payments.map((payment) => ({
      paidOn: payment.paidOn,
      method: payment.method,
      amountMinor: settled(payment),
    })),
    rule: { tier: rule.tier, source: rule.source },
  };
  const printed = await withEinvoice(tx, { customerId: input.customerId }, paper);
  demandComplete(printed);
  demandEinvoice(printed);
  await creditIn(tx, shop, {
    id: live.id,
    reason: "Replaced by a full invoice",
    earlier: input.earlier,
  });
  const order = await demandLater(tx, day, input.earlier === "on");
  const frozen = frozenOf({ ...printed, ...(await nextWritten(tx, shop, "invoice", FIRST_INVOICE)) });
  const { id } = await tx.invoice.create({
    data: {
      kind: "invoice",
      saleId: sale.id,
      customerId: input.customerId,
      basis: "counter",
      searchKey: findBy(frozen),
      createdAt: shop.now,
      ...issued(frozen),
      shares: { create: sharesOf(frozen) },
      ...figuresOf(frozen),
    },
    select: { id: true },
  });
  await audit(tx, shop, "issued", "invoice", id, {
    number: frozen.written,
    grossMinor: frozen.grossMinor,
    saleId: sale.id,
    ...order,
  });
  return sale.id;
}
