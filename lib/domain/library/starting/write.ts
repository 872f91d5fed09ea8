import { type AccessEntry, COMMON_PRACTICE, type LibraryEntry, type OperationEntry } from "../entry";
import type { FamilyKey, PlaceKey } from "../places";

/** Small cross heads on these carburettors: JIS B 4633 tips fit them, ISO 8764 tips of the usual cross form do not. */
export const CROSS = "Cross driver no. 2 to JIS B 4633, not ISO 8764-1 form PH";
export const FUEL = "Fuel vapour: no flame, no sparks, no grinding nearby. Extinguisher in reach.";
export const HEADS = "Small cross heads here are JIS: another driver burrs them.";
export const BRASS = "Brass and alloy threads strip long before they feel tight: stop as soon as it seats.";

/** A place for the shop's own torque: we state no figure. */
export const place = (where: string) => ({ where, source: "" });

export const access = (
  at: PlaceKey,
  key: string,
  name: string,
  [openMinutes, closeMinutes]: readonly [open: number, close: number],
  more: Partial<AccessEntry> = {},
): AccessEntry => ({
  kind: "access",
  key,
  name,
  place: at,
  families: [],
  source: COMMON_PRACTICE,
  openMinutes,
  closeMinutes,
  needs: [],
  excludes: [],
  closingChecks: [],
  cautions: [],
  tools: [],
  torques: [],
  threadlocker: [],
  ...more,
});

export const operation = (
  at: PlaceKey,
  key: string,
  name: string,
  minutes: number,
  accesses: readonly string[],
  instruction: string,
  more: Partial<OperationEntry> = {},
): OperationEntry => ({
  kind: "operation",
  key,
  name,
  place: at,
  families: [],
  source: COMMON_PRACTICE,
  instruction,
  minutes,
  accesses,
  after: [],
  holdPoints: [],
  cautions: [],
  tools: [],
  inspects: [],
  torques: [],
  threadlocker: [],
  ...more,
});

const words =
  (kind: "caution" | "check") =>
  (at: PlaceKey, key: string, name: string, families: readonly FamilyKey[] = []): LibraryEntry => ({
    kind,
    key,
    name,
    place: at,
    families,
    source: COMMON_PRACTICE,
  });
export const caution = words("caution");

export const check = (
  at: PlaceKey,
  key: string,
  name: string,
  families: readonly FamilyKey[] = [],
  procedure = "",
): LibraryEntry => ({ ...words("check")(at, key, name, families), ...(procedure ? { procedure } : {}) });
