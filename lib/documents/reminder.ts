import { askedMinor, type ReminderPaper } from "@/lib/domain/chasing/reminderPaper";
import { formatMoney } from "@/lib/domain/money/format";
import { type AccountWords, accountWords } from "@/lib/words/account";
import { paperWords } from "@/lib/words/papers";
import { dayText } from "./format";
import { addressee, letterfoot, letterhead } from "./letterhead";
import { facts, say, section, sums } from "./look";
import { howToPay } from "./paying";
import { type Content, toPdf } from "./pdf";

/** A reminder of a late invoice as a PDF. Everything printed is in the value. */
export async function reminderPdf(paper: ReminderPaper): Promise<Uint8Array> {
  const { seller, invoice, locale } = paper;
  const words = accountWords(locale);
  const papers = paperWords(locale);
  const title = words.reminders[paper.level - 1] ?? words.reminders[0] ?? "";
  const day = (text: string) => dayText(text, locale);
  return toPdf({
    title: `${title} ${invoice.written}`,
    author: seller.name,
    locale,
    country: paper.country,
    date: paper.day,
    footer: letterfoot(`${title} ${invoice.written}`, seller, papers),
    content: [
      letterhead({ title, line: day(paper.day) }, seller, papers),
      addressee(paper.buyer, papers),
      section(words.invoiceDue(invoice.written)),
      facts([
        [words.forWhat, invoice.purpose],
        [words.issued, day(invoice.issuedOn)],
        [words.due, day(invoice.dueOn)],
      ]),
      ...(paper.words ? [say(paper.words, { margin: [0, 10, 0, 0] })] : []),
      asked(paper, words),
      {
        stack: [
          section(papers.pay),
          howToPay(paper.ask, paper.currency, askedMinor(paper), locale),
          say(words.paidMeanwhile, { margin: [0, 8, 0, 0] }),
        ],
        unbreakable: true,
      },
    ],
  });
}

function asked({ invoice, fees, currency, locale }: ReminderPaper, words: AccountWords): Content {
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const taken = (name: string, minor: number) => (minor === 0 ? [] : [{ name, value: money(0 - minor) }]);
  return sums([
    { name: words.invoiceDue(invoice.written), value: money(invoice.grossMinor) },
    ...taken(words.credited, invoice.creditedMinor),
    ...taken(words.paidSoFar, invoice.paidMinor),
    { name: words.left, value: money(invoice.leftMinor), strong: fees.length === 0 },
    ...fees.map((fee) => ({ name: words.fees[fee.level - 1] ?? "", value: money(fee.minor) })),
    ...(fees.length === 0
      ? []
      : [{ name: words.asked, value: money(askedMinor({ invoice, fees })), strong: true }]),
  ]);
}
