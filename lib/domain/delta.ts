/** Plain data, as JSON has it. */
export type Plain = null | string | number | boolean | readonly Plain[] | { readonly [name: string]: Plain };

/**
 * What turns one plain value into another. `to`: this stands in its place. `in`: an object of which these fields changed, and
 * `out` are gone. `rows`: a list, row by row: a number is the row at that place before, unchanged; a pair is that row with
 * what changed in it; `to` is a new row.
 */
export type Delta =
  | { readonly to: Plain }
  | { readonly in: { readonly [name: string]: Delta }; readonly out?: readonly string[] }
  | { readonly rows: readonly (number | readonly [at: number, change: Delta] | { readonly to: Plain })[] };

type Fields = { readonly [name: string]: Plain };

const isList = (value: Plain): value is readonly Plain[] => Array.isArray(value);
const isFields = (value: Plain): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const has = (fields: object, name: string) => Object.hasOwn(fields, name);

/** Whether two plain values say the same; the order of an object's fields says nothing. */
function same(a: Plain, b: Plain): boolean {
  if (isList(a)) return isList(b) && a.length === b.length && a.every((one, at) => same(one, b[at] as Plain));
  if (!isFields(a)) return a === b;
  if (!isFields(b)) return false;
  const names = Object.keys(a);
  return (
    names.length === Object.keys(b).length &&
    names.every((name) => has(b, name) && same(a[name] as Plain, b[name] as Plain))
  );
}

/**
 * What changed from one plain value to another, so that `withDelta(before, deltaOf(before, after))` is `after`. Rows of a list
 * are the same where all of them is, else where their field `key` is.
 */
export function deltaOf(before: Plain, after: Plain): Delta {
  if (isList(before) && isList(after)) return { rows: rowsOf(before, after) };
  if (!isFields(before) || !isFields(after)) return { to: after };
  const changed = Object.entries(after).flatMap(([name, value]): [string, Delta][] => {
    if (!has(before, name)) return [[name, { to: value }]];
    const was = before[name] as Plain;
    return same(was, value) ? [] : [[name, deltaOf(was, value)]];
  });
  const out = Object.keys(before).filter((name) => !has(after, name));
  return { in: Object.fromEntries(changed), ...(out.length > 0 ? { out } : {}) };
}

const keyOf = (row: Plain): Plain | undefined => (isFields(row) && has(row, "key") ? row.key : undefined);

function rowsOf(before: readonly Plain[], after: readonly Plain[]) {
  return after.map((row, at): number | readonly [number, Delta] | { readonly to: Plain } => {
    // Most rows keep their place.
    if (at < before.length && same(before[at] as Plain, row)) return at;
    const unchanged = before.findIndex((was) => same(was, row));
    if (unchanged >= 0) return unchanged;
    const key = keyOf(row);
    const mine = key === undefined ? -1 : before.findIndex((was) => keyOf(was) === key);
    return mine < 0 ? { to: row } : [mine, deltaOf(before[mine] as Plain, row)];
  });
}

/** The value that a delta makes of the one it was taken from. Throws where it was taken from another. */
export function withDelta(before: Plain, delta: Delta): Plain {
  if ("to" in delta) return delta.to;
  if ("rows" in delta) {
    if (!isList(before)) throw new TypeError("A change of rows belongs to a list.");
    const rowAt = (at: number): Plain => {
      if (at >= before.length) throw new RangeError("A change names a row that is not there.");
      return before[at] as Plain;
    };
    return delta.rows.map((row) =>
      typeof row === "number" ? rowAt(row) : isPair(row) ? withDelta(rowAt(row[0]), row[1]) : row.to,
    );
  }
  if (!isFields(before)) throw new TypeError("A change of fields belongs to an object.");
  const kept = Object.entries(before).filter(([name]) => !delta.out?.includes(name));
  const changed = Object.entries(delta.in).map(([name, change]) => [
    name,
    has(before, name) ? withDelta(before[name] as Plain, change) : "to" in change ? change.to : null,
  ]);
  return Object.fromEntries([...kept, ...changed]);
}

const isPair = (row: readonly [number, Delta] | { readonly to: Plain }): row is readonly [number, Delta] =>
  Array.isArray(row);
