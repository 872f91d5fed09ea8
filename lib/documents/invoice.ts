import { askOf } from "@/lib/domain/invoices/paying";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { formatMoney } from "@/lib/domain/money/format";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { dayText, numberText } from "./format";
import { priceLines, type Sum, totalSums } from "./lines";
import { caution, facts, foot, heading, label, say, section, sums } from "./look";
import { howToPay } from "./paying";
import { type Content, toPdf } from "./pdf";
import { receiptPdf, settledSums } from "./receipt";
import { sellerNumber } from "./sellerNumber";

/** An invoice, a credit note, a receipt, or a draft marked as one, as a PDF. Everything printed is in the value. */
export async function invoicePdf(doc: PrintedInvoice): Promise<Uint8Array> {
  if (doc.basis === "counter" && doc.kind !== "invoice") return receiptPdf(doc);
  const words = paperWords(doc.locale);
  const title = titleOf(doc, words);
  const name = doc.number === null ? title : `${title} ${doc.written}`;
  return toPdf({
    title: name,
    author: doc.seller.name,
    locale: doc.locale,
    country: doc.country,
    date: doc.issuedOn,
    footer: foot(
      [doc.seller.legalName || doc.seller.name, sellerNumber(doc.seller, words), name]
        .filter(Boolean)
        .join("   "),
      words.page,
    ),
    content: [
      heading(title, [
        say(doc.seller.name, { bold: true, size: 12, align: "right" }),
        ...(doc.number === null ? [] : [say(doc.written, { face: "Figure", size: 13, align: "right" })]),
      ]),
      ...(doc.number === null ? [caution(words.draft)] : []),
      parties(doc, words),
      about(doc, words),
      section(linesTitle(doc, words)),
      jobLines(doc, words),
      sums([...totalSums(doc, words), ...paidBefore(doc, words), ...paidAtOnce(doc, words)]),
      ...paying(doc, words),
      ...(doc.note ? [say(doc.note, { margin: [0, 12, 0, 0] })] : []),
    ],
  });
}

function titleOf(doc: PrintedInvoice, words: PaperWords): string {
  return doc.kind === "creditNote" ? words.creditNote : doc.title;
}

const linesTitle = ({ kind, jobs }: PrintedInvoice, words: PaperWords) =>
  kind === "creditNote" ? words.credited : jobs.length > 0 ? words.lines : words.parts;

function parties(doc: PrintedInvoice, words: PaperWords): Content {
  const { seller, buyer } = doc;
  const block = (title: string, rows: readonly string[]): Content => ({
    stack: [
      label(title),
      ...rows.filter((row) => row.trim() !== "").map((row, at) => say(row, { bold: at === 0 })),
    ],
  });
  return {
    columns: [
      block(words.from, [
        seller.legalName || seller.name,
        seller.address,
        sellerNumber(doc.seller, words),
        [seller.phone, seller.email].filter(Boolean).join("   "),
      ]),
      block(words.to, [
        buyer.name,
        buyer.address,
        buyer.taxNumber ? `${words.taxNumber} ${buyer.taxNumber}` : "",
      ]),
    ],
    columnGap: 24,
  };
}

function about(doc: PrintedInvoice, words: PaperWords): Content {
  const day = (given: string) => (given ? dayText(given, doc.locale) : "");
  return {
    columns: [
      facts([
        [words.issued, day(doc.issuedOn)],
        [doc.jobs.length > 0 ? words.done : words.soldOn, day(doc.supplyOn)],
        [words.due, asksForMoney(doc) ? day(doc.dueOn) : ""],
        [words.credits, doc.credits ? `${doc.credits.written}, ${day(doc.credits.issuedOn)}` : ""],
        [words.reason, doc.credits?.reason ?? ""],
      ]),
      facts([
        ...doc.jobs.flatMap(({ bike, number, title }): [string, string][] => [
          [words.bike, bike.name],
          [words.plate, bike.plate],
          [words.frame, bike.frameNumber],
          [
            words.odometer,
            bike.odometerKm === null ? "" : `${numberText(bike.odometerKm, doc.locale)}\u00a0km`,
          ],
          [words.job, `${number}, ${title}`],
        ]),
        [words.quoteNo, doc.quotes.join(", ")],
      ]),
    ],
    columnGap: 24,
    margin: [0, 14, 0, 0],
  };
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
