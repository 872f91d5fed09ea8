import type { Operation } from "../packages/recipe";
import { type AccessMap, refuseApart } from "./accesses";
import { openingsBound } from "./openings";
import { openStates } from "./openStates";
import { fewestPairs } from "./precedence";
import { leastOrder, MOST_WORK, type Sequenced } from "./sequence";
import { inTheWayOf, refuseSwarfInFuel } from "./swarf";
import type { Work } from "./work";

/**
 * The order of operations with the fewest minutes of opening and closing, or a good one where `work` does not suffice to prove it;
 * `cost` counts those minutes alone.
 *
 * Why it is enough to look at one way of going from one operation to the next (open what is missing, close only what is
 * in the way, keep the rest). At the end all is closed, so each opening can be charged with its closing there and then.
 * Let W(done, S) be the least charge still to come with the set S open.
 * 1. W(done, T) <= W(done, S) for T containing S: from T do what is best from S, closing in addition what is in the way
 *    (already charged) and not opening what is open. So closing anything that is not in the way never saves.
 * 2. Opening something that the next operation does not need can wait until it is needed, at the same charge. So it never saves.
 * 3. What is in the way must be closed, with all that rests on it; there is no choice in that.
 * 4. An operation that may come next and needs nothing to be opened or closed can be done now: it costs nothing, leaves S as it is,
 *    and fewer operations remain. This is what `settled` uses.
 * 5. An access that neither is nor rests on one with an exclusion, or with the fuel system open where work makes swarf, is never
 *    in the way: it is opened at most once in every order, so it adds a constant and is left out of the state.
 * The bound: whatever the remaining operations need and is not open has to be opened at least once more, and again wherever
 * precedence puts an operation between two that need it which it is in the way of (`openingsBound`).
 */
export function leastOpenings(
  operations: readonly Operation[],
  map: AccessMap,
  openNow: readonly string[],
  work: Work = { left: MOST_WORK },
): Sequenced {
  const required = operations.map((operation) => {
    const keys = map.withNeeds(operation.accesses);
    refuseApart(map, keys, `“${operation.name}”`);
    refuseSwarfInFuel(map, operation, keys);
    return keys;
  });
  const used = map.withNeeds([...required.flat(), ...openNow]);
  const swarf = operations.some((operation) => operation.makesSwarf);
  const disputed = new Set(
    used.filter((key) => (swarf && map.get(key).fuelOpen) || used.some((other) => map.exclude(key, other))),
  );
  const contested = used.filter((key) => map.withNeeds([key]).some((part) => disputed.has(part)));
  const charge = (key: string) => map.get(key).openMinutes + map.get(key).closeMinutes;
  const inState = new Set(contested);
  const constant = used
    .filter((key) => !inState.has(key) && !openNow.includes(key))
    .reduce((sum, key) => sum + charge(key), 0);

  const place = new Map(contested.map((key, at) => [key, at]));
  const places = (keys: readonly string[]) => keys.flatMap((key) => place.get(key) ?? []);
  const needs = required.map(places);
  const shuts = operations.map((operation, at) =>
    places(inTheWayOf(map, contested, required[at] ?? [], operation)),
  );
  const charges = contested.map(charge);
  const { numberOf, openIn, step } = openStates({ needs, shuts, charges, work });
  const index = new Map(operations.map((operation, at) => [operation.key, at]));
  const before = fewestPairs(operations.map(({ after }) => after.flatMap((key) => index.get(key) ?? [])));
  const exclude = (one: number, other: number) => map.exclude(contested[one] ?? "", contested[other] ?? "");
  const boundOf = openingsBound({ needs, shuts, before, charges, exclude, work });
  const found = leastOrder(
    {
      count: operations.length,
      before,
      start: numberOf(places(openNow)),
      step,
      bound: (remaining) => {
        const least = boundOf(remaining);
        return (state) => least(openIn(state));
      },
      settled: (state, ready) => ready.find((item) => step(state, item).free),
      uses: { needs, charges, openIn },
    },
    work,
  );
  return { ...found, cost: found.cost + constant, bound: found.bound + constant };
}
