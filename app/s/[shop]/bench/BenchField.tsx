import { cx } from "@/app/_ui/cx";
import { CONTROL, describedBy, FieldFrame } from "@/app/_ui/FieldFrame";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { type BenchQuery, type BenchSpec, type QuantitySpec, typedUnit } from "@/lib/schemas/bench";

export interface BenchFieldProps {
  name: string;
  spec: BenchSpec;
  query: BenchQuery;
  problem: string | undefined;
  system: UnitSystem;
}

/** One input of the bench: a number with its unit, or with a choice of units; what was typed stays. */
export function BenchField({ name, spec, query, problem, system }: BenchFieldProps) {
  const id = `bench-${name}`;
  const typed = query[name] ?? "";
  const described = describedBy(id, spec.hint, problem);
  if (spec.kind === "choice")
    return (
      <FieldFrame id={id} label={spec.face ?? spec.label} hint={spec.hint} error={problem}>
        <select
          id={id}
          name={name}
          defaultValue={typed || undefined}
          aria-describedby={described}
          className={CONTROL}
        >
          {spec.options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      </FieldFrame>
    );
  const unit = spec.kind === "number" ? spec.unit : undefined;
  return (
    <FieldFrame
      id={id}
      label={spec.face ?? spec.label}
      hint={spec.hint}
      error={problem}
      className={spec.kind === "text" ? "sm:col-span-2 lg:col-span-1 xl:col-span-2" : undefined}
    >
      <div className="flex">
        <input
          id={id}
          name={name}
          type="text"
          inputMode={spec.kind === "text" ? undefined : "decimal"}
          autoComplete="off"
          defaultValue={typed}
          aria-invalid={problem ? true : undefined}
          aria-describedby={described}
          className={cx(
            CONTROL,
            "font-mono",
            (unit || spec.kind === "quantity") && "rounded-r-none border-r-0",
          )}
        />
        {unit && (
          <span
            data-unit
            className="flex flex-none items-center whitespace-nowrap rounded-r-[3px] border border-edge bg-paper px-2.5 font-mono text-[14px] text-soft"
          >
            {unit}
          </span>
        )}
        {spec.kind === "quantity" && <UnitChoice name={name} spec={spec} query={query} system={system} />}
      </div>
    </FieldFrame>
  );
}

function UnitChoice({
  name,
  spec,
  query,
  system,
}: {
  name: string;
  spec: QuantitySpec;
  query: BenchQuery;
  system: UnitSystem;
}) {
  return (
    <select
      name={`${name}Unit`}
      defaultValue={typedUnit(spec, name, query, system)}
      aria-label={`${spec.label}: unit`}
      className="min-h-11 flex-none rounded-r-[3px] border border-edge bg-paper px-2 font-mono text-[14px] text-ink pointer-coarse:min-h-12"
    >
      {spec.units.map((unit) => (
        <option key={unit} value={unit}>
          {UNITS[unit].sign}
        </option>
      ))}
    </select>
  );
}
