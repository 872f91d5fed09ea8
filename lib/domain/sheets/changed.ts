/** What work may have changed on a bike, in the words that one looks for it by, with what its steps made. */
export const CHANGED = {
  mainJet: { name: "main jet", makes: ["mainJet"] },
  needle: {
    name: "needle",
    makes: ["needle", "clipPosition", "needleSeatMm", "needleShimBelowMm", "needleShimAboveMm"],
  },
  exhaust: { name: "exhaust", makes: ["silencer", "headerWeldMm"] },
  airbox: { name: "airbox", makes: ["airboxOpeningMm", "snorkelFitted", "filter"] },
} as const;
export type Changed = keyof typeof CHANGED;
export const CHANGES = Object.keys(CHANGED) as [Changed, ...Changed[]];

/** True where one of the things that steps made belongs to a change. */
export function madeOf(changed: Changed, makes: readonly string[]): boolean {
  return CHANGED[changed].makes.some((key) => makes.includes(key));
}
