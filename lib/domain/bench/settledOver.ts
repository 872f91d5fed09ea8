import type { TargetSetting, TargetSheet } from "../tuning/targetTypes";

const RANGE_NOTES = {
  richest: { fact: "The richest that any corner asks for", from: "lean is worse than rich" },
  nearest: {
    fact: "Of what the corners ask for, the nearest to what is fitted",
    from: "common practice: the screw takes up a season",
  },
} as const;

/** Clip or shims, screw and idle as the richest corner wants them (a larger value is richer); the pilot jet no further from the fitted than every corner asks. */
export function settledOver(sheets: readonly TargetSheet[]): readonly TargetSetting[] {
  const keys = [
    "clipPosition",
    "needleShimBelowMm",
    "pilotJet",
    "mixtureScrewTurns",
    "idleSpeedRpm",
  ] as const;
  return keys.flatMap((key) => {
    const all = sheets.flatMap((s) =>
      (s.carburettors[0]?.settings ?? []).filter((x) => x.key === key && x.how === "computed"),
    );
    const [one, ...rest] = all;
    if (!one) return [];
    if (key !== "pilotJet" || one.from === null)
      return [
        noted(
          rest.reduce((best, s) => (s.value > best.value ? s : best), one),
          "richest",
        ),
      ];
    const values = all.map((s) => s.value);
    const value = Math.min(Math.max(...values), Math.max(Math.min(...values), one.from));
    return [noted({ ...(all.find((s) => s.value === value) ?? one), value }, "nearest")];
  });
}

function noted(s: TargetSetting, how: keyof typeof RANGE_NOTES): TargetSetting {
  return { ...s, because: [...s.because, RANGE_NOTES[how]] };
}
