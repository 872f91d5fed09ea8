/** The tax summary's address, or that of the documents behind a cell, with what it is asked for. */
export function taxHref(
  slug: string,
  query: Readonly<Record<string, string | number | null | undefined>>,
  room = "",
): string {
  const asked = Object.entries(query).flatMap(([name, value]) =>
    value === undefined || value === null ? [] : [[name, String(value)]],
  );
  return `/s/${slug}/books/tax${room}?${new URLSearchParams(asked)}`;
}
