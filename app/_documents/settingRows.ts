import { figureText } from "@/app/_ui/format";
import type { Firmness, Reason } from "@/lib/domain/reason";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { CarburettorTarget, TargetSheet } from "@/lib/domain/tuning/targetTypes";

type Setting = CarburettorTarget["settings"][number];

export interface SettingRow {
  readonly key: string;
  readonly name: string;
  readonly from: string;
  readonly to: string;
  /** What the target is by air density alone, where that is told beside it. */
  readonly density: string;
  readonly setting: Setting;
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}

/** The settings that change, carburettor by carburettor, as found and target, with what each rests on. */
export function settingRows(
  sheet: TargetSheet | null,
  locale: string,
): { readonly key: string; readonly rows: readonly SettingRow[] }[] {
  return (sheet?.carburettors ?? []).map((c) => ({
    key: c.name,
    rows: c.settings.filter((s) => s.value !== s.from).map((s) => rowOf(c, s, locale)),
  }));
}

function rowOf(c: CarburettorTarget, s: Setting, locale: string): SettingRow {
  const def = settingDef(s.key);
  const text = (value: number) =>
    `${figureText(value, locale, def?.decimals)}${def?.unit ? ` ${def.unit}` : ""}`;
  const density = s.key === "mainJet" && s.how === "computed" ? c.mainJet?.density : undefined;
  return {
    key: s.key,
    name: def?.name ?? s.key,
    from: s.from === null ? "not known" : text(s.from),
    to: text(s.value),
    density: density ? text(density.size) : "",
    setting: s,
    because: reasonsOf(c, s),
    firmness: s.firmness,
  };
}

function reasonsOf(c: CarburettorTarget, s: Setting): readonly Reason[] {
  const choice = s.key === "mainJet" ? c.mainJet : s.key === "pilotJet" ? c.pilotJet : null;
  if (!choice || s.how !== "computed") return s.because;
  const more = [
    { fact: "Size that would be exactly right", from: "fuel model", effect: choice.exact.toFixed(1) },
    {
      fact: "In the drawer",
      from: choice.note || "stock",
      effect: choice.inDrawer ? `${choice.chosen.free}` : "none",
    },
    ...(choice.runnerUp
      ? [{ fact: "Next best size", from: "same choice", effect: String(choice.runnerUp.size) }]
      : []),
    {
      fact: "Chance of running lean at full throttle",
      from: "lambda above 0.92",
      effect: `${Math.round(choice.chosen.leanRisk * 100)} %`,
    },
  ];
  return [...s.because, ...more];
}
