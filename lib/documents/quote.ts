import { formatMoney } from "@/lib/domain/money/format";
import { byWork } from "@/lib/domain/quoting/byWork";
import type { PartTarget } from "@/lib/domain/tuning/partChange";
import { settingDef } from "@/lib/domain/tuning/settings";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { settingName, settingUnit } from "@/lib/words/settingName";
import { wordsIn } from "@/lib/words/words";
import type { DidHere } from "../domain/procedures/effects";
import { partName, partSaid } from "./describedPart";
import { didHereText } from "./didHere";
import { dayText, minutesText, numberText } from "./format";
import { letterfoot, letterhead } from "./letterhead";
import { type PricedPaper, priceLines, totalSums } from "./lines";
import { BRASS, caution, facts, figure, label, ledger, say, section, sums } from "./look";
import { type Content, toPdf } from "./pdf";
import { alternativeOnPaper, choicesOnPaper, type QuoteChoices } from "./quoteChoices";

/** What a sent quote prints; the frozen quote of lib/data/quotes is one. */
export interface QuotePaper extends PricedPaper, Omit<QuoteChoices, "locale" | "currency"> {
  readonly number: string;
  readonly revision: number;
  readonly sentOn: string;
  readonly validUntil: string;
  readonly title: string;
  readonly shop: {
    readonly name: string;
    readonly legalName: string;
    readonly taxNumber: string;
    /** What that number is called; absent in quotes from before it was kept. */
    readonly numberName?: string;
    /** What the law wants after it; absent in quotes from before that was kept. */
    readonly numberMarks?: readonly string[];
    readonly address: string;
    readonly phone: string;
    readonly email: string;
    readonly note: string;
  };
  readonly customer: { readonly name: string; readonly address: string };
  readonly bike: { readonly name: string; readonly plate: string; readonly frameNumber: string };
  /** The job that it adds to; absent where it begins one. */
  readonly ofJob?: string;
  readonly carburettors: readonly string[];
  readonly options: readonly {
    readonly work?: string | undefined;
    readonly name: string;
    readonly plain: string;
    readonly minutes: number;
  }[];
  /** Present where the quote is not one package. */
  readonly works?: readonly {
    readonly key: string;
    readonly kind: string;
    readonly name: string;
    readonly text: string;
  }[];
  readonly depositMinor: number;
  readonly savedMinutes: number;
  readonly savedAgainst?: "visits";
  readonly savedMinor: number;
  readonly minutes: number;
  readonly settings: readonly {
    readonly carburettor: number;
    readonly setting: string;
    readonly value: number;
    readonly from: number | null;
    readonly how: string;
  }[];
  /** Described parts that the work leaves otherwise; absent where it changes none. */
  readonly described?: readonly (PartTarget & { readonly carburettor: number })[];
  readonly cautions: readonly string[];
  /** What its packages did on bikes of the shop; absent where the shop does not tell. */
  readonly did?: readonly DidHere[];
  readonly acknowledgements: readonly { readonly text: string }[];
  /** What the shop itself says before a yes; absent where it says nothing. */
  readonly ownTerms?: string;
}

/** A sent quote as a PDF. */
export async function quotePdf(quote: QuotePaper, country: string): Promise<Uint8Array> {
  const words = paperWords(quote.locale);
  const title = quote.ofJob === undefined ? words.quote : words.variation;
  const name = `${title} ${quote.number}`;
  const savedText = quote.savedAgainst === "visits" ? words.savedByOneVisit : words.saved;
  const money = (minor: number) => formatMoney(minor, quote.currency, quote.locale);
  return toPdf({
    title: name,
    author: quote.shop.name,
    locale: quote.locale,
    country,
    date: quote.sentOn,
    footer: letterfoot(name, quote.shop, words),
    content: [
      letterhead(
        {
          title,
          number: quote.number,
          line: `${words.validUntil} ${dayText(quote.validUntil, quote.locale)}`,
        },
        quote.shop,
        words,
      ),
      about(quote, words),
      section(
        quote.alternatives && quote.alternative
          ? `${words.options}: ${alternativeOnPaper(quote.alternative, words)}`
          : words.options,
      ),
      done(quote, words),
      ...settings(quote, words),
      ...didOnPaper(quote),
      section(words.price),
      priceLines(quote, words, quote.works),
      sums([
        ...totalSums(quote, words),
        ...(quote.depositMinor > 0 ? [{ name: words.depositAsked, value: money(quote.depositMinor) }] : []),
      ]),
      ...(quote.savedMinutes > 0
        ? [
            say(savedText(minutesText(quote.savedMinutes, quote.locale), money(quote.savedMinor)), {
              size: 8.5,
              color: BRASS,
              margin: [0, 8, 0, 0],
            }),
          ]
        : []),
      ...choicesOnPaper(quote, words),
      ...listed(words.cautions, quote.cautions),
      ...listed(
        words.acknowledge,
        quote.acknowledgements.map((one) => one.text),
      ),
      ...(quote.ownTerms ? [section(words.ownTerms), say(quote.ownTerms)] : []),
      ...(quote.shop.note ? [say(quote.shop.note, { margin: [0, 12, 0, 0] })] : []),
    ],
  });
}

function didOnPaper({ did, locale }: Pick<QuotePaper, "did" | "locale">): Content[] {
  const words = wordsIn(locale);
  return (did ?? []).flatMap(({ name, effects }) => [
    ...listed(
      words("didHere.title", { name }),
      effects.map((one) => didHereText(one, locale)),
    ),
    say(words("didHere.note"), { size: 8.5, color: BRASS }),
  ]);
}

/** What is done: the options chosen, under the works that they are of where there are several. */
function done(quote: QuotePaper, words: PaperWords): Content {
  const taken = quote.taken ?? [];
  const row = ({ name, plain, minutes }: QuotePaper["options"][number]) => [
    {
      stack: [
        say(name, { bold: true }),
        ...(plain || !quote.works ? [say(plain, { size: 8.5 })] : []),
        ...(taken.includes(name) ? [say(words.addedByYou, { size: 8.5 })] : []),
      ],
    },
    figure(minutes > 0 ? minutesText(minutes, quote.locale) : ""),
  ];
  const rows = quote.works
    ? byWork(quote.works, quote.options).flatMap(({ work, lines }) => [
        ...(work?.kind === "text"
          ? [[{ stack: [say(work.name, { bold: true }), say(work.text, { size: 8.5 })] }, figure("")]]
          : []),
        ...(work?.kind === "package" ? [[say(work.name, { size: 11, bold: true }), figure("")]] : []),
        ...lines.map(row),
      ])
    : quote.options.map(row);
  return ledger(
    [
      { head: words.what, width: "*" },
      { head: words.planned, width: "auto", end: true },
    ],
    rows,
  );
}

function about(quote: QuotePaper, words: PaperWords): Content {
  const { customer, bike } = quote;
  return {
    columns: [
      facts([
        [words.to, [customer.name, customer.address].filter(Boolean).join("\n")],
        [words.sent, dayText(quote.sentOn, quote.locale)],
        [words.revision, String(quote.revision)],
        [words.job, quote.ofJob ?? ""],
      ]),
      facts([
        [words.bike, bike.name],
        [words.plate, bike.plate],
        [words.frame, bike.frameNumber],
      ]),
    ],
    columnGap: 24,
  };
}

function settings(quote: QuotePaper, words: PaperWords): Content[] {
  if (quote.settings.length === 0) return [];
  const value = (setting: string, given: number | null) => {
    const def = settingDef(setting);
    return given === null
      ? ""
      : `${numberText(given, quote.locale, def?.decimals)}${def?.unit ? `\u00a0${settingUnit(def.unit, quote.locale)}` : ""}`;
  };
  const several = quote.carburettors.length > 1;
  const rows = quote.settings.map((one) => [
    say(
      `${settingName(one.setting, quote.locale)}${several ? `, ${quote.carburettors[one.carburettor - 1] ?? one.carburettor}` : ""}`,
    ),
    figure(value(one.setting, one.from)),
    figure(value(one.setting, one.value), { bold: true }),
    label(words.hows[one.how] ?? one.how),
  ]);
  for (const { carburettor, before, after } of quote.described ?? [])
    rows.push([
      say(
        `${partName(after.kind, quote.locale)}${several ? `, ${quote.carburettors[carburettor - 1] ?? carburettor}` : ""}`,
      ),
      label(partSaid(before, quote.locale)),
      say(partSaid(after, quote.locale), { bold: true }),
      label(words.hows.computed ?? "computed"),
    ]);
  const columns = [
    { head: words.setting, width: "*" },
    { head: words.now, width: "auto", end: true },
    { head: words.new, width: "auto", end: true },
    { head: words.how, width: "auto" },
  ];
  return [
    section(words.settings),
    ledger(columns, rows),
    say(words.verify, { size: 8.5, color: BRASS, margin: [0, 4, 0, 0] }),
  ];
}

function listed(title: string, rows: readonly string[]): Content[] {
  const [first, ...rest] = rows;
  if (first === undefined) return [];
  return [{ stack: [section(title), caution(first)], unbreakable: true }, ...rest.map((row) => caution(row))];
}
