import type { Access, HoldPoint, Operation, Recheck } from "../packages/recipe";
import type { FamilyKey, PlaceKey } from "./places";

/** What a starting figure or a rule of the trade rests on where nobody published it. */
export const COMMON_PRACTICE = "common practice, no source";

export const ENTRY_KINDS = ["access", "operation", "caution", "check"] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

/** A fastener that is tightened to a figure: the shop's own, in newton metres, with where it is from. No figure: a place for one. */
export interface Torque {
  readonly where: string;
  readonly newtonMetres?: number;
  readonly source: string;
}

interface Head {
  /** How packages and files know it; kept for good. */
  readonly key: string;
  /** An access's or an operation's name; the words themselves of a caution or a check. */
  readonly name: string;
  readonly place: PlaceKey;
  /** Families it is for; none: all of them. */
  readonly families: readonly FamilyKey[];
  /** What its figures rest on. */
  readonly source: string;
}

interface Fastened {
  readonly torques: readonly Torque[];
  /** Screws and nuts that get threadlocker. */
  readonly threadlocker: readonly string[];
  readonly recheck?: Recheck;
}

/** What is opened for work and closed again; `needs` and `excludes` are keys of other entries. */
export type AccessEntry = Head & Fastened & { readonly kind: "access" } & Omit<Access, "key" | "name">;

/** A piece of work; `accesses` and `after` are keys of other entries. Its grade and its parts are the package's. */
export type OperationEntry = Head &
  Fastened & { readonly kind: "operation" } & Omit<Operation, "key" | "name" | "grade" | "parts">;

/** A caution or a check on closing, as it stands on the card. */
export type CautionEntry = Head & { readonly kind: "caution" };
export type CheckEntry = Head & {
  readonly kind: "check";
  /** Id of the measuring procedure that tells how. */
  readonly procedure?: string;
};

/** One entry of a shop's library. Minutes are whole minutes. */
export type LibraryEntry = AccessEntry | OperationEntry | CautionEntry | CheckEntry;

/** What is checked of an entry's fasteners: each torque that has a figure, each place for threadlocker. */
function fasteningChecks({ torques, threadlocker }: Fastened): string[] {
  return [
    ...torques.flatMap(({ where, newtonMetres, source }) =>
      newtonMetres === undefined ? [] : [`${where} at ${newtonMetres} N·m (${source})`],
    ),
    ...threadlocker.map((where) => `Threadlocker: ${where}`),
  ];
}

/** An access as a package has it, under the keys that `keyOf` gives; what it names there and `keyOf` does not know is left out. */
export function accessOf(
  entry: AccessEntry,
  key: string,
  keyOf: (entry: string) => string | undefined,
): Access {
  const { openAs, closeAs, fuelOpen, recheck } = entry;
  return {
    key,
    name: entry.name,
    ...(openAs ? { openAs } : {}),
    ...(closeAs ? { closeAs } : {}),
    ...(fuelOpen ? { fuelOpen } : {}),
    openMinutes: entry.openMinutes,
    closeMinutes: entry.closeMinutes,
    needs: known(entry.needs, keyOf),
    excludes: known(entry.excludes, keyOf),
    closingChecks: [...entry.closingChecks, ...fasteningChecks(entry)],
    cautions: entry.cautions,
    tools: entry.tools,
    ...(recheck ? { recheck } : {}),
  };
}

/** An operation as a package has it, of one labour grade. Its fasteners are signed for. */
export function operationOf(
  entry: OperationEntry,
  key: string,
  grade: string,
  keyOf: (entry: string) => string | undefined,
): Operation {
  const { makes, makesSwarf, recheck } = entry;
  const signed = fasteningChecks(entry).map((name): HoldPoint => ({ kind: "signature", name }));
  return {
    key,
    name: entry.name,
    instruction: entry.instruction,
    minutes: entry.minutes,
    grade,
    accesses: known(entry.accesses, keyOf),
    after: known(entry.after, keyOf),
    parts: [],
    holdPoints: [...entry.holdPoints, ...signed],
    ...(makes && makes.length > 0 ? { makes } : {}),
    ...(makesSwarf ? { makesSwarf } : {}),
    cautions: entry.cautions,
    tools: entry.tools,
    inspects: entry.inspects,
    ...(recheck ? { recheck } : {}),
  };
}

function known(keys: readonly string[], keyOf: (entry: string) => string | undefined): string[] {
  return keys.flatMap((key) => keyOf(key) ?? []);
}
