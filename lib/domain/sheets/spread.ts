/** How values of one setting lie: the middle one, the least and the greatest, and how many there are. */
export interface Spread {
  readonly setting: string;
  readonly low: number;
  readonly median: number;
  readonly high: number;
  readonly count: number;
}

/** The spread of each setting over several bikes, in the order in which settings first come; a bike that leaves one out counts not in it. */
export function spreadsOf(
  bikes: readonly { readonly values: readonly { readonly setting: string; readonly value: number }[] }[],
): readonly Spread[] {
  const bySetting = Map.groupBy(
    bikes.flatMap((bike) => bike.values),
    (one) => one.setting,
  );
  return [...bySetting].map(([setting, own]) => {
    const sorted = own.map((one) => one.value).sort((a, b) => a - b);
    const middle = (sorted.length - 1) / 2;
    const at = (index: number) => sorted[index] ?? 0;
    return {
      setting,
      low: at(0),
      median: (at(Math.floor(middle)) + at(Math.ceil(middle))) / 2,
      high: at(sorted.length - 1),
      count: sorted.length,
    };
  });
}
