import { OutOfRange, Refusal } from "../refusal";
import { type QuantityOf, type Si, UNITS, type Unit, type UnitDef, type UnitOf } from "./units";

const defOf = (unit: Unit): Required<UnitDef> => UNITS[unit];

function finite(value: number, sign: string): number {
  if (!Number.isFinite(value)) throw new Refusal(`That is no number of ${sign}.`, "Enter a number.");
  return value;
}

/** A value in a unit as the SI value of its quantity: toSi(25, "degC") is 298.15. Throws for no number, OutOfRange below 0 K. */
export function toSi<U extends Unit>(value: number, unit: U): Si<QuantityOf<U>> {
  const { quantity, factor, offset, sign } = defOf(unit);
  const si = (finite(value, sign) + offset) * factor;
  if (quantity === "temperature" && si < 0) throw new OutOfRange("temperature", value, -offset, 1e6, sign);
  return si;
}

/** An SI value in a unit of the same quantity: fromSi(298.15, "degC") is 25. Throws Refusal for no number. */
export function fromSi<U extends Unit>(si: Si<QuantityOf<U>>, unit: U): number {
  const { factor, offset, sign } = defOf(unit);
  return finite(si, sign) / factor - offset;
}

/** A value in one unit as a value in another of the same quantity; two quantities do not compile. */
export function convert<U extends Unit>(value: number, from: U, to: UnitOf<QuantityOf<U>>): number {
  const si: number = toSi(value, from);
  return (from as Unit) === to ? value : fromSi<Unit>(si, to);
}
