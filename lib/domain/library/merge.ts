import type { Access, HoldPoint, Operation, Recheck } from "../packages/recipe";

/** One thing in which an entry reads otherwise now than when it was picked, as it stands in the package. */
export interface Difference {
  readonly what: string;
  /** What the package says now, and what it would say; blank: nothing. */
  readonly was: string;
  readonly now: string;
  /** False where the package was changed there by hand: then it keeps its own. */
  readonly taken: boolean;
}

export interface Merged<T> {
  readonly item: T;
  readonly differences: readonly Difference[];
}

type Item = Access | Operation;

const WORDS: Readonly<Record<string, string>> = {
  name: "Name",
  openAs: "Opening it reads",
  closeAs: "Closing it reads",
  fuelOpen: "Fuel system open",
  openMinutes: "Minutes to open",
  closeMinutes: "Minutes to close",
  instruction: "Instruction",
  minutes: "Minutes",
  makesSwarf: "Makes swarf",
  recheck: "Looked at again",
  closingChecks: "Checked on closing",
  cautions: "Cautions",
  tools: "Tools",
  holdPoints: "Hold points",
  makes: "Makes",
  inspects: "Inspects",
  needs: "Needs open",
  excludes: "Never open with",
  accesses: "Needs open",
  after: "Comes after",
};
const SINGLE = [
  "name",
  "openAs",
  "closeAs",
  "fuelOpen",
  "openMinutes",
  "closeMinutes",
  "instruction",
  "minutes",
  "makesSwarf",
  "recheck",
];
/** Lists of the package's own keys, shown by the names of what they mean. */
const LINKS = ["needs", "excludes", "accesses", "after"];
const LISTS = ["closingChecks", "cautions", "tools", "holdPoints", "makes", "inspects"];

const same = (a: unknown, b: unknown) => JSON.stringify(a ?? null) === JSON.stringify(b ?? null);

/**
 * An item of a package brought up from what it was picked as (`base`) to what the library says now, three ways: what the
 * library changed is taken where the package still says what it was picked as, and left where the package says something of its
 * own. Lists are brought up entry by entry; what needs what, and the order of work, by the package's own keys, which `nameOf` names.
 */
export function mergeItem<T extends Item>(
  own: T,
  base: T,
  now: T,
  nameOf: (key: string) => string = (key) => key,
): Merged<T> {
  const at = (item: T, key: string) => (item as unknown as Record<string, unknown>)[key];
  const differences: Difference[] = [];
  const changed: Record<string, unknown> = {};
  for (const key of SINGLE) {
    const [mine, was, is] = [at(own, key), at(base, key), at(now, key)];
    if (same(was, is) || same(mine, is)) continue;
    const taken = same(mine, was);
    differences.push({ what: WORDS[key] ?? key, was: said(mine), now: said(is), taken });
    if (taken) changed[key] = is;
  }
  for (const key of [...LISTS, ...LINKS]) {
    const list = (item: T) => (at(item, key) ?? []) as readonly unknown[];
    const merged = mergeList(list(own), list(base), list(now));
    if (merged.gone.length + merged.come.length === 0) continue;
    const words = (entries: readonly unknown[]) =>
      entries.map((entry) => (LINKS.includes(key) ? nameOf(String(entry)) : said(entry))).join("; ");
    differences.push({
      what: WORDS[key] ?? key,
      was: words(merged.gone),
      now: words(merged.come),
      taken: true,
    });
    if (merged.list.length > 0 || at(own, key) !== undefined) changed[key] = merged.list;
  }
  const item = { ...own, ...changed } as Record<string, unknown>;
  for (const [key, value] of Object.entries(item)) if (value === undefined) delete item[key];
  return { item: item as unknown as T, differences };
}

/** What the library took out goes where it still stands; what it added comes where it is missing. */
function mergeList(own: readonly unknown[], base: readonly unknown[], now: readonly unknown[]) {
  const has = (list: readonly unknown[], entry: unknown) => list.some((one) => same(one, entry));
  const gone = own.filter((entry) => has(base, entry) && !has(now, entry));
  const come = now.filter((entry) => !has(base, entry) && !has(own, entry));
  return { gone, come, list: [...own.filter((entry) => !gone.includes(entry)), ...come] };
}

function said(value: unknown): string {
  if (value === undefined || value === null || value === "") return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value !== "object") return String(value);
  if ("what" in value) {
    const { what, km, days } = value as Recheck;
    return `${what}, after ${km} km or ${days} days`;
  }
  const { name, low, high, unit } = value as HoldPoint;
  const limits = [low, high].filter((limit) => limit !== undefined);
  return limits.length === 0 ? name : `${name} ${limits.join(" to ")}${unit ? ` ${unit}` : ""}`;
}
