import Form from "next/form";
import type { ReactNode } from "react";
import { buttonLook } from "@/app/_ui/buttonLook";
import type { UnitSystem } from "@/lib/domain/units/systems";
import type { BenchQuery, BenchSpecs } from "@/lib/schemas/bench";
import { BenchField } from "./BenchField";

export interface FieldGroup<S extends BenchSpecs = BenchSpecs> {
  readonly title: string;
  readonly names: readonly (keyof S & string)[];
  /** Stands under the fields: a caution, a link. */
  readonly after?: ReactNode;
}

export interface BenchFormProps<S extends BenchSpecs> {
  path: string;
  specs: S;
  groups: readonly FieldGroup<S>[];
  query: BenchQuery;
  problems: Readonly<Record<string, string>>;
  system: UnitSystem;
  /** Kept in the address besides the fields. */
  hidden?: Readonly<Record<string, string>> | undefined;
  /** Fields of another kind, such as a drawer, by the group's title. */
  children?: ReactNode;
}

/** A calculation's inputs: an ordinary form that asks for an address, so that a link carries the whole calculation. */
export function BenchForm<S extends BenchSpecs>({
  path,
  specs,
  groups,
  query,
  problems,
  system,
  hidden,
  children,
}: BenchFormProps<S>) {
  return (
    <Form
      key={JSON.stringify(query)}
      action={`${path}#answer`}
      aria-label="What to calculate with"
      className="min-w-0 print:hidden"
    >
      {Object.entries(hidden ?? {}).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {groups.map((group) => (
        <fieldset key={group.title} className="mb-4 min-w-0">
          <legend className="mb-2 w-full border-rule border-b pb-1 font-semibold text-[13px] text-soft">
            {group.title}
          </legend>
          <div className="grid items-start gap-x-4 sm:grid-cols-2 lg:grid-cols-1 xl:grid-cols-2">
            {group.names.map((name) => {
              const spec = specs[name];
              return (
                spec && (
                  <BenchField
                    key={name}
                    name={name}
                    spec={spec}
                    query={query}
                    problem={problems[name]}
                    system={system}
                  />
                )
              );
            })}
          </div>
          {group.after}
        </fieldset>
      ))}
      {children}
      <button type="submit" className={buttonLook("main")}>
        Calculate
      </button>
    </Form>
  );
}
