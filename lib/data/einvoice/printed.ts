import type { ShopTx } from "@/lib/db/shop";
import { partyOf } from "@/lib/domain/einvoice/party";
import { profileOf } from "@/lib/domain/einvoice/places";
import { type BrokenRule, brokenRules } from "@/lib/domain/einvoice/requirements";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { Refusal } from "@/lib/domain/refusal";
import { einvoiceBuyer } from "./buyer";
import { einvoiceSeller } from "./seller";

type Reads = Pick<ShopTx, "einvoiceSeller" | "einvoiceBuyer" | "einvoiceOrder" | "settings">;

/** Whose document it is, and which draft. */
interface Of {
  readonly customerId: number | null;
  readonly invoiceId?: number;
}

/**
 * A document with what its e-invoice says besides, where the shop has e-invoices on and the customer is a business that gets them;
 * else as it is.
 */
export async function withEinvoice(
  reads: Reads,
  { customerId, invoiceId }: Of,
  doc: PrintedInvoice,
): Promise<PrintedInvoice> {
  if (customerId === null || !doc.buyer.business || doc.kind === "receipt") return doc;
  const seller = await einvoiceSeller(reads);
  const buyer = await einvoiceBuyer(reads, customerId);
  if (!seller.on || !buyer.on) return doc;
  const order =
    invoiceId === undefined
      ? null
      : await reads.einvoiceOrder.findUnique({ where: { invoiceId }, select: { number: true } });
  const { country } = doc;
  return {
    ...doc,
    einvoice: {
      profile: profileOf(country, buyer.country),
      seller: partyOf({ ...seller, country, taxNumber: doc.seller.taxNumber }),
      buyer: partyOf({ ...buyer, taxNumber: doc.buyer.taxNumber }),
      buyerReference: buyer.reference,
      orderNumber: order?.number ?? "",
    },
  };
}

/** Refuses a document that would be no valid e-invoice, naming the rules and what mends them. */
export function demandEinvoice(doc: PrintedInvoice): void {
  const broken = brokenRules(doc);
  if (broken.length === 0) return;
  throw new Refusal(
    `This is to be an e-invoice, and is none yet: ${broken.map(({ rule, what }) => `${what} (${rule})`).join(" ")}`,
    [...new Set(broken.map(({ at }) => WHERE[at]))].join(" "),
  );
}

const WHERE: Readonly<Record<BrokenRule["at"], string>> = {
  shop: "Enter it under Shop > Settings.",
  shopEinvoice: "Enter it under Shop > E-invoices.",
  customer: "Enter it on the customer's page.",
  customerEinvoice: "Enter it on the customer's page, under E-invoices.",
  draft: "Enter it on the draft.",
  lines: "Change the lines of the draft.",
};
