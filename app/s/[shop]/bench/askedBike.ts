import type { BenchQuery } from "@/lib/schemas/bench";
import { idIn } from "@/lib/schemas/ids";

/** The bike an address begins from; null when it names none. */
export function askedBike(query: BenchQuery): number | null {
  return idIn(query.bike);
}

/** True when an address says nothing besides a bike: the fields are to be filled in from it. */
export function onlyBike(query: BenchQuery): boolean {
  return Object.keys(query).every((name) => name === "bike");
}
