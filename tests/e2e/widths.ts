/**
 * The sizes at which a walk is walked: the usual one alone, since the pages behind it are looked at in every size by
 * pages.spec.ts; all of them with E2E_WIDTHS=all.
 */
export function widths<K extends string, T>(sizes: Readonly<Record<K, T>>, usual: NoInfer<K>): [K, T][] {
  const all = Object.entries(sizes) as [K, T][];
  return process.env.E2E_WIDTHS === "all" ? all : all.filter(([name]) => name === usual);
}
