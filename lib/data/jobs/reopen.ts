import { changedBy } from "@/lib/domain/packages/needleOption";
import type { Operation, Recipe } from "@/lib/domain/packages/recipe";
import { type SettingDef, type SettingKey, settingDef } from "@/lib/domain/tuning/settings";

/** Settings that are reached through the same opening. Common practice, no source. */
const TOGETHER: readonly (readonly SettingKey[])[] = [
  ["mainJet", "pilotJet", "floatHeightMm"],
  [
    "clipPosition",
    "needleSeatMm",
    "needleShimBelowMm",
    "needleShimAboveMm",
    "springLengthMm",
    "springCoils",
    "liftHoleCount",
    "liftHoleMm",
  ],
  ["airboxOpeningMm", "snorkelFitted"],
];
/** Set from outside, nothing opened. Common practice, no source. */
const OUTSIDE: readonly SettingKey[] = ["mixtureScrewTurns", "idleSpeedRpm"];
const USUAL_MINUTES = 10;

/** The package's operation that reaches a setting: one of an option that changes it, else one that changes its neighbour. */
function operationFor(recipe: Recipe, setting: SettingKey): Operation | undefined {
  const near = TOGETHER.find((group) => group.includes(setting)) ?? [];
  for (const wanted of [setting, ...near.filter((key) => key !== setting)]) {
    const options = recipe.options.filter((option) => changedBy(option).includes(wanted));
    const keys = options.flatMap((option) => option.operations);
    const found = recipe.operations.filter((operation) => keys.includes(operation.key));
    const deepest = found.sort((a, b) => b.accesses.length - a.accesses.length)[0];
    if (deepest) return deepest;
  }
  return undefined;
}

/** The change of one setting as an operation, made where the package reaches it; `known` false where no package says how. */
export function correctionWork(
  recipe: Recipe | null,
  def: SettingDef,
  from: number,
  to: number,
): { operation: Operation; known: boolean } {
  const outside = OUTSIDE.includes(def.key);
  const like = outside || !recipe ? undefined : operationFor(recipe, def.key);
  const unit = def.unit ? ` ${def.unit}` : "";
  const text = (value: number) => value.toFixed(def.decimals);
  const measured = def.unit === "mm" && !outside;
  const known = outside || like !== undefined;
  const change = "Change this one thing, nothing else, then ride again.";
  const operation: Operation = {
    key: `correct-${def.key}`,
    name: `${def.name} ${text(from)} to ${text(to)}${unit}`,
    instruction: known ? change : `Open what this needs. ${change}`,
    minutes: like?.minutes ?? USUAL_MINUTES,
    grade: like?.grade ?? recipe?.operations[0]?.grade ?? "",
    accesses: like?.accesses ?? [],
    after: [],
    parts: [],
    holdPoints: measured
      ? [
          {
            kind: "reading",
            name: def.name,
            unit: def.unit,
            low: to - def.step,
            high: to + def.step,
            step: def.step,
            measures: def.key,
          },
        ]
      : [{ kind: "signature", name: `${def.name} ${text(to)}${unit} fitted` }],
    makes: [def.key],
    cautions: like?.cautions ?? [],
    ...(like?.makesSwarf ? { makesSwarf: true } : {}),
    tools: like?.tools ?? [],
    inspects: [],
  };
  return { operation, known };
}

/**
 * The check of mixture screw and idle that a changed jet or needle brings along, made where the package sets the idle; undefined
 * where no operation of it does. Source: common practice.
 */
export function idleCheck(recipe: Recipe, after: readonly string[]): Operation | undefined {
  const like = recipe.operations.find((o) => o.makes?.includes("idleSpeedRpm"));
  if (!like) return undefined;
  return {
    ...like,
    key: IDLE_KEY,
    name: "Check mixture screw and idle, hot",
    instruction: "Look whether the screw still wants to stand where it does; set the idle again.",
    minutes: USUAL_MINUTES,
    after,
    parts: [],
    makes: [],
    inspects: [],
  };
}

const IDLE_KEY = "check-idle";

/** The accesses that a correction's step on a card stands for; undefined where the step is no correction. */
export function correctionAgain(
  recipe: Recipe | null,
  step: { readonly key: string; readonly name: string },
): Operation | undefined {
  if (step.key === IDLE_KEY && recipe) return idleCheck(recipe, []);
  const def = step.key.startsWith("correct-") ? settingDef(step.key.slice("correct-".length)) : undefined;
  if (!def) return undefined;
  return { ...correctionWork(recipe, def, 0, 0).operation, name: step.name };
}
