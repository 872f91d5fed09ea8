import { type RefinementCtx, z } from "zod";
import { convert } from "@/lib/domain/units/convert";
import { type QuantityOf, UNITS, type Unit, type UnitOf } from "@/lib/domain/units/units";
import { readTyped } from "./typedNumber";

/** Decimals beyond these are the noise of changing units: a foot or a tenth of a degree typed comes back as typed. */
const near = (value: number, decimals: number) => Number(value.toFixed(decimals)) + 0;

/** A kept figure in the unit that a shop reads it in. */
export function shownIn<U extends Unit>(
  value: number,
  kept: U,
  shown: UnitOf<QuantityOf<U>>,
  decimals: number,
): number {
  return near(convert<Unit>(value, kept, shown), decimals);
}

/** A number as typed; blank is null. Its bounds are told by `keptOf`, in its unit. */
export const typedFigure = z
  .string()
  .max(60, "Enter a number.")
  .default("")
  .transform((text, context): number | null => {
    const value = readTyped(text);
    if (value !== undefined) return value;
    context.addIssue({ code: "custom", message: "Enter a number." });
    return z.NEVER;
  });

/** The same without decimals. */
export const wholeFigure = typedFigure.refine(
  (value) => value === null || Number.isInteger(value),
  "Enter a whole number.",
);

/** Air temperatures that a quote or a sheet takes. */
export const TEMPERATURE = { kept: "degC", decimals: 4, low: -39, high: 55 } as const;

export interface TypedFigure {
  readonly field: string;
  readonly typed: number | null;
  readonly unit: Unit;
  readonly kept: Unit;
  /** Decimals of what is kept, so many that what was typed comes back as it was. */
  readonly decimals: number;
  readonly low: number;
  readonly high: number;
  /** Whether it may stay blank. */
  readonly optional?: boolean;
}

/** What is kept of a figure typed in a shop's own unit; outside its bounds, or blank where it may not be, a problem in that unit is told. */
export function keptOf(
  { field, typed, unit, kept, decimals, low, high, optional = false }: TypedFigure,
  context: RefinementCtx,
): number | null {
  if (typed === null && optional) return null;
  const [least, most] = [low, high].map((bound) => shownIn(bound, kept, unit, 4)) as [number, number];
  if (typed !== null && typed >= least && typed <= most) return shownIn(typed, unit, kept, decimals);
  context.addIssue({
    code: "custom",
    path: [field],
    message: `Enter ${Math.trunc(least)} to ${Math.trunc(most)} ${UNITS[unit].sign}${optional ? ", or leave it empty" : ""}.`,
  });
  return null;
}
