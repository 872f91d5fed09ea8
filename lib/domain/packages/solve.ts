import { ofGroup, ofRule } from "./consequences";
import { couldAllHold, type OnlyWhen } from "./facts";
import { missingOf } from "./openEnds";
import type { Clash, Question, Verdict } from "./question";

/** Adds to `verdicts` all that follows step by step from those it holds; returns the first clash, or null. */
export function follow(q: Question, verdicts: Map<string, Verdict>): Clash | null {
  const isOn = (key: string) => verdicts.get(key)?.on;
  for (let grew = true; grew; ) {
    grew = false;
    for (const c of q.constraints) {
      for (const found of c.kind === "group" ? ofGroup(c, q, isOn) : ofRule(c.rule, q, isOn)) {
        if ("clash" in found) return found.clash;
        if (verdicts.has(found.key)) continue;
        verdicts.set(found.key, found.verdict);
        grew = true;
      }
    }
  }
  if (q.facts !== null) return null;
  const asked = q.constraints.flatMap((c): OnlyWhen[] =>
    c.kind === "rule" && c.rule.kind === "only when" && isOn(c.rule.option) ? [c.rule] : [],
  );
  if (couldAllHold(asked)) return null;
  return {
    options: [...new Set(asked.map((rule) => rule.option))],
    because: "No bike meets all of their conditions.",
  };
}

/**
 * Whether the verdicts can be completed to a full choice that keeps every constraint. Complete: where a group or a rule still asks for
 * one of several options, each is tried; where none asks, leaving all open options off keeps every constraint.
 */
export function canComplete(q: Question, verdicts: ReadonlyMap<string, Verdict>): boolean {
  const trial = new Map(verdicts);
  if (follow(q, trial)) return false;
  const [asking] = missingOf(q, trial);
  const on: Verdict = { on: true, because: "", by: "choice" };
  return asking === undefined || asking.options.some((key) => canComplete(q, new Map(trial).set(key, on)));
}
