import { settingDef } from "../tuning/settings";
import { inWords } from "./cardFacts";
import { deadEnds } from "./clash";
import { demandsOf } from "./clauses";
import { changeConflict } from "./needs";
import { optionsOf, type Problem } from "./problem";
import { type Constraint, questionOf } from "./question";
import type { Recipe } from "./recipe";
import { type Solver, solverOf } from "./solve";

/**
 * Options that can never be chosen, and pairs that can be chosen together but contradict each other in a setting. What is not
 * decided within the check's limit is a problem too: it is not known to be sound.
 */
export function clashes(recipe: Recipe, mostSteps: number): Problem[] {
  const name = (key: string) => `“${recipe.options.find((option) => option.key === key)?.name ?? key}”`;
  const q = questionOf(recipe, null);
  const [steps, demands] = [{ left: mostSteps }, demandsOf(q)];
  const solver = solverOf(q, steps, false, demands);
  const dead = deadEnds(q, solver, demands).map(({ option, clash }): Problem => {
    const part = option === null ? {} : { part: "options" as const };
    if (clash === null)
      return {
        kind: "undecided",
        message: `${option === null ? "Whether anything can be chosen" : `Whether ${name(option)} can be chosen`} ${UNDECIDED}`,
        names: option === null ? [] : [option],
        ...part,
      };
    const more = clash.length > MOST_SAID ? [`and ${clash.length - MOST_SAID} more`] : [];
    const said = [...clash.slice(0, MOST_SAID).map((c) => inPlain(c, name)), ...more];
    const why = said.join("; ") || "too many groups and rules act on one another";
    return {
      kind: "clash",
      message: `${option === null ? "Nothing can be chosen" : `${name(option)} can never be chosen`}: ${why}.`,
      names: [
        ...new Set([
          ...(option === null ? [] : [option]),
          ...clash.flatMap((c) => (c.kind === "group" ? [c.group.key] : optionsOf(c.rule))),
        ]),
      ],
      ...part,
      rules: clash.flatMap((c) => (c.kind === "rule" ? [c.rule] : [])),
    };
  });
  return [...dead, ...contradictions(recipe, solver, name, () => steps.left <= 0)];
}

/** Most groups and rules of one clash that are said. */
const MOST_SAID = 12;

const UNDECIDED =
  "could not be decided within the limit of the check: too many groups and rules act on one another. Use fewer rules, or make two packages of it.";

/** Most pairs that are named: whoever put these right asks again. */
const MOST_PAIRS = 50;

function contradictions(
  recipe: Recipe,
  { complete }: Solver,
  name: (key: string) => string,
  spent: () => boolean,
): Problem[] {
  const found: Problem[] = [];
  for (const [i, a] of recipe.options.entries())
    for (const b of recipe.options.slice(i + 1)) {
      const conflict = changeConflict([a, b]);
      if (!conflict) continue;
      const { can } = complete(new Map([a.key, b.key].map((key) => [key, { on: true }])));
      if (can === false) continue;
      const setting = settingDef(conflict.setting)?.name.toLowerCase() ?? conflict.setting;
      const apart = `put the ${setting} to different values`;
      const pair = `${name(a.key)} and ${name(b.key)}`;
      found.push({
        kind: can ? "setting" : "undecided",
        message: can
          ? `${pair} can be chosen together but ${apart}.`
          : `${pair} ${apart}; whether they can be chosen together ${UNDECIDED}`,
        names: [a.key, b.key],
        part: "options",
      });
      if (found.length >= MOST_PAIRS || spent()) return found;
    }
  return found;
}

function inPlain(c: Constraint, name: (key: string) => string): string {
  if (c.kind === "group")
    return `“${c.group.name}” takes ${c.group.choose} of ${c.options.map(name).join(", ") || "no options"}`;
  if (c.rule.kind === "needs") return `${name(c.rule.option)} needs ${c.rule.anyOf.map(name).join(" or ")}`;
  if (c.rule.kind === "excludes") return `${name(c.rule.option)} excludes ${name(c.rule.other)}`;
  return `${name(c.rule.option)} only when ${inWords(c.rule)}`;
}
