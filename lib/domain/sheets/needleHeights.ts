const SHIMS = ["needleShimBelowMm", "needleShimAboveMm"] as const;
const MAKES_HEIGHT: readonly string[] = ["clipPosition", "needleSeatMm", "needle"];

/** What a step makes, with what goes with it: who sets a needle's clip or fits the needle also sets its shims. Common practice. */
export function madeWith(makes: readonly string[]): readonly string[] {
  return makes.some((setting) => MAKES_HEIGHT.includes(setting)) ? [...new Set([...makes, ...SHIMS])] : makes;
}

/** What of that is shown on a step: shims where anything is known of them, and then no clip that nobody knows. */
export function shownHeights(makes: readonly string[], known: ReadonlySet<string>): readonly string[] {
  const shims = SHIMS.some((setting) => known.has(setting));
  return madeWith(makes).filter((setting) => {
    if (setting === "clipPosition") return known.has(setting) || !shims;
    return makes.includes(setting) || known.has(setting);
  });
}
