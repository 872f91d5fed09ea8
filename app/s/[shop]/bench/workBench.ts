import { Refusal } from "@/lib/domain/refusal";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { type BenchQuery, type BenchSpecs, type BenchValues, benchSchema } from "@/lib/schemas/bench";

export interface Trouble {
  readonly message: string;
  readonly remedy: string;
}

/** What an address came to: an answer, or what is wrong by field and in words. */
export interface BenchWork<V, T> {
  readonly values: V | null;
  readonly answer: T | null;
  readonly problems: Readonly<Record<string, string>>;
  readonly trouble: Trouble | null;
}

/** Reads a bench address by its fields and runs a calculation; what a person can mend becomes problems, never an error page. */
export function workBench<const S extends BenchSpecs, T>(
  specs: S,
  system: UnitSystem,
  query: BenchQuery,
  run: (values: BenchValues<S>) => T,
): BenchWork<BenchValues<S>, T> {
  const parsed = benchSchema(specs, system).safeParse(query);
  if (!parsed.success) {
    const problems: Record<string, string> = {};
    for (const issue of parsed.error.issues) problems[String(issue.path[0])] ??= issue.message;
    return {
      values: null,
      answer: null,
      problems,
      trouble: { message: "Nothing is calculated yet.", remedy: "Look at the marked fields." },
    };
  }
  try {
    return { values: parsed.data, answer: run(parsed.data), problems: {}, trouble: null };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return {
      values: parsed.data,
      answer: null,
      problems: cause.fields,
      trouble: { message: cause.message, remedy: cause.remedy },
    };
  }
}
