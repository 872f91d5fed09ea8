import type { OwingQueryInput } from "@/lib/schemas/chasing";

/** The aged list's address with what it is asked for. */
export function owingHref(slug: string, query: Partial<OwingQueryInput>): string {
  const asked = Object.entries(query).flatMap(([name, value]) =>
    value === undefined ? [] : [[name, String(value)]],
  );
  const search = new URLSearchParams(asked).toString();
  return `/s/${slug}/invoices/owing${search ? `?${search}` : ""}`;
}
