import { asked, type Demand, demandsOf } from "./clauses";
import { couldAllHold, type OnlyWhen } from "./facts";
import type { Constraint, Question } from "./question";
import { type Found, no, Sat, type Steps, yes } from "./sat";

/**
 * Steps that one search may take, and all searches together that answer one question about a recipe. A hundred thousand take
 * about three milliseconds. Judgement.
 */
const STEPS_OF_ONE = 200_000;
export const STEPS_OF_ALL = 600_000;
/** What beginning a search costs, in steps. */
const STEPS_TO_BEGIN = 150;

/** What is on or off; an option that is not named is open. */
export type Given = ReadonlyMap<string, { readonly on: boolean }>;

export interface Solver {
  /**
   * Whether what is given can be completed to a full choice that keeps every constraint: an answer with the options on in one such
   * choice, in which those `preferred` are on where that is easy; or no (`null`: not decided within its limit).
   */
  readonly complete: (
    given: Given,
    preferred?: readonly string[],
  ) => { readonly can: true; readonly on: ReadonlySet<string> } | { readonly can: false | null };
  /** Constraints that already rule out what is given; null where none do, or where it is not decided within the limit. */
  readonly against: (given: Given, among?: readonly Constraint[]) => readonly Constraint[] | null;
}

/**
 * A solver for a question, which learns from each search for the next. With `apart` each constraint can be left out of a search, as
 * `against` needs; else all of them hold for good, which is quicker. `steps` bounds all of its searches together.
 */
export function solverOf(
  q: Question,
  steps: Steps,
  apart = false,
  demands: readonly Demand[] = demandsOf(q),
): Solver {
  const count = q.options.length;
  const sat = new Sat(count + q.constraints.length, count);
  const selector = (at: number) => count + at;
  if (!apart) for (const at of q.constraints.keys()) sat.add([yes(selector(at))]);
  for (const { of, clause } of demands) sat.add([...of.map((at) => no(selector(at))), ...clause]);
  const conditions = q.facts === null ? asked(q) : [];
  const placeOf = new Map(q.constraints.map((c, at) => [c, at]));

  /** Conditions that no bike meets together, though it may meet each two of them. */
  const further = (active: ReadonlySet<number> | null) => (isOn: (variable: number) => boolean) => {
    const on = conditions.filter((one) => isOn(one.option) && (active === null || active.has(one.at)));
    steps.left -= on.length * on.length;
    const facts = [...Map.groupBy(on, (one) => one.rule.fact).values()];
    const broken = facts.find((same) => !couldAllHold(same.map((one): OnlyWhen => one.rule)));
    return broken ? broken.flatMap((one) => [no(selector(one.at)), no(one.option)]) : null;
  };
  const search = (given: Given, among: readonly number[] | null, preferred: readonly string[]): Found => {
    const assumed = [...given].flatMap(([key, { on }]) => {
      const option = q.placeOf.get(key);
      return option === undefined ? [] : [on ? yes(option) : no(option)];
    });
    const active = among && new Set(among);
    const places = preferred.flatMap((key) => q.placeOf.get(key) ?? []);
    steps.left -= STEPS_TO_BEGIN;
    const own = { left: Math.min(steps.left, STEPS_OF_ONE) };
    const before = own.left;
    const found = sat.solve(
      [...(among ?? []).map((at) => yes(selector(at))), ...assumed],
      own,
      further(active),
      new Set(places),
    );
    steps.left -= before - own.left;
    return found;
  };
  return {
    complete(given, preferred = []) {
      const found = search(given, apart ? [...q.constraints.keys()] : null, preferred);
      if (!found.can) return { can: found.can };
      return { can: true, on: new Set(q.options.filter((_, place) => found.on.has(place))) };
    },
    against(given, among = q.constraints) {
      const found = search(
        given,
        among.flatMap((c) => placeOf.get(c) ?? []),
        [],
      );
      if (found.can !== false) return null;
      const core = new Set(found.core.map((literal) => (literal >> 1) - count));
      return q.constraints.filter((_, at) => core.has(at));
    },
  };
}
