import { settingDef } from "../tuning/settings";
import { wrongQuestion } from "./cardFacts";
import { duplicates, unknownNames } from "./checkNames";
import { clashes } from "./checkOptions";
import { brokenOperations } from "./checkWork";
import { shortestCycle } from "./cycle";
import { brokenNeedles } from "./needleOption";
import { changesOf } from "./partOption";
import type { Problem } from "./problem";
import type { Recipe } from "./recipe";
import { STEPS_OF_ALL } from "./solve";
import { untaken } from "./taking";

export type { Problem };

/** Most problems that are told at once. */
const MOST_TOLD = 200;

/**
 * What keeps a recipe from being published, at most 200 of it; an empty list means it may be. Looks for: names used twice or
 * that mean nothing, operations without minutes or access, parts and settings that no operation takes or makes, setting
 * changes that name no setting or leave its range,
 * circles in "after" and in access needs, accesses that can never be open together, options that no choice on any bike
 * can have (naming the smallest clash), and options that go together but put one setting to different values.
 * What the search for that cannot decide within `steps` is a problem too.
 */
export function checkRecipe(recipe: Recipe, steps = STEPS_OF_ALL): Problem[] {
  const names = [...duplicates(recipe), ...unknownNames(recipe)];
  const work = [...brokenOperations(recipe), ...untaken(recipe), ...circles(recipe)];
  const all = [
    ...names,
    ...work,
    ...brokenChanges(recipe),
    ...brokenNeedles(recipe),
    ...brokenRules(recipe),
    ...clashes(recipe, steps),
  ];
  return all.slice(0, MOST_TOLD);
}

function circles(recipe: Recipe): Problem[] {
  const afterOf = new Map(recipe.operations.map((o) => [o.key, o.after]));
  const needsOf = new Map(recipe.accesses.map((a) => [a.key, a.needs]));
  const after = shortestCycle([...afterOf.keys()], (key) => afterOf.get(key) ?? []);
  const access = shortestCycle([...needsOf.keys()], (key) => needsOf.get(key) ?? []);
  const said = (what: string, part: "operations" | "accesses", names: string[] | null): Problem[] => {
    if (!names) return [];
    const nameOf = (key: string | undefined) => recipe[part].find((one) => one.key === key)?.name ?? key;
    const round = [...names, names[0]].map((key) => `“${nameOf(key)}”`).join(" → ");
    return [{ kind: "cycle", message: `${what} run in a circle: ${round}.`, names, part }];
  };
  return [
    ...said("Operations that come after one another", "operations", after),
    ...said("Accesses that need one another", "accesses", access),
  ];
}

function brokenChanges(recipe: Recipe): Problem[] {
  return recipe.options.flatMap((option) =>
    changesOf(option).flatMap((change): Problem[] => {
      const def = settingDef(change.setting);
      const say = (message: string): Problem[] => [
        {
          kind: "setting",
          message: `Option “${option.name}” ${message}`,
          names: [option.key],
          part: "options",
        },
      ];
      if (!def) return say(`changes “${change.setting}”, which is no setting.`);
      if (change.change === "computed")
        return change.value === undefined ? [] : say(`has ${def.name} computed and also gives it a value.`);
      if (change.value === undefined) return say(`changes ${def.name} without a value.`);
      const [low, high] =
        change.change === "set" ? [def.low, def.high] : [def.low - def.high, def.high - def.low];
      const inside = change.value >= low && change.value <= high;
      return inside ? [] : say(`puts ${def.name} to ${change.value}, outside ${low} to ${high}.`);
    }),
  );
}

function brokenRules(recipe: Recipe): Problem[] {
  return recipe.rules.flatMap((rule): Problem[] => {
    const say = (message: string): Problem[] => [
      {
        kind: "rule",
        message: `The rule “${rule.why}” ${message}`,
        names: [rule.option],
        part: "rules",
        rules: [rule],
      },
    ];
    if (rule.kind === "needs" && rule.anyOf.length === 0) return say("needs one of nothing.");
    if (rule.kind === "excludes" && rule.option === rule.other) return say("excludes an option from itself.");
    if (rule.kind === "warns" && rule.with === undefined && rule.without === undefined)
      return say("warns always: say with what, or without what.");
    const wrong = rule.kind === "only when" ? wrongQuestion(rule) : null;
    return wrong === null ? [] : say(wrong);
  });
}
