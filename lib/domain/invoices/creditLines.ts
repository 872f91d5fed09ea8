import { roundToSum } from "../money/allocate";
import { moneyText } from "../money/format";
import { roundHalfAway } from "../money/round";
import { e4OfMinor, MILLI } from "../money/scale";
import { saying, sayingOf } from "../pricing/said";
import { Refusal } from "../refusal";
import { type CreditableLine, creditableLines, taxGroupOf } from "./creditable";
import { type CreditTotals, creditTotals, taxOfPart } from "./creditTotals";
import { pricedAs } from "./pricedAs";
import type { CreditTake, PrintedInvoice, PrintedLine } from "./printed";
import { shareOfWhole } from "./shareOfWhole";

/** So much of a line, or an amount off it, as the invoice shows prices. */
export type LineAsk =
  | { readonly key: string; readonly quantityMilli: number }
  | { readonly key: string; readonly amountMinor: number };

/** What is to be credited: of single lines, or an amount off the whole, as the invoice shows prices. */
export type CreditAsk = { readonly lines: readonly LineAsk[] } | { readonly wholeMinor: number };

/** A credit note of a part: its lines and sums are below zero, its takes say how much it takes of each line of the invoice. */
export interface PartCredit extends CreditTotals {
  readonly lines: readonly PrintedLine[];
  readonly takes: readonly CreditTake[];
}

type ShownPart = Omit<PrintedLine, "netMinor">;

/**
 * The credit note of a part of an invoice, after those there are. Money in minor units, quantities in thousandths. A quantity takes its
 * share of what is left of its line, the last of it all that is left; an amount off the whole is a line for each job, tax category and
 * rate, by largest remainder over what is left of the lines. Throws Refusal where more is asked of a line than is left of it, and
 * where nothing is.
 */
export function creditOfPart(
  invoice: PrintedInvoice,
  credits: readonly PrintedInvoice[],
  ask: CreditAsk,
): PartCredit {
  const left = creditableLines(invoice, credits);
  const { shown, takes } =
    "wholeMinor" in ask ? offWhole(left, ask.wholeMinor, invoice) : ofLines(left, ask.lines, invoice);
  if (takes.length === 0)
    throw new Refusal("Nothing is chosen to be credited.", "Enter how much of a line, or an amount.");
  const lines = withNets(invoice, credits, shown);
  return { lines, takes, ...creditTotals(invoice, credits, lines) };
}

/** All that is left of an invoice, line by line. */
export const askForRest = (lines: readonly CreditableLine[]): CreditAsk => ({
  lines: lines
    .filter((one) => one.leftMinor !== 0)
    .map(({ line, leftMilli, leftMinor }) =>
      leftMilli === 0
        ? { key: line.key, amountMinor: leftMinor }
        : { key: line.key, quantityMilli: Math.abs(leftMilli) },
    ),
});

interface Shown {
  readonly shown: readonly ShownPart[];
  readonly takes: readonly CreditTake[];
}

function ofLines(left: readonly CreditableLine[], asks: readonly LineAsk[], book: PrintedInvoice): Shown {
  if (new Set(asks.map((ask) => ask.key)).size < asks.length) throw new Error("A line is asked for twice.");
  const parts = asks.map((ask) => {
    const of = left.find((one) => one.line.key === ask.key);
    if (!of) throw new Refusal("This line is not on the invoice.", "Open the page again.", {}, "conflict");
    return "quantityMilli" in ask
      ? quantityOf(of, ask.quantityMilli, book)
      : amountOff(of, ask.amountMinor, book);
  });
  return { shown: parts.map((part) => part.shown), takes: parts.map((part) => part.take) };
}

function quantityOf({ line, leftMilli, leftMinor }: CreditableLine, milli: number, book: PrintedInvoice) {
  const most = Math.abs(leftMilli);
  if (!Number.isSafeInteger(milli) || milli <= 0 || milli > most || leftMinor === 0)
    throw new Refusal(
      `“${line.name}” has ${most / MILLI} ${line.unit} left to be credited, not ${milli / MILLI}.`,
      "Credit that much of it at most.",
    );
  // Labour is charged by the minute; its hours are printed rounded.
  const counted = (of: number) =>
    line.kind === "labour" && line.unit === "h" ? roundHalfAway((of * MINUTES) / MILLI) : of;
  const shownMinor =
    milli === most ? leftMinor : roundHalfAway((leftMinor * counted(milli)) / Math.max(1, counted(most)));
  if (shownMinor === 0)
    throw new Refusal(`So little of “${line.name}” comes to nothing.`, "Credit more of it.");
  const quantityMilli = Math.sign(leftMilli) * milli;
  return {
    shown: mirrored(pricedAs(line, quantityMilli, shownMinor, book.currency)),
    take: { key: line.key, quantityMilli, shownMinor },
  };
}

const mirrored = (line: ShownPart): ShownPart => ({
  ...line,
  quantityMilli: 0 - line.quantityMilli,
  shownMinor: 0 - line.shownMinor,
});

function amountOff({ line, leftMinor }: CreditableLine, minor: number, book: PrintedInvoice) {
  if (!Number.isSafeInteger(minor) || minor <= 0 || minor > leftMinor)
    throw new Refusal(
      `“${line.name}” has ${moneyText(leftMinor, book.currency, book.locale)} ${book.currency} left to be credited, not ${moneyText(minor, book.currency, book.locale)}.`,
      "Credit that much of it at most.",
    );
  const shown: ShownPart = {
    ...line,
    ...oneOf(minor, book.currency),
    name: `Less for ${line.name}`,
    ...sayingOf(saying("lessFor", "Less for"), line),
  };
  return { shown, take: { key: line.key, quantityMilli: 0, shownMinor: minor } };
}

/** An amount, for one of nothing that is counted. */
const oneOf = (minor: number, currency: string) => ({
  kind: "fixed" as const,
  quantityMilli: -MILLI,
  unit: "each",
  unitPriceE4: e4OfMinor(minor, currency),
  shownMinor: 0 - minor,
});

function offWhole(left: readonly CreditableLine[], minor: number, book: PrintedInvoice): Shown {
  const takes = shareOfWhole(left, minor, book);
  const lineOf = (key: string) => left.find((one) => one.line.key === key)?.line;
  const groups = Map.groupBy(takes, (take) => {
    const line = lineOf(take.key);
    return line ? `${line.job ?? ""} ${taxGroupOf(line)}` : "";
  });
  const shown = [...groups.values()].flatMap((own): ShownPart[] => {
    const line = lineOf(own[0]?.key ?? "");
    const all = own.reduce((sum, take) => sum + take.shownMinor, 0);
    if (!line || all === 0) return [];
    const { taxCategory, taxRateBp, job } = line;
    return [
      {
        key: `whole-${job === undefined ? "" : `${job}-`}${taxGroupOf(line)}`,
        ...(job === undefined ? {} : { job }),
        ...oneOf(all, book.currency),
        name: "Off the whole",
        ...saying("offWhole", "Off the whole"),
        taxCategory,
        taxRateBp,
        because: [
          {
            fact: `${moneyText(minor, book.currency, book.locale)} off the whole`,
            from: "credited",
            effect: "shared out over the taxes by what is left of each",
          },
        ],
      },
    ];
  });
  return { shown, takes };
}

/** Nets of the lines: as shown without tax in the prices; else each tax group's are what is shown less its tax, by largest remainder. */
function withNets(
  invoice: PrintedInvoice,
  credits: readonly PrintedInvoice[],
  shown: readonly ShownPart[],
): PrintedLine[] {
  if (!invoice.pricesIncludeTax) return shown.map((line) => ({ ...line, netMinor: line.shownMinor }));
  const nets = new Map<ShownPart, number>();
  for (const group of Map.groupBy(shown, taxGroupOf).values()) {
    const [first] = group;
    if (!first) continue;
    const all = group.reduce((sum, line) => sum - line.shownMinor, 0);
    const { taxCategory: category, taxRateBp: rateBp } = first;
    const tax = taxOfPart(invoice, credits, { category, rateBp }, all);
    const numerators = group.map((line) => (0 - line.shownMinor) * BP);
    roundToSum(numerators, BP + rateBp, all - tax).forEach((net, at) => {
      const line = group[at];
      if (line) nets.set(line, 0 - net);
    });
  }
  return shown.map((line) => ({ ...line, netMinor: nets.get(line) ?? 0 }));
}

const BP = 10_000;
const MINUTES = 60;
