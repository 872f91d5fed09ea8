import { measurable } from "../tuning/measurables";
import { fromSi, toSi } from "../units/convert";
import { unitNamed } from "../units/unitNamed";
import { UNITS, type Unit, type UnitDef } from "../units/units";

/** What a reading is of, as its hold point says. */
export interface ReadingRule {
  readonly name: string;
  /** The unit as it is written: "mm", "rpm"; empty where the reading is a plain number. */
  readonly unit: string;
  readonly low: number | null;
  /** Key of what it measures; empty where nothing is kept of it. */
  readonly measures: string;
}

/** Units that readings are taken in beside each other on a bench (judgement). */
const TOGETHER: readonly (readonly Unit[])[] = [
  ["mm", "in"],
  ["kPa", "hPa", "mmHg", "inHg", "psi"],
  ["bar", "psi", "kPa"],
  ["degC", "degF"],
  ["N/mm", "lbf/in"],
  ["Nm", "lbfft"],
  ["ml", "flozUS"],
  ["g", "oz"],
];

const signOf = (unit: Unit): string => UNITS[unit].sign;

/** The units that a reading in `unit` may be given in, itself first; empty where there is no choice. */
export function readingUnits(unit: string): string[] {
  const own = unitNamed(unit);
  const near = own && TOGETHER.find((units) => units.includes(own));
  return near ? [unit, ...near.filter((other) => other !== own).map(signOf)] : [];
}

/** A number with the unit typed behind it: “48”, “48 mm”, “1,9 in”; null where there is no number. */
export function partedReading(text: string): { value: number; unit: string } | null {
  const bare = text.replace(/(\d)[\s\u00a0\u202f](?=\d{3}(?!\d))/gu, "$1");
  const found = /^\s*([-−]?(?:\d+[.,]?\d*|[.,]\d+))\s*(.{0,20}?)\s*$/u.exec(bare);
  if (!found?.[1] || /^[\d.,]/u.test(found[2] ?? "")) return null;
  return { value: Number(found[1].replace("−", "-").replace(",", ".")), unit: found[2] ?? "" };
}

/**
 * A reading in the unit of its hold point, or what is wrong with it. `unit` is what was typed or chosen with the number; empty
 * means the hold point's own. Refused are a unit of something else, less than nothing where there is no such thing, and a value
 * that what it measures cannot have.
 */
export function readingIn(
  rule: ReadingRule,
  value: number,
  unit: string,
): { readonly value: number } | { readonly problem: string } {
  const own = unitNamed(rule.unit);
  const given = unit === "" || unit === rule.unit ? own : unitNamed(unit);
  if (unit !== "" && unit !== rule.unit) {
    if (!own || !given || UNITS[own].quantity !== UNITS[given].quantity)
      return {
        problem: `“${unit}” is no unit of this reading: enter ${rule.name} in ${rule.unit || "plain figures"}.`,
      };
  }
  const read = own && given && own !== given ? round(fromSi<Unit>(toSi(value, given), own)) : value;
  if (!Number.isFinite(read) || Math.abs(read) > 1e9) return { problem: `Enter a number for ${rule.name}.` };
  const cold = own && (UNITS[own] as UnitDef).quantity === "temperature";
  if (read < 0 && !cold && (rule.low === null || rule.low >= 0))
    return { problem: `${rule.name} cannot be below nothing: read it again.` };
  const def = measurable(rule.measures);
  if (def && (read < def.low || read > def.high))
    return {
      problem: `${def.name} is from ${def.low} to ${def.high}${def.unit && ` ${def.unit}`}: read it again.`,
    };
  return { value: read };
}

/** Nine significant figures: more than any instrument here has, and without the tail of a conversion. */
const round = (value: number): number => Number(value.toPrecision(9));
