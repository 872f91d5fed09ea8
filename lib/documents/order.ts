import { priceText } from "@/lib/domain/money/scale";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import { paperWords } from "@/lib/words/papers";
import { toCsv } from "./csv";
import { dayText, quantityText, unitPriceText } from "./format";
import { letterfoot, letterhead } from "./letterhead";
import { facts, figure, label, ledger, say, section } from "./look";
import { toPdf } from "./pdf";

interface Words {
  order: string;
  draft: string;
  to: string;
  ordered: string;
  customerNumber: string;
  yourCode: string;
  ourCode: string;
  what: string;
  quantity: string;
  each: string;
  due: string;
  confirm: string;
}

const EN: Words = {
  order: "Purchase order",
  draft: "Draft: not placed",
  to: "To",
  ordered: "Ordered",
  customerNumber: "Our number with you",
  yourCode: "Your code",
  ourCode: "Our code",
  what: "What",
  quantity: "Quantity",
  each: "Price of one",
  due: "Needed",
  confirm: "Please confirm the day of delivery, and tell us where a price differs.",
};

const NB: Words = {
  order: "Bestilling",
  draft: "Utkast: ikke bestilt",
  to: "Til",
  ordered: "Bestilt",
  customerNumber: "Vårt kundenummer",
  yourCode: "Deres nr.",
  ourCode: "Vårt nr.",
  what: "Hva",
  quantity: "Antall",
  each: "Pris per stk.",
  due: "Trengs",
  confirm: "Bekreft leveringsdag, og si fra hvis en pris er en annen.",
};

const wordsOf = (locale: string): Words => (/^(nb|nn|no)\b/i.test(locale) ? NB : EN);

/** A purchase order as a PDF. Prices stand on it only where its lines carry them. */
export async function orderPdf(order: OrderOnPaper): Promise<Uint8Array> {
  const { shop, supplier } = order;
  const words = wordsOf(shop.locale);
  const name = `${words.order} ${order.number}`;
  const priced = order.lines.some((line) => line.unitCostE4 !== null);
  const day = (text: string | null) => (text ? dayText(text, shop.locale) : "");
  const paper = paperWords(shop.locale);
  return toPdf({
    title: name,
    author: shop.name,
    locale: shop.locale,
    country: shop.country,
    date: order.orderedOn ?? order.day,
    footer: letterfoot(name, shop, paper),
    content: [
      letterhead(
        {
          title: words.order,
          number: order.number,
          line: order.orderedOn ? `${words.ordered} ${day(order.orderedOn)}` : words.draft,
        },
        shop,
        paper,
      ),
      facts([
        [words.to, [supplier.name, supplier.address, supplier.email].filter(Boolean).join("\n")],
        [words.customerNumber, supplier.customerNumber],
      ]),
      label(words.confirm, { margin: [0, 8, 0, 0] }),
      ...(order.note ? [say(order.note, { margin: [0, 8, 0, 0] })] : []),
      section(words.what),
      ledger(
        [
          { head: words.yourCode, width: "auto" },
          { head: words.ourCode, width: "auto" },
          { head: words.what, width: "*" },
          { head: words.due, width: "auto" },
          { head: words.quantity, width: "auto", end: true },
          ...(priced ? [{ head: `${words.each}, ${shop.currency}`, width: "auto" as const, end: true }] : []),
        ],
        order.lines.map((line) => [
          say(line.code, { face: "Figure", size: 9 }),
          say(line.part.code, { face: "Figure", size: 9 }),
          say(line.part.name),
          label(day(line.dueOn)),
          figure(quantityText(line.quantityMilli, line.part.unit, shop.locale)),
          ...(priced
            ? [
                figure(
                  line.unitCostE4 === null ? "" : unitPriceText(line.unitCostE4, shop.currency, shop.locale),
                ),
              ]
            : []),
        ]),
      ),
    ],
  });
}

/** A purchase order for a supplier's machine: a row for each line, quantities and prices as decimal numbers. */
export function orderCsv(order: OrderOnPaper): string {
  const milli = (quantity: number) => String(quantity / 1000);
  return toCsv(
    [
      "order",
      "ordered",
      "your code",
      "our code",
      "what",
      "quantity",
      "unit",
      "price",
      "currency",
      "needed",
      "received",
      "open",
    ],
    order.lines.map((line) => [
      order.number,
      order.orderedOn,
      line.code,
      line.part.code,
      line.part.name,
      milli(line.quantityMilli),
      line.part.unit,
      line.unitCostE4 === null ? null : priceText(line.unitCostE4, order.shop.currency),
      order.shop.currency,
      line.dueOn,
      milli(line.receivedMilli),
      milli(line.openMilli),
    ]),
  );
}
