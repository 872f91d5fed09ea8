import { inWords } from "@/lib/domain/packages/cardFacts";
import type { PartNeed, Recipe, Rule } from "@/lib/domain/packages/recipe";
import type { NeedleWork } from "@/lib/domain/tuning/needleWork";
import type { SettingChange } from "@/lib/domain/tuning/settingChange";
import { settingDef } from "@/lib/domain/tuning/settings";

export function partText(need: PartNeed): string {
  const quantity = need.quantityMilli / 1000;
  if (need.kind === "part") return `${quantity} × ${need.code}${need.kit ? ` (${need.kit})` : ""}`;
  return `${quantity} × ${need.setting === "mainJet" ? "main jet" : "pilot jet"} from the drawer “${need.family}”, size computed`;
}

export function changeText(change: SettingChange): string {
  const def = settingDef(change.setting);
  const name = def?.name.toLowerCase() ?? change.setting;
  if (change.change === "computed") return `${name} computed`;
  const unit = def?.unit ? ` ${def.unit}` : "";
  if (change.change === "set") return `${name} set to ${change.value}${unit}`;
  return `${name} ${(change.value ?? 0) < 0 ? "less" : "more"} by ${Math.abs(change.value ?? 0)}${unit}`;
}

export function needleText(work: NeedleWork): string {
  if (work.kind === "exchange") return `needle exchanged for ${work.code}`;
  const gauge = work.gaugeMm === undefined ? "" : `, to a ${work.gaugeMm} mm gauge`;
  if (work.kind === "reduce")
    return `needle ${work.byMm} mm thinner from ${work.fromMm} to ${work.toMm} mm below its shoulder, polished${gauge}`;
  const stations = work.stations.map((s) => `${s.diameterMm} mm at ${s.atMm} mm`).join(", ");
  return `needle to ${stations} below its shoulder${gauge}`;
}

export function ruleText(rule: Rule, recipe: Recipe): string {
  const name = (key: string) => `“${recipe.options.find((o) => o.key === key)?.name ?? key}”`;
  const option = name(rule.option);
  if (rule.kind === "needs") return `${option} needs ${rule.anyOf.map(name).join(" or ")}.`;
  if (rule.kind === "excludes") return `${option} does not go with ${name(rule.other)}.`;
  if (rule.kind === "only when") return `${option} only when ${inWords(rule)}.`;
  const when = [
    rule.with ? `with ${name(rule.with)}` : "",
    rule.without ? `without ${name(rule.without)}` : "",
  ].filter(Boolean);
  return `${option} ${when.join(" and ")} is warned about.`;
}
