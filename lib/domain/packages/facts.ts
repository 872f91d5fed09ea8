import type { Rule } from "./recipe";

export type OnlyWhen = Extract<Rule, { kind: "only when" }>;

/** What the model card says of the bike, by the fact names of "only when" rules. Absent or null: not known. */
export type ModelFacts = Readonly<Record<string, string | number | null | undefined>>;

/**
 * Whether a model-card fact meets an "only when" rule: true, false, or null where the card does not say
 * (or says it in words where the rule compares numbers). Text compares without regard to case.
 */
export function meets(rule: OnlyWhen, facts: ModelFacts): boolean | null {
  const known = facts[rule.fact];
  if (known === null || known === undefined) return null;
  if (rule.op === "=" || rule.op === "!=") {
    const same = String(known).toLowerCase() === String(rule.value).toLowerCase();
    return rule.op === "=" ? same : !same;
  }
  if (typeof known !== "number" || typeof rule.value !== "number") return null;
  if (rule.op === "<") return known < rule.value;
  if (rule.op === "<=") return known <= rule.value;
  return rule.op === ">" ? known > rule.value : known >= rule.value;
}

/**
 * Whether some bike could meet all of these rules at once. Numbers are taken as continuous, so "more than 2
 * and less than 3" counts as possible.
 */
export function couldAllHold(rules: readonly OnlyWhen[]): boolean {
  const byFact = Map.groupBy(rules, (rule) => rule.fact);
  return [...byFact.values()].every(factCouldHold);
}

function factCouldHold(rules: readonly OnlyWhen[]): boolean {
  const fact = rules[0]?.fact ?? "";
  const holds = (value: string | number) => rules.every((rule) => meets(rule, { [fact]: value }) !== false);
  const equal = rules.find((rule) => rule.op === "=");
  if (equal) return holds(equal.value);
  const limits = rules
    .filter((rule) => rule.op !== "!=")
    .map((rule) => Number(rule.value))
    .sort((a, b) => a - b);
  const low = limits[0];
  if (low === undefined) return true;
  // The limits themselves, a point between each two of them, and a point beyond either end stand for every number.
  const between = limits.slice(1).map((limit, i) => ((limits[i] ?? limit) + limit) / 2);
  const span = (limits.at(-1) ?? low) - low + 1;
  return [...limits, ...between, low - span, low + 2 * span].some(
    (value) => holds(value) || holds(value + 1e-6 * span),
  );
}
