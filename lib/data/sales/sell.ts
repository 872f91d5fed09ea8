import { once } from "@/lib/db/once";
import { audit, nextWritten } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type HandedOver, handedOver } from "@/lib/domain/invoices/handOver";
import type { PrintedInvoice, PrintedSettlement } from "@/lib/domain/invoices/printed";
import type { MoneyPart } from "@/lib/domain/invoices/settle";
import { sharesOf } from "@/lib/domain/invoices/shares";
import type { PriceRules } from "@/lib/domain/pricing/lines";
import { type PartForSale, priceSale } from "@/lib/domain/pricing/sale";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { receiptRequirements } from "@/lib/domain/tax/receipts";
import { invoiceRequirements } from "@/lib/domain/tax/requirements";
import type { SellInput } from "@/lib/schemas/sales";
import { frozenOf } from "../documents/invoice";
import { demandEinvoice, withEinvoice } from "../einvoice/printed";
import { demandComplete, sellerOf } from "../invoices/compose";
import { figuresOf } from "../invoices/draft";
import { FIRST_INVOICE, findBy, issued } from "../invoices/issue";
import { demandLater } from "../invoices/order";
import { changedTotal } from "../invoices/rows";
import { writeMoneyIn } from "../payments/rows";
import { inCompanyRegister } from "../shop/taxTerms";
import { recordMoveIn } from "../stock/moves";
import { partsForSaleIn, saleBookOf } from "./parts";

const FIRST_RECEIPT = 501;

export interface Sell extends Omit<SellInput, "given" | "alsoMethod" | "alsoAmount"> {
  /** What was paid of it by another method; `method` pays the rest. */
  readonly also?: MoneyPart | undefined;
  /** What the customer gave in cash; null where it was exact. */
  readonly givenMinor: number | null;
  readonly key?: string | undefined;
}

/**
 * Sells parts over the counter: priced, taken out of stock, numbered, frozen and paid in one transaction, or not at all.
 * Answers the sale's id.
 */
export async function sell(shop: ShopHandle, input: Sell): Promise<number> {
  return shop.write((tx) => once(tx, shop, "sold over the counter", input, () => sellIn(tx, shop, input)));
}

async function sellIn(tx: ShopTx, shop: ShopHandle, input: Sell): Promise<number> {
  const settings = await tx.settings.findUniqueOrThrow({ where: { id: 1 } });
  const book = await saleBookOf(tx);
  const parts = await partsForSaleIn(
    tx,
    input.lines.map((line) => line.partId),
    book,
  );
  const customer = await customerIn(tx, input.customerId);
  const day = dayIn(settings.zone, shop.now);
  const priced = saleLines(input, parts, book);
  if (input.shownMinor !== undefined && input.shownMinor !== priced.grossMinor)
    throw changedTotal(input.shownMinor, priced.grossMinor, book);
  const rule = ruleFor(input.paper, priced.grossMinor, book);
  const paid = handedOver(priced.grossMinor, input, settings.cashRoundingMinor, book);
  const { currency, locale, pricesIncludeTax, taxRegime } = book;
  const paper: PrintedInvoice = {
    kind: input.paper,
    number: null,
    written: "",
    title: rule.title,
    issuedOn: day,
    dueOn: day,
    supplyOn: day,
    basis: "counter",
    credits: null,
    seller: sellerOf({ ...settings, inCompanyRegister: await inCompanyRegister(tx) }, taxRegime),
    buyer: customer ?? { name: "", address: "", taxNumber: "", business: false },
    jobs: [],
    quotes: [],
    settlements: paid.map(settlementOf),
    country: settings.country,
    locale,
    currency,
    pricesIncludeTax,
    taxRegime,
    lines: priced.lines.map(({ costMinor: _, ...line }) => line),
    taxes: priced.taxes,
    netMinor: priced.netMinor,
    taxMinor: priced.taxMinor,
    grossMinor: priced.grossMinor,
    prepaidMinor: 0,
    dueMinor: priced.grossMinor,
    deposits: [],
    note: settings.documentNote,
    rule: { tier: rule.tier, source: rule.source },
  };
  const printed = await withEinvoice(tx, { customerId: input.customerId ?? null }, paper);
  demandComplete(printed);
  demandEinvoice(printed);
  const order = await demandLater(tx, day, input.earlier === "on");
  const first = input.paper === "receipt" ? FIRST_RECEIPT : FIRST_INVOICE;
  const frozen = frozenOf({ ...printed, ...(await nextWritten(tx, shop, input.paper, first)) });
  const sale = await tx.sale.create({
    data: { soldAt: shop.now, staffId: shop.by.staffId },
    select: { id: true },
  });
  const { id } = await tx.invoice.create({
    data: {
      kind: input.paper,
      saleId: sale.id,
      customerId: input.customerId ?? null,
      basis: "counter",
      searchKey: findBy(frozen),
      createdAt: shop.now,
      paidMinor: frozen.grossMinor,
      ...issued(frozen),
      shares: { create: sharesOf(frozen) },
      ...figuresOf(frozen),
    },
    select: { id: true },
  });
  for (const { partId, quantity } of input.lines)
    await recordMoveIn(tx, shop, {
      partId,
      kind: "use",
      quantityMilli: quantity,
      saleId: sale.id,
      why: `sold, ${input.paper} ${frozen.written}`,
    });
  for (const { method, amountMinor, roundingMinor } of paid)
    await writeMoneyIn(tx, shop, {
      kind: "payment",
      saleId: sale.id,
      invoiceId: id,
      method,
      amountMinor,
      roundingMinor,
      paidOn: day,
    });
  await audit(tx, shop, "issued", "invoice", id, {
    number: frozen.written,
    grossMinor: frozen.grossMinor,
    saleId: sale.id,
    ...order,
  });
  return sale.id;
}

export const settlementOf = ({
  method,
  amountMinor,
  roundingMinor,
  givenMinor,
  changeMinor,
}: HandedOver): PrintedSettlement => ({ method, amountMinor, roundingMinor, givenMinor, changeMinor });

/** Prices what is sold; a price that is not the list's says so. */
function saleLines(input: Sell, parts: readonly PartForSale[], book: PriceRules) {
  const sold = input.lines.map((line) => {
    const part = parts.find((one) => one.id === line.partId);
    if (!part) throw new Refusal("One of these parts is not known.", "Scan or find it again.", {}, "missing");
    return { ...line, part };
  });
  const priced = priceSale(
    sold.map(({ part, quantity, price, discount }) => ({
      code: part.code,
      name: part.name,
      unit: part.unit,
      quantityMilli: quantity,
      unitPriceE4: price,
      discountBp: discount,
      ...(part.taxMark ? { taxMark: part.taxMark } : {}),
    })),
    { ...book, discountBp: input.discount, discountWhy: input.discountWhy },
  );
  const typed = new Set(sold.flatMap(({ part, price }) => (price === part.priceE4 ? [] : [part.code])));
  const lines = priced.lines.map((line) => {
    const [first, ...rest] = line.because;
    return first && line.kind === "part" && typed.has(line.key)
      ? { ...line, because: [{ ...first, from: "price agreed at the counter" }, ...rest] }
      : line;
  });
  return { ...priced, lines };
}

/** What the paper must carry; a sale too dear for a receipt needs a buyer's name on an invoice. */
function ruleFor(paper: SellInput["paper"], grossMinor: number, { taxRegime, currency }: PriceRules) {
  if (paper === "invoice") return invoiceRequirements(taxRegime, grossMinor, currency);
  const rule = receiptRequirements(taxRegime, grossMinor, currency);
  if (rule.allowed) return rule;
  throw new Refusal(
    `A receipt will not do at this total (${rule.tier}).`,
    "Choose the customer and print a full invoice.",
    { paper: "Choose the full invoice." },
  );
}

/** The buyer as the document names them. */
export async function customerIn(tx: ShopTx, id: number | undefined) {
  if (id === undefined) return null;
  const found = await tx.customer.findUnique({
    where: { id },
    select: { name: true, address: true, taxNumber: true, business: true },
  });
  if (!found) throw new Refusal("There is no such customer.", "Choose one from the list.", {}, "missing");
  return found;
}
