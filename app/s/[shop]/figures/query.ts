import type { FiguresAsked } from "@/lib/schemas/figures";

/** What is asked for as it stands in an address. */
export function figuresQuery(
  asked: Partial<Record<keyof FiguresAsked | "package", string | number | undefined>>,
): string {
  const pairs = Object.entries(asked).flatMap(([name, value]) =>
    value === undefined || value === 0 ? [] : [[name, String(value)]],
  );
  const search = new URLSearchParams(pairs).toString();
  return search === "" ? "" : `?${search}`;
}
