import { howToMake, type SizeInDrawer } from "../sheets/howToMake";
import type { CarburettorTarget } from "../tuning/targetTypes";

/**
 * What a needle that sits by shims takes from the drawer, in sentences: which shims make its new height, and which are free at all.
 * `needed`: how many carburettors take the same. Empty where its height is no question of shims.
 */
export function shimAdvice(
  target: Pick<CarburettorTarget, "settings" | "needlePosition">,
  drawer: readonly SizeInDrawer[],
  needed: number,
): readonly string[] {
  const position = target.needlePosition;
  const height = target.settings.find((one) => one.key === "needleShimBelowMm" && one.value !== one.from);
  if (position?.by !== "shims" && !height) return [];
  const shims = drawer.map((one) => ({ ...one, free: Math.floor(one.free / needed) }));
  const [from, to] = height
    ? [height.from, height.value]
    : position && position.to === null && position.differenceMm > 0
      ? [0, position.differenceMm]
      : [null, null];
  const made = to === null ? [] : howToMake("needleShimBelowMm", from, to, shims);
  const asked = !height && position?.question ? [position.question] : [];
  return [...asked, ...made, inStock(drawer)];
}

function inStock(drawer: readonly SizeInDrawer[]): string {
  const free = drawer.filter((one) => one.free > 0);
  if (free.length === 0)
    return "No needle shim is free in the drawer: the height is worked out in the usual steps of 0.25 and 0.5 mm.";
  const each = free.map(
    ({ sizeMm, free: count, bin }) =>
      `${count} of ${Number(sizeMm.toFixed(3))} mm${bin ? ` (bin ${bin})` : ""}`,
  );
  return `Free in the drawer: ${each.join(", ")}.`;
}
