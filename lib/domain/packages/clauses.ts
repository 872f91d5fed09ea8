import { couldAllHold, meets, type OnlyWhen } from "./facts";
import type { Constraint, Question } from "./question";
import { no, yes } from "./sat";

/**
 * What each constraint of a question demands, as clauses over its options (variable = place in `q.options`), and for any bike the
 * pairs of conditions that no bike meets at once. `of` are the places of the constraints that a clause comes from.
 */
export interface Demand {
  readonly of: readonly number[];
  readonly clause: readonly number[];
}

export function demandsOf(q: Question): Demand[] {
  const single = q.constraints.flatMap((c, at) =>
    clausesOf(c, q).map((clause): Demand => ({ of: [at], clause })),
  );
  return q.facts === null ? [...single, ...apartInFact(q)] : single;
}

function clausesOf(c: Constraint, q: Question): number[][] {
  const places = (keys: readonly string[]) => [...new Set(keys)].flatMap((key) => q.placeOf.get(key) ?? []);
  if (c.kind === "group") {
    if (c.group.choose === "any") return [];
    const options = places(c.options);
    const apart = options.flatMap((a, i) => options.slice(i + 1).map((b) => [no(a), no(b)]));
    return c.group.choose === "exactly one" ? [options.map(yes), ...apart] : apart;
  }
  const { rule } = c;
  const [own] = places([rule.option]);
  if (own === undefined) return [];
  if (rule.kind === "needs") return [[no(own), ...places(rule.anyOf).map(yes)]];
  if (rule.kind === "excludes") return places([rule.other]).map((other) => [no(own), no(other)]);
  return q.facts !== null && meets(rule, q.facts) === false ? [[no(own)]] : [];
}

interface Asked {
  readonly at: number;
  readonly option: number;
  readonly rule: OnlyWhen;
}

/** All conditions on the model card, with the places of their rules and options. */
export function asked(q: Question): Asked[] {
  return q.constraints.flatMap((c, at): Asked[] => {
    const option = c.kind === "rule" ? q.placeOf.get(c.rule.option) : undefined;
    return c.kind === "rule" && c.rule.kind === "only when" && option !== undefined
      ? [{ at, option, rule: c.rule }]
      : [];
  });
}

function apartInFact(q: Question): Demand[] {
  return [...Map.groupBy(asked(q), (one) => one.rule.fact).values()].flatMap((same) =>
    same.flatMap((a, i) =>
      same
        .slice(i + 1)
        .filter((b) => !couldAllHold([a.rule, b.rule]))
        .map((b): Demand => ({ of: [a.at, b.at], clause: [no(a.option), no(b.option)] })),
    ),
  );
}
