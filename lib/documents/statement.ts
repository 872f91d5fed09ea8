import { FAVOURS } from "@/lib/domain/chasing/accountLines";
import { AGES } from "@/lib/domain/chasing/age";
import type { StatementEntry, StatementPaper } from "@/lib/domain/chasing/statement";
import { formatMoney } from "@/lib/domain/money/format";
import { type AccountWords, accountWords } from "@/lib/words/account";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { entryText } from "./entryText";
import { amountText, dayText } from "./format";
import { addressee, letterfoot, letterhead } from "./letterhead";
import { facts, figure, ledger, say, section, sums } from "./look";
import { howToPay } from "./paying";
import { type Content, toPdf } from "./pdf";

/** A customer's statement of account as a PDF. Everything printed is in the value. */
export async function statementPdf(paper: StatementPaper): Promise<Uint8Array> {
  const { seller, buyer, locale, currency } = paper;
  const words = accountWords(locale);
  const papers = paperWords(locale);
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const closing = paper.closingMinor;
  return toPdf({
    title: `${words.statement} ${buyer.name}`,
    author: seller.name,
    locale,
    country: paper.country,
    date: paper.day,
    footer: letterfoot(words.statement, seller, papers),
    content: [
      letterhead({ title: words.statement, line: dayText(paper.day, locale) }, seller, papers),
      addressee(buyer, papers),
      {
        ...(facts([
          [words.from, dayText(paper.from, locale)],
          [words.to, dayText(paper.to, locale)],
        ]) as object),
        margin: [0, 0, 0, 8],
      } as Content,
      entries(paper, words, papers),
      sums([
        { name: words.closing, value: money(closing) },
        ...(closing === 0
          ? []
          : [
              {
                name: closing > 0 ? words.owing : words.inFavour,
                value: money(Math.abs(closing)),
                strong: true,
              },
            ]),
      ]),
      ...made(paper, words, money),
      ...paying(paper, papers),
    ],
  });
}

function entries(paper: StatementPaper, words: AccountWords, papers: PaperWords): Content {
  const { locale, currency } = paper;
  const amount = (minor: number) => figure(amountText(minor, currency, locale));
  const day = (text: string) => say(dayText(text, locale), { noWrap: true });
  const row = (entry: StatementEntry): Content[] => [
    day(entry.on),
    say(entryText(entry, words, papers)),
    entry.minor > 0 ? amount(entry.minor) : figure(""),
    entry.minor < 0 ? amount(0 - entry.minor) : figure(""),
    amount(entry.balanceMinor),
  ];
  return ledger(
    [
      { head: words.day, width: "auto" },
      { head: words.entry, width: "*" },
      { head: `${words.owed}, ${currency}`, width: "auto", end: true },
      { head: words.paid, width: "auto", end: true },
      { head: words.balance, width: "auto", end: true },
    ],
    [
      [day(paper.from), say(words.opening), figure(""), figure(""), amount(paper.openingMinor)],
      ...paper.entries.map(row),
    ],
  );
}

function made(paper: StatementPaper, words: AccountWords, money: (minor: number) => string): Content[] {
  const rows = [...AGES, ...FAVOURS].flatMap((column): [string, string][] => {
    const minor = paper.ageing[column] ?? 0;
    return minor === 0 ? [] : [[words.columns[column], money(minor)]];
  });
  if (rows.length === 0) return [say(words.nothing, { margin: [0, 12, 0, 0] })];
  return [{ stack: [section(words.made), facts(rows)], unbreakable: true }];
}

function paying({ ask, closingMinor, currency, locale }: StatementPaper, papers: PaperWords): Content[] {
  if (ask === null) return [];
  return [{ stack: [section(papers.pay), howToPay(ask, currency, closingMinor, locale)], unbreakable: true }];
}
