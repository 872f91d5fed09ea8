import { formatMoney } from "@/lib/domain/money/format";
import { minutesText } from "./format";
import { figure, ledger, say, section } from "./look";
import type { Content } from "./pdf";
import type { PaperWords } from "./words";

/** What a quote lets its customer choose and add. */
export interface QuoteChoices {
  readonly locale: string;
  readonly currency: string;
  readonly extras?: readonly {
    readonly name: string;
    readonly plain: string;
    readonly grossMinor: number;
    readonly minutes: number;
  }[];
  readonly taken?: readonly string[];
  readonly ways?: readonly {
    readonly letter: string;
    readonly name: string;
    readonly options: readonly string[];
    readonly grossMinor: number;
    readonly minutes: number;
    readonly roadUse: boolean;
  }[];
  /** The way that the rest of the paper is about. */
  readonly way?: { readonly letter: string; readonly name: string };
  /** Set where the customer's choice made this revision. */
  readonly madeFrom?: number;
}

/** "B, Quieter"; the quote as it stands has no letter. */
export const wayOnPaper = (way: { letter: string; name: string }, words: PaperWords): string =>
  way.letter === "" ? words.asQuoted : [way.letter, way.name].filter(Boolean).join(", ");

/** The ways offered, each with its work, hours and total, then the extras with what each adds; nothing where nothing is offered. */
export function choicesOnPaper(quote: QuoteChoices, words: PaperWords): Content[] {
  return [...waysOf(quote, words), ...extrasOf(quote, words)];
}

function waysOf(quote: QuoteChoices, words: PaperWords): Content[] {
  const { ways = [], way: own, madeFrom } = quote;
  if (ways.length === 0) return [];
  const money = (minor: number) => formatMoney(minor, quote.currency, quote.locale);
  const columns = [
    { head: words.way, width: "*" },
    { head: words.planned, width: "auto", end: true },
    { head: words.total, width: "auto", end: true },
  ];
  const rows = ways.map((way) => {
    const here = way.letter === own?.letter;
    const mark = here ? ` (${madeFrom === undefined ? words.thisWay : words.chosenWay})` : "";
    const name = `${wayOnPaper(way, words)}${mark}`;
    return [
      {
        stack: [
          say(name, { bold: here }),
          say(way.options.join("; "), { size: 8.5 }),
          ...(way.roadUse ? [say(words.roadUse, { size: 8.5 })] : []),
        ],
      },
      figure(minutesText(way.minutes)),
      figure(money(way.grossMinor), { bold: here }),
    ];
  });
  return [section(madeFrom === undefined ? words.ways : words.waysOffered), ledger(columns, rows)];
}

function extrasOf(quote: QuoteChoices, words: PaperWords): Content[] {
  const { extras = [] } = quote;
  if (extras.length === 0) return [];
  const columns = [
    { head: words.what, width: "*" },
    { head: words.planned, width: "auto", end: true },
    { head: words.adds, width: "auto", end: true },
  ];
  const rows = extras.map((extra) => [
    { stack: [say(extra.name, { bold: true }), say(extra.plain, { size: 8.5 })] },
    figure(extra.minutes > 0 ? minutesText(extra.minutes) : ""),
    figure(formatMoney(extra.grossMinor, quote.currency, quote.locale)),
  ]);
  return [section(words.extras), ledger(columns, rows)];
}
