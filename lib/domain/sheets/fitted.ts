/** One value of a setting sheet, of one carburettor. */
export interface SheetValueOf {
  readonly carburettor: number;
  readonly setting: string;
}

/**
 * The newest known value of each setting of each carburettor, out of sheets given newest first. A sheet may hold a few
 * settings only: what it leaves out is still as an older sheet says.
 */
export function newestOfEach<T extends SheetValueOf>(
  newestFirst: readonly { readonly values: readonly T[] }[],
): T[] {
  const known = new Map<string, T>();
  for (const sheet of newestFirst)
    for (const value of sheet.values) {
      const place = `${value.carburettor} ${value.setting}`;
      if (!known.has(place)) known.set(place, value);
    }
  return [...known.values()].sort((a, b) => a.carburettor - b.carburettor);
}
