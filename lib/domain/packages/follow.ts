import { ofGroup, ofRule } from "./consequences";
import type { Clash, Constraint, Question, Verdict } from "./question";

const optionsOf = (c: Constraint): readonly string[] => {
  if (c.kind === "group") return c.options;
  if (c.rule.kind === "needs") return [c.rule.option, ...c.rule.anyOf];
  return c.rule.kind === "excludes" ? [c.rule.option, c.rule.other] : [c.rule.option];
};

/**
 * Adds to `verdicts` all that follows step by step, on one bike, from those it holds; returns the first clash, or null. A constraint is asked
 * again only once one of its options has been decided since.
 */
export function follow(q: Question, verdicts: Map<string, Verdict>): Clash | null {
  const isOn = (key: string) => verdicts.get(key)?.on;
  const about = Map.groupBy(
    q.constraints.flatMap((c, at) => optionsOf(c).map((key) => ({ key, at }))),
    (one) => one.key,
  );
  const due = q.constraints.map(() => true);
  for (let grew = true; grew; ) {
    grew = false;
    for (const [at, c] of q.constraints.entries()) {
      if (!due[at]) continue;
      due[at] = false;
      for (const found of c.kind === "group" ? ofGroup(c, q, isOn) : ofRule(c.rule, q, isOn)) {
        if ("clash" in found) return found.clash;
        if (verdicts.has(found.key)) continue;
        verdicts.set(found.key, found.verdict);
        for (const touched of about.get(found.key) ?? []) due[touched.at] = true;
        grew = true;
      }
    }
  }
  return null;
}
