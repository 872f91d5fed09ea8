import { askOf } from "@/lib/domain/invoices/paying";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { formatMoney } from "@/lib/domain/money/format";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { dayText, distanceText } from "./format";
import { addressee, letterfoot, letterhead } from "./letterhead";
import { priceLines, type Sum, totalSums } from "./lines";
import { caution, facts, label, say, section, sums } from "./look";
import { howToPay } from "./paying";
import { type Content, toPdf } from "./pdf";
import { ratesWithTax, receiptPdf, receiptTitle, settledSums } from "./receipt";

/** An invoice, a credit note, a receipt, or a draft marked as one, as a PDF. Everything printed is in the value. */
export async function invoicePdf(doc: PrintedInvoice): Promise<Uint8Array> {
  return isReceipt(doc) ? receiptPdf(doc) : sheetPdf(doc);
}

/** The same on an office sheet, a counter sale's receipt too. */
export async function sheetPdf(doc: PrintedInvoice): Promise<Uint8Array> {
  const words = paperWords(doc.locale);
  const title = titleOf(doc, words);
  const name = doc.number === null ? title : `${title} ${doc.written}`;
  return toPdf({
    title: name,
    author: doc.seller.name,
    locale: doc.locale,
    country: doc.country,
    date: doc.issuedOn,
    footer: letterfoot(name, doc.seller, words),
    content: [
      letterhead({ title, ...(doc.number === null ? {} : { number: doc.written }) }, doc.seller, words),
      ...(doc.number === null ? [caution(words.draft)] : []),
      about(doc, words),
      section(linesTitle(doc, words)),
      jobLines(doc, words),
      sums([
        ...totalSums(doc, words),
        ...ratesWithTax(doc, words),
        ...paidBefore(doc, words),
        ...paidAtOnce(doc, words),
      ]),
      ...paying(doc, words),
      ...(doc.note ? [say(doc.note, { margin: [0, 12, 0, 0] })] : []),
      ...(doc.kind === "receipt" ? [label(words.keep, { margin: [0, 12, 0, 0] })] : []),
    ],
  });
}

/** A counter sale's receipt, or the slip of its return. */
const isReceipt = ({ basis, kind }: PrintedInvoice) => basis === "counter" && kind !== "invoice";

function titleOf(doc: PrintedInvoice, words: PaperWords): string {
  if (isReceipt(doc)) return receiptTitle(doc, words);
  return doc.kind === "creditNote" ? words.creditNote : doc.title;
}

const linesTitle = ({ kind, jobs }: PrintedInvoice, words: PaperWords) =>
  kind === "creditNote" ? words.credited : jobs.length > 0 ? words.lines : words.parts;

function about(doc: PrintedInvoice, words: PaperWords): Content {
  const day = (given: string) => (given ? dayText(given, doc.locale) : "");
  const buyer = addressee(doc.buyer, words);
  const dates = facts([
    ...(doc.kind === "receipt" ? [] : [[words.issued, day(doc.issuedOn)] as const]),
    [doc.jobs.length > 0 ? words.done : words.soldOn, day(doc.supplyOn)],
    [words.due, asksForMoney(doc) ? day(doc.dueOn) : ""],
    [
      doc.credits?.kind === "receipt" ? words.creditsReceipt : words.credits,
      doc.credits ? `${doc.credits.written}, ${day(doc.credits.issuedOn)}` : "",
    ],
    [words.reason, doc.credits?.reason ?? ""],
  ]);
  if (doc.jobs.length === 0)
    return doc.buyer.name ? { columns: [buyer, dates], columnGap: 24 } : { stack: [dates] };
  const jobs = facts([
    ...doc.jobs.flatMap(({ bike, number, title }): [string, string][] => [
      [words.bike, bike.name],
      [words.plate, bike.plate],
      [words.frame, bike.frameNumber],
      [
        words.odometer,
        bike.odometerKm === null
          ? ""
          : distanceText(bike.odometerKm, bike.odometerUnits ?? "metric", doc.locale),
      ],
      [words.job, `${number}, ${title}`],
    ]),
    [words.quoteNo, doc.quotes.join(", ")],
  ]);
  return { columns: [{ stack: [buyer, dates] }, jobs], columnGap: 24 };
}

/** The lines, under their jobs where there are several. */
function jobLines(doc: PrintedInvoice, words: PaperWords): Content {
  if (doc.jobs.length <= 1) return priceLines(doc, words);
  const lines = doc.lines.map((line) => ({ ...line, work: String(line.job) }));
  const jobs = doc.jobs.map(({ number, title, bike }) => ({
    key: String(number),
    name: `${words.job} ${number}: ${title}, ${[bike.name, bike.plate].filter(Boolean).join(", ")}`,
  }));
  return priceLines({ ...doc, lines }, words, jobs);
}

function paidBefore(doc: PrintedInvoice, words: PaperWords): Sum[] {
  return doc.deposits.map((deposit) => {
    const method = words.methods[deposit.method] ?? deposit.method;
    const name = (deposit.amountMinor < 0 ? words.givenBack : words.deposit)(
      dayText(deposit.paidOn, doc.locale),
      deposit.job === undefined ? method : `${method}, ${words.job.toLowerCase()} ${deposit.job}`,
    );
    return { name, value: formatMoney(0 - deposit.amountMinor, doc.currency, doc.locale) };
  });
}

const asksForMoney = (doc: PrintedInvoice) =>
  doc.kind === "invoice" && doc.dueMinor > 0 && doc.settlements.length === 0;

/** What is due; or, where it was paid as it was issued, what was paid. */
function paidAtOnce(doc: PrintedInvoice, words: PaperWords): Sum[] {
  return doc.settlements.length > 0 ? settledSums(doc, words) : [due(doc, words)];
}

function due(doc: PrintedInvoice, words: PaperWords): Sum {
  const name = doc.kind === "creditNote" ? words.toCredit : doc.dueMinor < 0 ? words.toPayBack : words.toPay;
  return {
    name,
    value: formatMoney(doc.dueMinor < 0 ? 0 - doc.dueMinor : doc.dueMinor, doc.currency, doc.locale),
    strong: true,
  };
}

function paying(doc: PrintedInvoice, words: PaperWords): Content[] {
  if (!asksForMoney(doc) || doc.number === null) return [];
  const rows = [
    say(words.payBy(dayText(doc.dueOn, doc.locale)), { margin: [0, 0, 0, 4] }),
    howToPay(askOf(doc), doc.currency, doc.dueMinor, doc.locale),
  ];
  return [{ stack: [section(words.pay), ...rows], unbreakable: true }];
}
