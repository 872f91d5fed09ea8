import type { PrintedMoney } from "@/lib/domain/invoices/moneyPaper";
import { formatMoney } from "@/lib/domain/money/format";
import { moneyPaperWords } from "@/lib/words/moneyPaper";
import { paperWords } from "@/lib/words/papers";
import { dayText } from "./format";
import { letterfoot, letterhead } from "./letterhead";
import { facts, figure, label, ledger, say, section, sums } from "./look";
import { howToPay } from "./paying";
import { toPdf } from "./pdf";

/** A deposit request, a receipt of a payment, or a note of money that went back, as a PDF. Everything printed is in the value. */
export async function moneyPdf(doc: PrintedMoney): Promise<Uint8Array> {
  const words = moneyPaperWords(doc.locale);
  const paper = paperWords(doc.locale);
  const { kind, locale, currency } = doc;
  const title = words.title[kind];
  const number = words.number[kind](doc.number);
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const asks = kind === "depositRequest";
  return toPdf({
    title: `${title} ${number}`,
    author: doc.seller.name,
    locale,
    country: doc.country,
    date: doc.day,
    footer: letterfoot(`${title} ${number}`, doc.seller, paper),
    content: [
      letterhead({ title, number, line: dayText(doc.day, locale) }, doc.seller, paper),
      {
        stack: [
          label(paper.to),
          say(doc.buyer.name, { bold: true }),
          ...(doc.buyer.address ? [say(doc.buyer.address)] : []),
        ],
      },
      section(words.what),
      ledger(
        [
          { head: words.what, width: "*" },
          ...(asks ? [] : [{ head: words.how, width: "auto" }]),
          { head: words.amount, width: "auto", end: true },
        ],
        doc.lines.map((line) => [
          say(lineText(line, kind, words)),
          ...(asks ? [] : [say(paper.methods[line.method] ?? line.method)]),
          figure(money(line.minor)),
        ]),
      ),
      sums([
        ...(doc.agreedMinor === null ? [] : [{ name: words.agreed, value: money(doc.agreedMinor) }]),
        { name: words.total[kind], value: money(doc.totalMinor), strong: true },
      ]),
      ...(doc.said ? [facts([[words.why, doc.said]])] : []),
      ...(doc.ask
        ? [
            section(paper.pay),
            howToPay(doc.ask, currency, doc.totalMinor, locale),
            say(words.comesOff, { margin: [0, 8, 0, 0] }),
          ]
        : []),
    ],
  });
}

function lineText(
  { of, number, title }: PrintedMoney["lines"][number],
  kind: PrintedMoney["kind"],
  words: ReturnType<typeof moneyPaperWords>,
): string {
  if (of === "balance") return words.balance;
  if (of === "invoice") return words.invoice(number);
  return kind === "paidBack" ? words.back(number, title) : words.job(number, title);
}
