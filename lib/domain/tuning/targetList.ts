import { type Reason, VERIFY } from "../reason";
import { SETTINGS, type SettingKey } from "./settings";
import type { JetChoice, KnownSettings, SettingValues, TargetSetting } from "./targetTypes";

export interface Solutions {
  readonly mainJet: JetChoice | null;
  readonly pilotJet: JetChoice | null;
  readonly screw: TargetSetting | null;
}

/** Every known setting of a target, in the setting sheet's order, with where it came from. */
export function listSettings(
  found: KnownSettings,
  values: SettingValues,
  computed: ReadonlySet<SettingKey>,
  because: Readonly<Partial<Record<SettingKey, readonly Reason[]>>>,
  solved: Solutions,
): readonly TargetSetting[] {
  return SETTINGS.flatMap(({ key }): TargetSetting[] => {
    const from = found[key]?.value ?? null;
    const jet = key === "mainJet" ? solved.mainJet : key === "pilotJet" ? solved.pilotJet : null;
    if (computed.has(key) && jet)
      return [
        {
          key,
          value: jet.chosen.size,
          from,
          how: "computed",
          because: jetReasons(jet),
          firmness: jet.firmness,
        },
      ];
    if (computed.has(key) && key === "mixtureScrewTurns" && solved.screw) return [solved.screw];
    const value = values[key];
    if (value === undefined) return [];
    if (computed.has(key))
      return [
        {
          key,
          value,
          from,
          how: "computed",
          because: otherReasons(key, value, from),
          firmness: "starting point",
        },
      ];
    const why = because[key];
    if (why) return [{ key, value, from, how: "computed", because: why, firmness: "starting point" }];
    if (value !== from)
      return [
        {
          key,
          value,
          from,
          how: "computed",
          because: otherReasons(key, value, from),
          firmness: "starting point",
        },
      ];
    const how = found[key]?.how ?? "assumed";
    const firmness = how === "assumed" ? "starting point" : "firm";
    return [{ key, value, from, how, because: [{ fact: "As found", from: how }], firmness }];
  });
}

function jetReasons(jet: JetChoice): readonly Reason[] {
  return [
    ...jet.because,
    {
      fact: `Exactly ${jet.exact.toFixed(1)} would meet the target`,
      from: "fuel model",
      effect: `${jet.chosen.size} chosen: least expected loss, lean counting more than rich`,
    },
    ...(jet.note ? [{ fact: jet.note, from: "stock" }] : []),
    { fact: VERIFY, from: "judgement" },
  ];
}

function otherReasons(key: SettingKey, value: number, from: number | null): readonly Reason[] {
  if (key === "clipPosition" || key === "needleShimBelowMm")
    return [
      {
        fact: value === from ? "Half throttle stays on target" : "Half throttle is nearest target here",
        from: "fuel model",
        effect:
          value === from || from === null
            ? key === "clipPosition"
              ? `clip ${value}`
              : `${value} mm of shims`
            : `needle ${value > from ? "up" : "down"}`,
      },
      { fact: VERIFY, from: "judgement" },
    ];
  if (key === "idleSpeedRpm")
    return [
      {
        fact: "Idle rises after freer running: set it back to this",
        from: "common practice",
        effect: from === null ? "" : `${from} rpm as found`,
      },
    ];
  return [{ fact: "Follows from the package", from: "package" }];
}
