import { inWords } from "./cardFacts";
import { meets } from "./facts";
import type { Clash, Constraint, Question, Verdict } from "./question";
import type { Rule } from "./recipe";

/** What one constraint adds to the verdicts so far: further verdicts, or a clash. */
export type Finding = { readonly key: string; readonly verdict: Verdict } | { readonly clash: Clash };

const clash = (options: readonly string[], because: string): Finding[] => [{ clash: { options, because } }];

/** What a group says, given what is on (true), off (false) or open. */
export function ofGroup(
  c: Extract<Constraint, { kind: "group" }>,
  q: Question,
  isOn: (k: string) => boolean | undefined,
): Finding[] {
  if (c.group.choose === "any") return [];
  const on = c.options.filter((key) => isOn(key) === true);
  const alive = c.options.filter((key) => isOn(key) !== false);
  const label = `“${c.group.name}”`;
  const [first] = on;
  if (on.length > 1) return clash(on, `${label} takes only one of ${on.map(q.nameOf).join(" and ")}.`);
  if (first !== undefined)
    return c.options
      .filter((key) => key !== first)
      .map((key) => ({
        key,
        verdict: {
          on: false,
          because: `${label} takes only one, and ${q.nameOf(first)} is chosen.`,
          by: "group",
        },
      }));
  if (c.group.choose === "at most one") return [];
  const [last] = alive;
  if (last === undefined) return clash(c.options, `${label} needs one, and none is left that fits.`);
  if (alive.length > 1) return [];
  return [
    { key: last, verdict: { on: true, because: `It is the only choice left in ${label}.`, by: "group" } },
  ];
}

/** What a rule says, given what is on, off or open. */
export function ofRule(
  rule: Exclude<Rule, { kind: "warns" }>,
  q: Question,
  isOn: (k: string) => boolean | undefined,
): Finding[] {
  const own = isOn(rule.option);
  if (rule.kind === "excludes") {
    const off = (key: string, other: string): Finding[] =>
      isOn(other)
        ? [
            {
              key,
              verdict: {
                on: false,
                because: `It does not go with ${q.nameOf(other)}: ${rule.why}`,
                by: "rule",
              },
            },
          ]
        : [];
    if (own && isOn(rule.other))
      return clash(
        [rule.option, rule.other],
        `${q.nameOf(rule.option)} does not go with ${q.nameOf(rule.other)}: ${rule.why}`,
      );
    return [...off(rule.option, rule.other), ...off(rule.other, rule.option)];
  }
  if (rule.kind === "only when") {
    if (q.facts === null || meets(rule, q.facts) !== false) return [];
    const because = `It is only for bikes whose ${inWords(rule)}; the model card says ${q.facts[rule.fact]}. ${rule.why}`;
    return own
      ? clash([rule.option], because)
      : [{ key: rule.option, verdict: { on: false, because, by: "model" } }];
  }
  const alive = rule.anyOf.filter((key) => q.placeOf.has(key) && isOn(key) !== false);
  const wanted = rule.anyOf.map(q.nameOf).join(" or ");
  const [only] = alive;
  if (only === undefined) {
    const because = `${q.nameOf(rule.option)} needs ${wanted}, which cannot be chosen here: ${rule.why}`;
    return own
      ? clash([rule.option, ...rule.anyOf], because)
      : [{ key: rule.option, verdict: { on: false, because, by: "rule" } }];
  }
  if (!own || alive.length > 1) return [];
  return [
    {
      key: only,
      verdict: { on: true, because: `${q.nameOf(rule.option)} needs it: ${rule.why}`, by: "rule" },
    },
  ];
}
