import type { UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { type BenchQuery, type BenchSpec, typedUnit } from "@/lib/schemas/bench";
import { BenchInput } from "./BenchInput";

export interface BenchFieldProps {
  name: string;
  spec: BenchSpec;
  query: BenchQuery;
  problem: string | undefined;
  system: UnitSystem;
}

/** One input of the bench: a number with its unit, or with a choice of units; what was typed stays. */
export function BenchField({ name, spec, query, problem, system }: BenchFieldProps) {
  return (
    <BenchInput
      name={name}
      label={spec.face ?? spec.label}
      hint={spec.hint}
      problem={problem}
      typed={query[name] ?? ""}
      choices={spec.kind === "choice" ? spec.options.map(({ value, label }) => [value, label]) : undefined}
      text={spec.kind === "text" || undefined}
      unit={spec.kind === "number" ? spec.unit : undefined}
      units={
        spec.kind === "quantity"
          ? {
              label: `${spec.label}: unit`,
              chosen: typedUnit(spec, name, query, system),
              choices: spec.units.map((unit) => [unit, UNITS[unit].sign]),
            }
          : undefined
      }
    />
  );
}
