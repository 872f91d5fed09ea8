import { UNITS, type Unit } from "./units";

/** Other ways to write a unit. */
const ALSO: Readonly<Record<string, Unit>> = {
  '"': "in",
  "o/min": "rpm",
  "1/min": "rpm",
  c: "degC",
  f: "degF",
};

/** The unit that is written so: by its sign, its key or another usual way; undefined where there is none. */
export function unitNamed(text: string): Unit | undefined {
  const plain = text.trim().toLowerCase();
  const keys = Object.keys(UNITS) as Unit[];
  return (
    keys.find((key) => UNITS[key].sign === text.trim()) ??
    keys.find((key) => UNITS[key].sign.toLowerCase() === plain || key.toLowerCase() === plain) ??
    ALSO[plain]
  );
}

/** The ways to write a unit besides its usual sign, in small letters. */
export function namesOf(unit: Unit): string[] {
  const also = Object.keys(ALSO).filter((text) => ALSO[text] === unit);
  return [UNITS[unit].sign.toLowerCase(), unit.toLowerCase(), ...also];
}

/** True where two texts name one unit: “rpm” and “1/min”; none is only like none. */
export function sameUnit(one: string, other: string): boolean {
  if (one.trim() === other.trim()) return true;
  const unit = unitNamed(one);
  return unit !== undefined && unit === unitNamed(other);
}
