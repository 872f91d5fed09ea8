import type { Operation } from "../packages/recipe";
import { Refusal } from "../refusal";
import type { AccessMap } from "./accesses";

/** Whether the fuel system is open with an access open: for its own sake, or for what it rests on. */
const fuelOpenWith = (map: AccessMap, key: string): boolean =>
  map.withNeeds([key]).some((part) => map.get(part).fuelOpen === true);

/**
 * Which of `open` must be closed before an operation that has all of `required` open: what its accesses exclude, and, where it makes
 * swarf, whatever has the fuel system open. Source: common practice (no grinding or cutting where fuel is open).
 */
export function inTheWayOf(
  map: AccessMap,
  open: readonly string[],
  required: readonly string[],
  operation: Operation,
): readonly string[] {
  const apart = map.inTheWay(open, required);
  if (!operation.makesSwarf) return apart;
  return open.filter((key) => apart.includes(key) || fuelOpenWith(map, key));
}

/** Refuses an operation that makes swarf and can only be reached with the fuel system open. */
export function refuseSwarfInFuel(map: AccessMap, operation: Operation, required: readonly string[]): void {
  const fuel = operation.makesSwarf ? required.find((key) => map.get(key).fuelOpen) : undefined;
  if (fuel !== undefined)
    throw new Refusal(
      `“${operation.name}” makes swarf and needs “${map.get(fuel).name}” open, where the fuel system is open.`,
      "Reach it another way, or do it on the bench with the fuel drained and say so.",
    );
}
