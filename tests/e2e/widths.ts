/** Walks that another one walks too, in another shop or size, are walked with the rest on request: E2E_WIDTHS=all. */
export const EVERY_WALK = process.env.E2E_WIDTHS === "all";

/**
 * The sizes at which a walk is walked: the usual one alone, since the pages behind it are looked at in every size by
 * pages.spec.ts; all of them with E2E_WIDTHS=all.
 */
export function widths<K extends string, T>(sizes: Readonly<Record<K, T>>, usual: NoInfer<K>): [K, T][] {
  const all = Object.entries(sizes) as [K, T][];
  return EVERY_WALK ? all : all.filter(([name]) => name === usual);
}
