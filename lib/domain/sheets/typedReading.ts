import { measurable } from "../tuning/measurables";
import { namesOf, unitNamed } from "../units/unitNamed";
import { UNITS, type Unit } from "../units/units";
import { type ReadingScale, readOn, type ScaleUnit } from "./readingScale";

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

/** What a reading is held to: the units it may be given in and what can be, out of the tables. */
export function scaleOf({ unit, low, measures }: Omit<ReadingRule, "name">): ReadingScale {
  const own = unitNamed(unit);
  const near = own && TOGETHER.find((units) => units.includes(own));
  const offered = own && near ? [own, ...near.filter((other) => other !== own)] : [];
  const alike = (Object.keys(UNITS) as Unit[]).filter(
    (one) => own && UNITS[one].quantity === UNITS[own].quantity && one !== own && !offered.includes(one),
  );
  const def = measurable(measures);
  return {
    units: own
      ? [...(near ? offered : [own]), ...alike].map((one) => scaled(one, one === own ? unit : ""))
      : [],
    offered: offered.length,
    below: (own !== undefined && UNITS[own].quantity === "temperature") || (low !== null && low < 0),
    ...(def ? { bounds: [def.low, def.high] } : {}),
  };
}

/** A unit with the ways to write it; `sign` where the hold point writes it in its own way. */
function scaled(unit: Unit, sign: string): ScaleUnit {
  const { factor, offset, sign: usual } = UNITS[unit];
  return [factor, offset, ...new Set([sign || usual, ...namesOf(unit)])];
}

/**
 * A reading in the unit of its hold point, or what is wrong with it, in words. `unit` is what was typed or chosen with the number;
 * empty means the hold point's own. Refused are a unit of something else, less than nothing where there is no such thing, and a
 * value that what it measures cannot have.
 */
export function readingIn(
  rule: ReadingRule,
  value: number,
  unit: string,
): { readonly value: number } | { readonly problem: string } {
  const { name } = rule;
  const read = readOn(scaleOf(rule), rule.unit, value, unit);
  switch (read) {
    case "unit":
      return {
        problem: `“${unit}” is no unit of this reading: enter ${name} in ${rule.unit || "plain figures"}.`,
      };
    case "number":
      return { problem: `Enter a number for ${name}.` };
    case "below":
      return { problem: `${name} cannot be below nothing: read it again.` };
    case "bounds": {
      const def = measurable(rule.measures);
      return {
        problem: `${def?.name} is from ${def?.low} to ${def?.high}${def?.unit && ` ${def.unit}`}: read it again.`,
      };
    }
    default:
      return { value: read };
  }
}
