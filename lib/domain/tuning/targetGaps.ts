import { type SettingKey, settingDef } from "./settings";
import type { SettingValues, Warning } from "./targetTypes";

/** Settings that are to be computed from an as-found value nobody recorded; `screw`: it starts from the card. The needle's height is asked for by itself (needleAsked.ts). */
export function unknownFor(
  computed: ReadonlySet<SettingKey>,
  found: SettingValues,
  screw: boolean,
): readonly Warning[] {
  return [...computed]
    .filter(
      (key) =>
        found[key] === undefined &&
        key !== "clipPosition" &&
        key !== "needleShimBelowMm" &&
        !(key === "mixtureScrewTurns" && screw),
    )
    .map((key) => {
      const name = settingDef(key)?.name ?? key;
      return {
        rule: "unknown as found",
        message: `${name} is to be computed, but is not known as found.`,
        remedy: `Record ${name} as found.`,
        source: "model",
      };
    });
}

/** No size of this jet meets the target, and why. */
export function outOfReach(key: "mainJet" | "pilotJet", why: string): Warning {
  return {
    rule: "jet out of reach",
    message: `No ${key === "mainJet" ? "main jet" : "pilot jet"} meets the target: ${why}.`,
    remedy:
      "Check needle, needle jet, vents and openings on the model card, and the air the settings were right for.",
    source: "fuel model",
  };
}
