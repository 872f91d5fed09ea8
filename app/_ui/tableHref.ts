import type { TableQuery } from "./tableTypes";

/** The list's address with some parameters changed; undefined takes one away. */
export function tableHref(
  { path, query }: TableQuery,
  change: Readonly<Record<string, string | undefined>>,
): string {
  const params = new URLSearchParams();
  for (const [name, value] of Object.entries({ ...query, ...change })) if (value) params.set(name, value);
  const text = params.toString();
  return text ? `${path}?${text}` : path;
}

/** The next order of a column: up, then down, then the list's own. A new order starts at the first page. */
export function sortHref(at: TableQuery, key: string): string {
  const now = at.query.sort;
  const sort = now === key ? `-${key}` : now === `-${key}` ? undefined : key;
  return tableHref(at, { sort, after: undefined, before: undefined });
}
