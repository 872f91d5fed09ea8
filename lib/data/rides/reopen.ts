import type { Operation, Recipe } from "@/lib/domain/packages/recipe";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import { planWork } from "@/lib/domain/plan/planWork";
import type { SettingDef, SettingKey } from "@/lib/domain/tuning/settings";

/** Settings that are reached through the same opening. Common practice, no source. */
const TOGETHER: readonly (readonly SettingKey[])[] = [
  ["mainJet", "pilotJet", "floatHeightMm"],
  ["clipPosition", "needleSeatMm", "springLengthMm", "springCoils", "liftHoleCount", "liftHoleMm"],
  ["airboxOpeningMm", "snorkelFitted"],
];
/** Set from outside, nothing opened. Common practice, no source. */
const OUTSIDE: readonly SettingKey[] = ["mixtureScrewTurns", "idleSpeedRpm"];
const USUAL_MINUTES = 10;

/** The package's operation that reaches a setting: one of an option that changes it, else one that changes its neighbour. */
function operationFor(recipe: Recipe, setting: SettingKey): Operation | undefined {
  const near = TOGETHER.find((group) => group.includes(setting)) ?? [];
  for (const wanted of [setting, ...near.filter((key) => key !== setting)]) {
    const options = recipe.options.filter((option) =>
      option.changes.some((change) => change.setting === wanted),
    );
    const keys = options.flatMap((option) => option.operations);
    const found = recipe.operations.filter((operation) => keys.includes(operation.key));
    const deepest = found.sort((a, b) => b.accesses.length - a.accesses.length)[0];
    if (deepest) return deepest;
  }
  return undefined;
}

/** The steps of one correction: what is opened again for it, the change itself, and closing. */
export function stepsOfCorrection(
  recipe: Recipe | null,
  def: SettingDef,
  from: number,
  to: number,
): { steps: readonly PlannedStep[]; known: boolean } {
  const outside = OUTSIDE.includes(def.key);
  const like = outside || !recipe ? undefined : operationFor(recipe, def.key);
  const unit = def.unit ? ` ${def.unit}` : "";
  const text = (value: number) => value.toFixed(def.decimals);
  const measured = def.unit === "mm" && !outside;
  const change: Operation = {
    key: `correct-${def.key}`,
    name: `${def.name} ${text(from)} to ${text(to)}${unit}`,
    instruction: `Change this one thing, nothing else, then ride again.`,
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
          },
        ]
      : [{ kind: "signature", name: `${def.name} ${text(to)}${unit} fitted` }],
    cautions: like?.cautions ?? [],
    tools: like?.tools ?? [],
  };
  return { steps: planWork([change], recipe?.accesses ?? []).steps, known: outside || like !== undefined };
}
