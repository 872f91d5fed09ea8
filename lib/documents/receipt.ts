import type { PrintedInvoice, PrintedSettlement } from "@/lib/domain/invoices/printed";
import { formatMoney } from "@/lib/domain/money/format";
import { nameIn } from "@/lib/domain/pricing/said";
import { receiptRequirements } from "@/lib/domain/tax/receipts";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { amountText, dayText, quantityText, unitPriceText } from "./format";
import { type Sum, totalSums } from "./lines";
import { figure, INK, label, say } from "./look";
import { type Content, type TableCell, toPdf } from "./pdf";
import { sellerNumber } from "./sellerNumber";

const MM = 72 / 25.4;
/** Receipt rolls are 80 mm wide, of which printers reach some 72 (common practice). */
const ROLL = {
  width: 80 * MM,
  margins: [4 * MM, 5 * MM, 4 * MM, 5 * MM] as [number, number, number, number],
};

/** A counter sale's receipt, or the slip of its return, on a roll as long as it needs. Everything printed is in the value. */
export async function receiptPdf(doc: PrintedInvoice): Promise<Uint8Array> {
  const words = paperWords(doc.locale);
  const title = receiptTitle(doc, words);
  const { seller, buyer, locale } = doc;
  const middle = (text: string, look = {}) => say(text, { align: "center", ...look });
  return toPdf({
    title: `${title} ${doc.written}`,
    author: seller.name,
    locale,
    country: doc.country,
    date: doc.issuedOn,
    page: { width: ROLL.width, height: "auto", margins: ROLL.margins },
    footer: () => say(""),
    content: [
      middle(seller.legalName || seller.name, { bold: true, size: 12 }),
      ...[seller.address, sellerNumber(seller, words), seller.phone]
        .filter(Boolean)
        .map((row) => middle(row)),
      middle(title, { bold: true, size: 12, margin: [0, 8, 0, 0] }),
      middle(doc.written, { face: "Figure", size: 11 }),
      middle(dayText(doc.issuedOn, locale)),
      ...(doc.credits
        ? [
            middle(
              `${doc.credits.kind === "receipt" ? words.creditsReceipt : words.credits} ${doc.credits.written}, ${dayText(doc.credits.issuedOn, locale)}`,
            ),
            middle(`${words.reason}: ${doc.credits.reason}`),
          ]
        : []),
      ...(buyer.name ? [middle([buyer.name, buyer.address].filter(Boolean).join("\n"))] : []),
      lines(doc, words),
      narrowSums([...totalSums(doc, words), ...ratesWithTax(doc, words), ...settledSums(doc, words)]),
      ...(doc.note ? [middle(doc.note, { margin: [0, 8, 0, 0] })] : []),
      middle(doc.kind === "creditNote" ? "" : words.thanks, { margin: [0, 8, 0, 0] }),
      ...(doc.kind === "creditNote" ? [] : [middle(words.keep, { size: 8 })]),
    ],
  });
}

/** What the paper of a counter sale is called: its receipt, the slip of its return, or a credit note that paid nothing back. */
export const receiptTitle = (doc: PrintedInvoice, words: PaperWords): string =>
  doc.kind !== "creditNote" ? doc.title : doc.settlements.length > 0 ? words.returned : words.creditNote;

/** The total with tax of each rate, where the regime asks for it and there are several: with one it is the total. */
export function ratesWithTax(doc: PrintedInvoice, words: PaperWords): Sum[] {
  const { fields } = receiptRequirements(doc.taxRegime, doc.grossMinor, doc.currency);
  if (doc.kind === "invoice" || doc.taxes.length < 2 || !fields.includes("grossPerRate")) return [];
  return doc.taxes.map(({ name, taxableMinor, taxMinor }) => ({
    name: words.withTaxAt(name),
    value: formatMoney(taxableMinor + taxMinor, doc.currency, doc.locale),
  }));
}

/** What was paid as the document was issued, with the rounding to coins and the change; nothing where nothing was. */
export const settledSums = (doc: PrintedInvoice, words: PaperWords): Sum[] =>
  doc.settlements.flatMap((settlement) => settledBy(doc, settlement, words));

function settledBy(doc: PrintedInvoice, settlement: PrintedSettlement, words: PaperWords): Sum[] {
  const money = (minor: number) => formatMoney(minor, doc.currency, doc.locale);
  const { method, amountMinor, roundingMinor, givenMinor, changeMinor } = settlement;
  const back = doc.kind === "creditNote";
  const how = words.methods[method] ?? method;
  return [
    ...(roundingMinor === 0
      ? []
      : [{ name: words.cashRounding, value: money(back ? 0 - roundingMinor : roundingMinor) }]),
    { name: (back ? words.paidBackBy : words.paidBy)(how), value: money(amountMinor), strong: true },
    ...(changeMinor === 0
      ? []
      : [
          { name: words.given, value: money(givenMinor) },
          { name: words.change, value: money(changeMinor) },
        ]),
  ];
}

/** Two rows for each line: what it is, then how many at which price and the amount. */
function lines(doc: PrintedInvoice, words: PaperWords): Content {
  const { currency, locale } = doc;
  const taxed = new Set(doc.lines.map((line) => line.taxRateBp)).size > 1;
  const body = doc.lines.map((line): TableCell[] => {
    const rate = taxed ? `  ${line.taxRateBp / 100}\u00a0%` : "";
    const many =
      line.kind === "discount"
        ? rate.trim()
        : `${quantityText(line.quantityMilli, line.unit, locale)} × ${unitPriceText(line.unitPriceE4, currency, locale)}${rate}`;
    return [
      { stack: [say(nameIn(line, words.said)), ...(many ? [label(many)] : [])] } as TableCell,
      figure(amountText(line.shownMinor, currency, locale)) as TableCell,
    ];
  });
  return table(body, { margin: [0, 8, 0, 0], strong: () => false });
}

function narrowSums(rows: readonly Sum[]): Content {
  const body = rows.map((row): TableCell[] => [
    say(row.name, row.strong ? { bold: true } : { size: 8.5 }) as TableCell,
    figure(row.value, row.strong ? { bold: true, size: 10 } : {}) as TableCell,
  ]);
  return table(body, { margin: [0, 2, 0, 0], strong: (at) => rows[at]?.strong === true });
}

function table(
  body: TableCell[][],
  look: { margin: [number, number, number, number]; strong: (row: number) => boolean },
): Content {
  return {
    table: { widths: ["*", "auto"], body, dontBreakRows: true },
    layout: {
      hLineWidth: (at: number) => (at === 0 || look.strong(at) ? 0.9 : 0),
      vLineWidth: () => 0,
      hLineColor: () => INK,
      paddingLeft: () => 0,
      paddingRight: () => 0,
      paddingTop: () => 2,
      paddingBottom: () => 2,
    },
    margin: look.margin,
  } as Content;
}
