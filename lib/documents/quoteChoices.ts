import { formatMoney } from "@/lib/domain/money/format";
import type { PaperWords } from "@/lib/words/papers";
import { minutesText } from "./format";
import { figure, ledger, say, section } from "./look";
import type { Content } from "./pdf";

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
  readonly alternatives?: readonly {
    readonly letter: string;
    readonly name: string;
    readonly options: readonly string[];
    readonly grossMinor: number;
    readonly minutes: number;
    readonly roadUse: boolean;
  }[];
  /** The way that the rest of the paper is about. */
  readonly alternative?: { readonly letter: string; readonly name: string };
  /** Set where the customer's choice made this revision. */
  readonly madeFrom?: number;
}

/** "B, Quieter"; the quote as it stands has no letter. */
export const alternativeOnPaper = (
  alternative: { letter: string; name: string },
  words: PaperWords,
): string =>
  alternative.letter === ""
    ? words.asQuoted
    : [alternative.letter, alternative.name].filter(Boolean).join(", ");

/** The alternatives offered, each with its work, hours and total, then the extras with what each adds; nothing where nothing is offered. */
export function choicesOnPaper(quote: QuoteChoices, words: PaperWords): Content[] {
  return [...alternativesOf(quote, words), ...extrasOf(quote, words)];
}

function alternativesOf(quote: QuoteChoices, words: PaperWords): Content[] {
  const { alternatives = [], alternative: own, madeFrom } = quote;
  if (alternatives.length === 0) return [];
  const money = (minor: number) => formatMoney(minor, quote.currency, quote.locale);
  const columns = [
    { head: words.alternative, width: "*" },
    { head: words.planned, width: "auto", end: true },
    { head: words.total, width: "auto", end: true },
  ];
  const rows = alternatives.map((alternative) => {
    const here = alternative.letter === own?.letter;
    const mark = here ? ` (${madeFrom === undefined ? words.thisAlternative : words.chosenAlternative})` : "";
    const name = `${alternativeOnPaper(alternative, words)}${mark}`;
    return [
      {
        stack: [
          say(name, { bold: here }),
          say(alternative.options.join("; "), { size: 8.5 }),
          ...(alternative.roadUse ? [say(words.roadUse, { size: 8.5 })] : []),
        ],
      },
      figure(minutesText(alternative.minutes, quote.locale)),
      figure(money(alternative.grossMinor), { bold: here }),
    ];
  });
  return [
    section(madeFrom === undefined ? words.alternatives : words.alternativesOffered),
    ledger(columns, rows),
  ];
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
    figure(extra.minutes > 0 ? minutesText(extra.minutes, quote.locale) : ""),
    figure(formatMoney(extra.grossMinor, quote.currency, quote.locale)),
  ]);
  return [section(words.extras), ledger(columns, rows)];
}
