import { settingDef } from "../tuning/settings";
import { inWords } from "./cardFacts";
import { deadEnds } from "./clash";

import { changeConflict } from "./needs";
import { optionsOf, type Problem } from "./problem";
import { type Constraint, questionOf, type Verdict } from "./question";
import type { Recipe } from "./recipe";
import { canComplete } from "./solve";

/** Options that can never be chosen, and pairs that can be chosen together but contradict each other in a setting. */
export function clashes(recipe: Recipe): Problem[] {
  const name = (key: string) => `“${recipe.options.find((option) => option.key === key)?.name ?? key}”`;
  const dead = deadEnds(recipe).map(
    ({ option, clash }): Problem => ({
      kind: "clash",
      message: `${option === null ? "Nothing can be chosen" : `${name(option)} can never be chosen`}: ${clash.map((c) => said(c, name)).join("; ")}.`,
      names: [
        ...new Set([
          ...(option === null ? [] : [option]),
          ...clash.flatMap((c) => (c.kind === "group" ? [c.group.key] : optionsOf(c.rule))),
        ]),
      ],
      ...(option === null ? {} : { part: "options" as const }),
      rules: clash.flatMap((c) => (c.kind === "rule" ? [c.rule] : [])),
    }),
  );
  const q = questionOf(recipe, null);
  const on: Verdict = { on: true, because: "", by: "choice" };
  const pairs = recipe.options.flatMap((a, i) => recipe.options.slice(i + 1).map((b) => [a, b] as const));
  const settings = pairs.flatMap(([a, b]): Problem[] => {
    const conflict = changeConflict([a, b]);
    if (
      !conflict ||
      !canComplete(
        q,
        new Map([
          [a.key, on],
          [b.key, on],
        ]),
      )
    )
      return [];
    const setting = settingDef(conflict.setting)?.name.toLowerCase() ?? conflict.setting;
    const message = `${name(a.key)} and ${name(b.key)} can be chosen together but put the ${setting} to different values.`;
    return [{ kind: "setting", message, names: [a.key, b.key], part: "options" }];
  });
  return [...dead, ...settings];
}

function said(c: Constraint, name: (key: string) => string): string {
  if (c.kind === "group")
    return `“${c.group.name}” takes ${c.group.choose} of ${c.options.map(name).join(", ") || "no options"}`;
  if (c.rule.kind === "needs") return `${name(c.rule.option)} needs ${c.rule.anyOf.map(name).join(" or ")}`;
  if (c.rule.kind === "excludes") return `${name(c.rule.option)} excludes ${name(c.rule.other)}`;
  return `${name(c.rule.option)} only when ${inWords(c.rule)}`;
}
