/** More than this many of one customer's papers are not tried in every way: 2 to the 10th is about a thousand. */
const MOST = 10;

/**
 * Those of the amounts, at least two, that come to `sum` exactly, as places; all of them where they do, else the only such choice.
 * Null where none does, or more than one: then a person decides. Amounts are positive, in minor units; only the first ten are tried.
 */
export function addingUpTo(amounts: readonly number[], sum: number): number[] | null {
  const tried = amounts.slice(0, MOST);
  const all = tried.map((_, at) => at);
  const total = (places: readonly number[]) => places.reduce((so, at) => so + (tried[at] ?? 0), 0);
  if (all.length >= 2 && total(all) === sum) return all;
  let found: number[] | null = null;
  for (let bits = 1; bits < 1 << tried.length; bits++) {
    const places = all.filter((at) => bits & (1 << at));
    if (places.length < 2 || total(places) !== sum) continue;
    if (found) return null;
    found = places;
  }
  return found;
}
