import { allocate } from "../money/allocate";
import { moneyText } from "../money/format";
import { percent } from "../money/round";
import { e4OfMinor, MILLI } from "../money/scale";
import type { Reason } from "../reason";
import { Refusal, within } from "../refusal";
import type { PriceFacts } from "./facts";
import type { ShownLine } from "./lines";
import { type LineSaid, saying, sayingOf } from "./said";

const total = (lines: readonly ShownLine[]) => lines.reduce((sum, l) => sum + l.shownMinor, 0);

/**
 * All that comes off a quote, in this order: shares of single lines, the document discount on what is then left, an agreed
 * amount (kept to what is left), and the rounding down of the total as shown. Each is rounded once, half away from zero. Lines of
 * nothing are left out. Throws OutOfRange for a share outside 0 to 100 % or an amount below zero, Refusal for a line discount
 * that names no line.
 */
export function comingOff(charged: readonly ShownLine[], facts: PriceFacts): ShownLine[] {
  const ofLines = (facts.lineDiscounts ?? []).flatMap((d) => lineDiscount(charged, d, facts));
  const afterLines = [...charged, ...ofLines];
  const document = discountLines(afterLines, facts);
  const afterDocument = [...afterLines, ...document];
  const amount = amountOff(afterDocument, facts);
  return [...ofLines, ...document, ...amount, ...roundingDown([...afterDocument, ...amount], facts)];
}

function lineDiscount(
  lines: readonly ShownLine[],
  { line: key, bp, why }: NonNullable<PriceFacts["lineDiscounts"]>[number],
  facts: PriceFacts,
): ShownLine[] {
  const line = lines.find((l) => l.key === key);
  if (!line)
    throw new Refusal(`A discount names the line “${key}”, which this quote does not have.`, "Take it off.");
  within(`discount on "${line.name}"`, bp / 100, 0, 100, "%");
  const off = percent(line.shownMinor, bp);
  const why1 = why || "agreed for this line";
  const because = [
    { fact: `${bp / 100} % of ${moneyText(line.shownMinor, facts.currency, facts.locale)}`, from: why1 },
  ];
  const own = {
    name: `${bp / 100} % off ${line.name}`,
    ...sayingOf(saying("lineOff", "% off"), line),
  };
  return off === 0 ? [] : [negative(`off-${key}`, own, off, line, facts, because)];
}

/** The document discount on every line, so that tax falls on what is paid. */
function discountLines(lines: readonly ShownLine[], facts: PriceFacts): ShownLine[] {
  const bp = facts.discountBp;
  within("discount", bp / 100, 0, 100, "%");
  return spread(
    "discount",
    named(facts.discountWhy, "discount", "Discount"),
    percent(total(lines), bp),
    lines,
    facts,
    (sum) => [
      {
        fact: `${bp / 100} % of ${moneyText(sum, facts.currency, facts.locale)}`,
        from: facts.discountWhy || "discount without a reason",
      },
    ],
  );
}

function amountOff(lines: readonly ShownLine[], facts: PriceFacts): ShownLine[] {
  const wanted = within("amount off", facts.amountOffMinor ?? 0, 0, 1e12);
  const off = Math.min(wanted, Math.max(0, total(lines)));
  const why = named(facts.amountOffWhy ?? "", "amountOff", "Agreed discount");
  const kept = off < wanted ? { effect: "kept to what is charged" } : {};
  return spread("amount-off", why, off, lines, facts, () => [
    { fact: moneyText(wanted, facts.currency, facts.locale), from: "agreed amount off", ...kept },
  ]);
}

/** Down only, so that nobody pays for a rounding. Judgement: common where shops quote whole amounts. */
function roundingDown(lines: readonly ShownLine[], facts: PriceFacts): ShownLine[] {
  const to = within("rounding of the total", facts.roundDownToMinor ?? 0, 0, 1e9);
  const sum = total(lines);
  if (to === 0 || sum <= 0) return [];
  return spread("rounding", named("", "roundedDown", "Rounded down"), sum % to, lines, facts, () => [
    { fact: `down to a whole number of ${moneyText(to, facts.currency, facts.locale)}`, from: "price book" },
  ]);
}

/**
 * An amount off all lines as one negative line per tax category and rate, split by largest remainder over what each group
 * shows. Quantity is -1 and the price positive, since an item price is never negative (EN 16931 BR-27).
 */
function spread(
  key: string,
  name: Named,
  offMinor: number,
  lines: readonly ShownLine[],
  facts: PriceFacts,
  because: (groupTotal: number) => readonly Reason[],
): ShownLine[] {
  if (offMinor === 0) return [];
  const groups = [...Map.groupBy(lines, (l) => `${l.taxCategory}-${l.taxRateBp}`)].sort(([a], [b]) =>
    a < b ? -1 : 1,
  );
  const parts = allocate(
    offMinor,
    groups.map(([, members]) => total(members)),
  );
  return groups.flatMap(([group, members], at) => {
    const first = members[0];
    const off = parts[at] ?? 0;
    return first && off !== 0
      ? [negative(`${key}-${group}`, name, off, first, facts, because(total(members)))]
      : [];
  });
}

/** A name, and what of it the engine says. */
type Named = Pick<ShownLine, "name" | "said">;

/** The shop's own words where it gave some. */
const named = (own: string, what: LineSaid["what"], english: string): Named =>
  own ? { name: own } : { name: english, ...saying(what, english) };

function negative(
  key: string,
  name: Named,
  offMinor: number,
  { taxCategory, taxRateBp }: Pick<ShownLine, "taxCategory" | "taxRateBp">,
  { currency }: PriceFacts,
  because: readonly Reason[],
): ShownLine {
  const unitPriceE4 = e4OfMinor(offMinor, currency);
  const fixed = { kind: "discount", quantityMilli: -MILLI, unit: "each", costMinor: 0 } as const;
  return { key, ...name, unitPriceE4, shownMinor: -offMinor, taxCategory, taxRateBp, because, ...fixed };
}
