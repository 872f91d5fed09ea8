import type { Access, Operation } from "../packages/recipe";

/** The work of one package, as far as planning needs it. */
export interface PackageWork {
  readonly operations: readonly Operation[];
  readonly accesses: readonly Access[];
}

/** Several packages' work on one and the same bike. */
export interface OneBike {
  readonly accesses: readonly Access[];
  /** The key in `accesses` of an access that the package at this place calls so. */
  readonly keyOf: (place: number, key: string) => string;
  /** Names, folded, of what must be done before an operation of this name in any of the packages. */
  readonly before: (name: string) => ReadonlySet<string>;
}

/** A name as it is compared: "Tank  off" and "tank off" are the same thing on a bike. */
export const folded = (name: string): string => name.trim().replace(/\s+/g, " ").toLowerCase();

/**
 * Packages that meet on one bike: what has the same name in two of them is the same thing (judgement: keys are only known
 * inside a package, and a tank comes off once whoever asks for it). Such an access takes the minutes of the first package that
 * has it, and needs, excludes and checks all that any of them says. An access whose key means something else in an earlier
 * package gets a key of its own. Adding a package at the end changes no key that was given before.
 */
export function oneBike(works: readonly PackageWork[]): OneBike {
  const keyByName = new Map<string, string>();
  for (const access of works.flatMap((work) => work.accesses)) {
    const name = folded(access.name);
    if (keyByName.has(name)) continue;
    const taken = new Set(keyByName.values());
    let key = access.key;
    for (let n = 2; taken.has(key); n++) key = `${access.key}-${n}`;
    keyByName.set(name, key);
  }
  const keyOf = (place: number, key: string): string => {
    const access = works[place]?.accesses.find((one) => one.key === key);
    return (access && keyByName.get(folded(access.name))) ?? key;
  };
  const merged = new Map<string, Access>();
  for (const [place, work] of works.entries())
    for (const own of work.accesses) {
      const key = keyOf(place, own.key);
      const there = merged.get(key);
      const [needs, excludes] = [own.needs, own.excludes].map((keys) => keys.map((one) => keyOf(place, one)));
      const both = (a: readonly string[] | undefined, b: readonly string[] | undefined) => [
        ...new Set([...(a ?? []), ...(b ?? [])]),
      ];
      merged.set(key, {
        ...(there ?? { ...own, key }),
        needs: both(there?.needs, needs),
        excludes: both(there?.excludes, excludes),
        ...(there?.fuelOpen || own.fuelOpen ? { fuelOpen: true } : {}),
        ...(own.recheck && !there?.recheck ? { recheck: own.recheck } : {}),
        closingChecks: both(there?.closingChecks, own.closingChecks),
        cautions: both(there?.cautions, own.cautions),
        tools: both(there?.tools, own.tools),
      });
    }
  const before = new Map<string, Set<string>>();
  for (const { operations } of works)
    for (const { name, after } of operations) {
      const known = before.get(folded(name)) ?? new Set();
      for (const key of after) {
        const other = operations.find((one) => one.key === key);
        if (other) known.add(folded(other.name));
      }
      before.set(folded(name), known);
    }
  return {
    accesses: [...merged.values()],
    keyOf,
    before: (name) => before.get(folded(name)) ?? new Set(),
  };
}
