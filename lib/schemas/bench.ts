import { z } from "zod";
import { convert } from "@/lib/domain/units/convert";
import { type Shown, shownUnit, type UnitSystem } from "@/lib/domain/units/systems";
import { UNITS, type Unit } from "@/lib/domain/units/units";
import { numberProblem, readTyped } from "./typedNumber";

interface Named {
  /** Said in messages, and on the field unless `face` is shorter. */
  readonly label: string;
  readonly face?: string;
  readonly hint?: string;
}

/** A quantity typed in any of `units`; limits and the value that comes out are in the first of them. */
export interface QuantitySpec extends Named {
  readonly kind: "quantity";
  readonly units: readonly [Unit, ...Unit[]];
  /** Which of the units a shop's system offers first; absent: the first. */
  readonly shown?: Shown;
  readonly low: number;
  readonly high: number;
  readonly needed?: boolean;
}

export interface NumberSpec extends Named {
  readonly kind: "number";
  readonly unit?: string;
  readonly low: number;
  readonly high: number;
  readonly whole?: boolean;
  readonly needed?: boolean;
}

export interface ChoiceSpec extends Named {
  readonly kind: "choice";
  /** The first holds where the address says nothing. */
  readonly options: readonly { readonly value: string; readonly label: string }[];
}

export interface TextSpec extends Named {
  readonly kind: "text";
  readonly max: number;
}

export type BenchSpec = QuantitySpec | NumberSpec | ChoiceSpec | TextSpec;
export type BenchSpecs = Readonly<Record<string, BenchSpec>>;
export type BenchQuery = Readonly<Record<string, string>>;

type ValueOf<S extends BenchSpec> = S extends { kind: "choice"; options: readonly { value: infer V }[] }
  ? V
  : S extends { kind: "text" }
    ? string
    : S extends { needed: true }
      ? number
      : number | null;
export type BenchValues<S extends BenchSpecs> = { readonly [K in keyof S]: ValueOf<S[K]> };

/** The unit a quantity is typed in: said in the address, else the shop's own. */
export function typedUnit(spec: QuantitySpec, name: string, query: BenchQuery, system: UnitSystem): Unit {
  const said = spec.units.find((unit) => unit === query[`${name}Unit`]);
  const usual: Unit = spec.shown ? shownUnit(system, spec.shown).unit : spec.units[0];
  return said ?? spec.units.find((unit) => unit === usual) ?? spec.units[0];
}

const rounded = (value: number) => Number(value.toPrecision(4));
const changed = (value: number, from: Unit, to: Unit) => convert(value, from, to as never);

/**
 * Reads a bench page's address by its fields: quantities come out in their first unit, blanks that may be blank as null.
 * Issues carry the field's name as path and say what to enter, in the unit that was typed.
 */
export function benchSchema<const S extends BenchSpecs>(specs: S, system: UnitSystem) {
  return z.record(z.string(), z.string()).transform((query, context): BenchValues<S> => {
    const refuse = (name: string, message: string) => {
      context.addIssue({ code: "custom", path: [name], message });
      return null;
    };
    const values: Record<string, string | number | null> = {};
    for (const [name, spec] of Object.entries<BenchSpec>(specs)) {
      const text = (query[name] ?? "").trim();
      if (spec.kind === "choice")
        values[name] = spec.options.find((o) => o.value === text)?.value ?? spec.options[0]?.value ?? "";
      else if (spec.kind === "text")
        values[name] =
          text.length > spec.max
            ? refuse(name, `${spec.label} is longer than ${spec.max} characters: shorten it.`)
            : text;
      else values[name] = readNumber(spec, name, text, query, system, refuse);
    }
    return values as BenchValues<S>;
  });
}

function readNumber(
  spec: QuantitySpec | NumberSpec,
  name: string,
  text: string,
  query: BenchQuery,
  system: UnitSystem,
  refuse: (name: string, message: string) => null,
): number | null {
  const unit = spec.kind === "quantity" ? typedUnit(spec, name, query, system) : undefined;
  const first = spec.kind === "quantity" ? spec.units[0] : undefined;
  const limit = (value: number) => (first && unit ? rounded(changed(value, first, unit)) : value);
  const rule = {
    name: spec.label,
    low: limit(spec.low),
    high: limit(spec.high),
    unit: (unit ? UNITS[unit].sign : spec.kind === "number" ? spec.unit : "") ?? "",
    ...(spec.kind === "number" && spec.whole ? { whole: true } : {}),
  };
  const value = readTyped(text);
  if (value === null)
    return spec.needed
      ? refuse(
          name,
          `${spec.label} is blank: enter a number from ${rule.low} to ${rule.high}${rule.unit && ` ${rule.unit}`}.`,
        )
      : null;
  const problem = numberProblem(value, rule);
  if (problem || value === undefined) return refuse(name, problem ?? "Enter a number.");
  return first && unit ? changed(value, unit, first) : value;
}

const MOST_FIELDS = 120;
const MOST_TEXT = 400;

/** An address's parameters as one text each; the first where a name stands twice. */
export function benchQuery(
  given: Readonly<Record<string, string | readonly string[] | undefined>>,
): BenchQuery {
  return Object.fromEntries(
    Object.entries(given)
      .slice(0, MOST_FIELDS)
      .flatMap(([name, value]) => {
        const text = typeof value === "string" ? value : value?.[0];
        return text === undefined ? [] : [[name, text.slice(0, MOST_TEXT)]];
      }),
  );
}

/** A shop's unit system from its settings' word; anything unknown is metric. */
export function systemOf(units: string): UnitSystem {
  return units === "us" || units === "uk" ? units : "metric";
}

/** A number as the value of a field, in the unit the shop types it in. */
export function fieldText(
  spec: BenchSpec | undefined,
  value: number | null | undefined,
  system: UnitSystem,
): string {
  if (value === null || value === undefined) return "";
  if (spec?.kind !== "quantity") return String(Number(value.toPrecision(6)));
  return String(Number(changed(value, spec.units[0], typedUnit(spec, "", {}, system)).toPrecision(6)));
}

/** A bench page's address sent along, to be worked out again where it is acted on. */
export const AddressSchema = z.object({
  address: z
    .string()
    .max(8000, "The address is too long: calculate again.")
    .transform((text) => benchQuery(Object.fromEntries(new URLSearchParams(text)))),
});
