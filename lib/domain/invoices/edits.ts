import { percent, roundHalfAway } from "../money/round";
import { amountOf, e4OfMinor, MILLI } from "../money/scale";
import { netLines } from "../pricing/document";
import type { LineKind, PriceLine } from "../pricing/facts";
import type { PriceRules, ShownLine } from "../pricing/lines";
import { taxed, taxOf } from "../pricing/lines";
import { saidAs, saying, sayingOf } from "../pricing/said";
import { Refusal } from "../refusal";
import type { TaxMark } from "../tax/rates";
import { adjustment, isAdjustment } from "./adjustment";
import type { Basis } from "./printed";

/** A line as it is typed on a draft. */
export interface TypedInvoiceLine {
  readonly kind: LineKind;
  readonly name: string;
  readonly unit: string;
  /** Thousandths of the unit; of labour, minutes in thousandths. A discount has one. */
  readonly quantityMilli: number;
  /** Price of one (of labour: of an hour) as the document shows prices; of a discount, the amount taken off. */
  readonly unitPriceE4: number;
  /** What comes off the line; of a discount that was added, its share of the lines that are taxed as it is, in place of an amount. */
  readonly discountBp: number;
  /** A discount that adds: a charge on the whole document. */
  readonly adds?: true;
  readonly taxMark: TaxMark;
  /** A part of the shop's stock, which is taken as the invoice is issued. */
  readonly partId?: number;
}

/** One change by hand: a line typed anew or added, taken off, or taken as the other basis has it. */
export interface InvoiceEdit {
  readonly key: string;
  readonly act: "change" | "add" | "off" | Basis;
  readonly line: TypedInvoiceLine | null;
  readonly reason: string;
  readonly by: string;
}

/** The lines of both bases; null where a basis cannot be had, with why. */
export type SideLines = Readonly<Record<Basis, readonly PriceLine[] | null>>;

const MINUTE = 60;

/** The key of what comes off a line. */
const offKey = (key: string) => `off-${key}`;

/**
 * The lines of a draft after the changes by hand, in the order they stood, what was added before the discounts. Without changes
 * the lines are returned as they are, so that what was agreed is charged to the cent. Nets are shared out anew otherwise.
 * Throws Refusal for a change of a line that is gone.
 */
export function editedLines(
  lines: readonly PriceLine[],
  edits: readonly InvoiceEdit[],
  sides: SideLines,
  rules: PriceRules,
): readonly PriceLine[] {
  if (edits.length === 0) return lines;
  const byKey = new Map(edits.map((edit) => [edit.key, edit]));
  const dropped = new Set(edits.map((edit) => offKey(edit.key)));
  const kept = lines.flatMap((line): ShownLine[] => {
    const edit = byKey.get(line.key);
    if (edit) return replaced(edit, line, sides, rules);
    return dropped.has(line.key) ? [] : [line];
  });
  const there = new Set(lines.map((line) => line.key));
  const fresh = edits.filter((edit) => !there.has(edit.key));
  const added = fresh.filter((edit) => !isAdjustment(edit)).flatMap((edit) => appended(edit, sides, rules));
  const first = kept.findIndex((line) => line.kind === "discount");
  const at = first < 0 ? kept.length : first;
  const all = [...kept.slice(0, at), ...added, ...kept.slice(at)];
  const whole = fresh.flatMap((edit) => (isAdjustment(edit) ? [adjustment(edit, all, rules)] : []));
  return netLines([...all, ...whole], rules.pricesIncludeTax);
}

function replaced(edit: InvoiceEdit, line: PriceLine, sides: SideLines, rules: PriceRules): ShownLine[] {
  if (edit.act === "off") return [];
  if (edit.act === "fixed" || edit.act === "asWorked") return fromSide(edit, edit.act, sides);
  return edit.line ? typedLines(edit, edit.line, rules, line) : [line];
}

function appended(edit: InvoiceEdit, sides: SideLines, rules: PriceRules): ShownLine[] {
  if (edit.act === "fixed" || edit.act === "asWorked") return fromSide(edit, edit.act, sides);
  if (edit.act === "add" && edit.line) return typedLines(edit, edit.line, rules);
  if (edit.act === "off") return [];
  throw new Refusal(
    `“${edit.line?.name ?? edit.key}” was changed by hand and is gone from the job now.`,
    "Put that line back as it was, then look again.",
    {},
    "conflict",
  );
}

/** A line as a basis has it, with what comes off it there; nothing where that basis has none. */
function fromSide(edit: InvoiceEdit, basis: Basis, sides: SideLines): ShownLine[] {
  const lines = sides[basis];
  if (!lines)
    throw new Refusal(
      "The lines of the other basis cannot be had now.",
      "Put the lines that were taken from it back.",
    );
  const because = {
    fact: `taken ${basis === "fixed" ? "as agreed" : "as worked"}: ${edit.reason}`,
    from: edit.by,
  };
  return lines
    .filter((line) => line.key === edit.key || line.key === offKey(edit.key))
    .map((line) => ({ ...line, because: [because, ...line.because] }));
}

/** A typed line, and what comes off it as a line of its own. A line whose figures did not change keeps its amount. */
function typedLines(
  edit: InvoiceEdit,
  typed: TypedInvoiceLine,
  rules: PriceRules,
  before?: PriceLine,
): ShownLine[] {
  const { kind } = typed;
  const discount = kind === "discount";
  const tax =
    discount && before
      ? { taxCategory: before.taxCategory, taxRateBp: before.taxRateBp }
      : taxed(taxOf(rules, discount ? "fixed" : kind, typed.taxMark));
  const because = [
    { fact: `${before ? "changed" : "added"} on the draft: ${edit.reason}`, from: edit.by },
    ...(before?.because ?? []),
  ];
  const { quantityMilli, shownMinor } = amounts(typed, rules.currency, before);
  const line: ShownLine = {
    key: edit.key,
    kind,
    name: typed.name,
    quantityMilli,
    unit: typed.unit,
    unitPriceE4: typed.unitPriceE4,
    shownMinor,
    ...(before && before.name === typed.name ? saidAs(before) : {}),
    costMinor: null,
    ...tax,
    because,
  };
  const off = percent(shownMinor, typed.discountBp);
  if (discount || off === 0) return [line];
  const fact = `${typed.discountBp / 100} % off ${typed.name}`;
  return [
    line,
    {
      ...line,
      key: offKey(edit.key),
      kind: "discount",
      name: fact,
      ...sayingOf(saying("lineOff", "% off"), line),
      quantityMilli: -MILLI,
      unit: "each",
      unitPriceE4: e4OfMinor(off, rules.currency),
      shownMinor: 0 - off,
      because: [{ fact, from: edit.by }],
    },
  ];
}

function amounts(typed: TypedInvoiceLine, currency: string, before?: PriceLine) {
  const { kind, quantityMilli, unitPriceE4 } = typed;
  if (kind === "discount")
    return { quantityMilli: -MILLI, shownMinor: 0 - amountOf(unitPriceE4, MILLI, currency) };
  const hours = kind === "labour" && typed.unit === "h";
  const printed = hours ? roundHalfAway(quantityMilli / MINUTE) : quantityMilli;
  if (before && printed === before.quantityMilli && unitPriceE4 === before.unitPriceE4)
    return { quantityMilli: printed, shownMinor: before.shownMinor };
  const shownMinor = hours
    ? roundHalfAway(amountOf(unitPriceE4, quantityMilli, currency) / MINUTE)
    : amountOf(unitPriceE4, quantityMilli, currency);
  return { quantityMilli: printed, shownMinor };
}

/** What a line would say in the fields that change it: minutes for labour, the share that comes off it. */
export function typedOf(line: PriceLine, lines: readonly PriceLine[]): TypedInvoiceLine {
  const off = lines.find((one) => one.key === offKey(line.key));
  const hours = line.kind === "labour" && line.unit === "h";
  return {
    kind: line.kind,
    name: line.name,
    unit: line.unit,
    quantityMilli: hours ? roundHalfAway((line.quantityMilli * MINUTE) / MILLI) * MILLI : line.quantityMilli,
    unitPriceE4: line.unitPriceE4,
    discountBp: off && line.shownMinor > 0 ? roundHalfAway((-off.shownMinor * 10_000) / line.shownMinor) : 0,
    taxMark:
      line.taxCategory === "Z" || line.taxCategory === "E" || line.taxCategory === "O"
        ? line.taxCategory
        : "",
  };
}
