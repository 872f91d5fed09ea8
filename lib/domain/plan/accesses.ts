import { reach } from "../packages/cycle";
import type { Access } from "../packages/recipe";
import { Refusal } from "../refusal";

/** What a set of accesses takes and rules out, looked up by key. */
export interface AccessMap {
  readonly get: (key: string) => Access;
  /** The accesses named and all that they need, in the order in which they can be opened. */
  readonly withNeeds: (keys: readonly string[]) => readonly string[];
  /** Whether two accesses exclude each other; written on either side, it holds for both. */
  readonly exclude: (one: string, other: string) => boolean;
  /** Which of `open` must be closed before all of `required` can be open: those whose own needs conflict with it. */
  readonly inTheWay: (open: readonly string[], required: readonly string[]) => readonly string[];
}

/** Refuses accesses that need one another in a circle or that are not there. */
export function accessMap(accesses: readonly Access[]): AccessMap {
  const byKey = new Map(accesses.map((access) => [access.key, access]));
  const get = (key: string): Access => {
    const access = byKey.get(key);
    if (!access)
      throw new Refusal(
        `The work needs an access “${key}” that the package does not have.`,
        "Add it to the package.",
      );
    return access;
  };
  const place = new Map(accesses.map((access, i) => [access.key, i]));
  const closure = new Map<string, readonly string[]>();
  const depth = (key: string) => own(key).length;
  const own = (key: string): readonly string[] => {
    const known = closure.get(key);
    if (known) return known;
    const found = [...reach([key], (name) => get(name).needs)];
    if (found.some((name) => get(name).needs.includes(key)))
      throw new Refusal(
        `The access “${get(key).name}” needs itself to be open first.`,
        "Correct what the accesses need.",
      );
    closure.set(key, found);
    return found;
  };
  const apart = new Map(accesses.map((access) => [access.key, new Set<string>()]));
  for (const { key, excludes } of accesses)
    for (const other of excludes) {
      apart.get(key)?.add(other);
      apart.get(other)?.add(key);
    }
  const exclude = (one: string, other: string) => apart.get(one)?.has(other) === true;
  const asAlternative = new Map<string, ReadonlySet<string>>();
  /** All that cannot be open together with an access, for its own sake or for what it needs. */
  const apartFrom = (key: string): ReadonlySet<string> => {
    const known = asAlternative.get(key) ?? new Set(own(key).flatMap((part) => [...(apart.get(part) ?? [])]));
    asAlternative.set(key, known);
    return known;
  };
  return {
    get,
    exclude,
    withNeeds: (keys) =>
      [...new Set(keys.flatMap(own))].sort(
        (a, b) => depth(a) - depth(b) || (place.get(a) ?? 0) - (place.get(b) ?? 0),
      ),
    inTheWay: (open, required) =>
      open.filter((key) => {
        const others = apartFrom(key);
        return required.some((other) => others.has(other));
      }),
  };
}

/** Refuses a set of accesses of which two exclude each other. */
export function refuseApart(map: AccessMap, keys: readonly string[], what: string): void {
  for (const one of keys) {
    const other = keys.find((key) => map.exclude(one, key));
    if (other !== undefined)
      throw new Refusal(
        `${what} has “${map.get(one).name}” and “${map.get(other).name}” open at once, which exclude each other.`,
        "Correct what has to be open.",
      );
  }
}
