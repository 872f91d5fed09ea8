import type { Operation } from "../packages/recipe";
import { type AccessMap, refuseApart } from "./accesses";
import { openingsBound } from "./openings";
import { leastOrder, type Sequenced } from "./sequence";

/**
 * The order of operations with the fewest minutes of opening and closing; `cost` counts those minutes alone.
 *
 * Why it is enough to look at one way of going from one operation to the next (open what is missing, close only what is
 * in the way, keep the rest). At the end all is closed, so each opening can be charged with its closing there and then.
 * Let W(done, S) be the least charge still to come with the set S open.
 * 1. W(done, T) <= W(done, S) for T containing S: from T do what is best from S, closing in addition what is in the way
 *    (already charged) and not opening what is open. So closing anything that is not in the way never saves.
 * 2. Opening something that the next operation does not need can wait until it is needed, at the same charge. So it never saves.
 * 3. What is in the way must be closed, with all that rests on it; there is no choice in that.
 * 4. An operation that may come next and needs nothing to be opened can be done now: it costs nothing, leaves S as it is, and
 *    fewer operations remain. This is what `settled` uses.
 * 5. An access that neither is nor rests on one with an exclusion is never in the way: it is opened at most once in every
 *    order, so it adds a constant and is left out of the state.
 * The bound: whatever the remaining operations need and is not open has to be opened at least once more, and again wherever
 * precedence puts an operation between two that need it which it is in the way of (`openingsBound`).
 */
export function leastOpenings(
  operations: readonly Operation[],
  map: AccessMap,
  openNow: readonly string[],
): Sequenced {
  const required = operations.map((operation) => {
    const keys = map.withNeeds(operation.accesses);
    refuseApart(map, keys, `“${operation.name}”`);
    return keys;
  });
  const used = map.withNeeds([...required.flat(), ...openNow]);
  const counts = (key: string) =>
    map.withNeeds([key]).some((part) => used.some((other) => map.exclude(part, other)));
  const contested = used.filter(counts);
  const charge = (key: string) => map.get(key).openMinutes + map.get(key).closeMinutes;
  const constant = used
    .filter((key) => !contested.includes(key) && !openNow.includes(key))
    .reduce((sum, key) => sum + charge(key), 0);

  const bit = new Map(contested.map((key, i) => [key, 1n << BigInt(i)]));
  const maskOf = (keys: readonly string[]) => keys.reduce((mask, key) => mask | (bit.get(key) ?? 0n), 0n);
  const minutesOf = memo((mask: bigint) =>
    contested.reduce((sum, key) => (mask & (bit.get(key) ?? 0n) ? sum + charge(key) : sum), 0),
  );
  const needed = required.map(maskOf);
  const states = numbering();
  const step = (state: number, item: number) => {
    const open = states.maskOf(state);
    const wanted = needed[item] ?? 0n;
    const shut = maskOf(
      map.inTheWay(
        contested.filter((key) => open & (bit.get(key) ?? 0n)),
        required[item] ?? [],
      ),
    );
    const missing = wanted & ~open;
    return {
      state: states.numberOf((open & ~shut) | wanted),
      cost: minutesOf(missing),
      free: missing === 0n,
    };
  };
  const steps = memo((key: number) => step(Math.floor(key / operations.length), key % operations.length));
  const before = operations.map((operation) =>
    operation.after
      .map((key) => operations.findIndex((other) => other.key === key))
      .filter((index) => index >= 0),
  );
  const places = (keys: readonly string[]) =>
    keys.map((key) => contested.indexOf(key)).filter((at) => at >= 0);
  const least = openingsBound({
    needs: required.map(places),
    shuts: required.map((keys) => places(map.inTheWay(contested, keys))),
    before,
    charges: contested.map(charge),
  });
  const openIn = memo((state: number) =>
    places(contested.filter((key) => states.maskOf(state) & (bit.get(key) ?? 0n))),
  );
  const found = leastOrder({
    count: operations.length,
    before,
    start: states.numberOf(maskOf(openNow)),
    step: (state, item) => steps(state * operations.length + item),
    bound: (state, remaining) => least(openIn(state), remaining),
    settled: (state, ready) => ready.find((item) => steps(state * operations.length + item).free),
  });
  return { ...found, cost: found.cost + constant, bound: found.bound + constant };
}

function memo<K, V>(compute: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const value = known.get(key) ?? compute(key);
    known.set(key, value);
    return value;
  };
}

/** Numbers sets of open accesses in the order in which they are first met. */
function numbering() {
  const numbers = new Map<bigint, number>();
  const masks: bigint[] = [];
  return {
    maskOf: (state: number): bigint => masks[state] ?? 0n,
    numberOf: (mask: bigint): number => {
      const known = numbers.get(mask);
      if (known !== undefined) return known;
      numbers.set(mask, masks.length);
      return masks.push(mask) - 1;
    },
  };
}
