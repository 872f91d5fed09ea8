import type { PriceLine } from "@/lib/domain/pricing/facts";

/** A line without what it costs the shop: neither the figure nor the reason that names cost and markup. */
export function withoutCost(line: PriceLine): PriceLine & { readonly costMinor: null } {
  const because = line.because.map((reason) =>
    reason.from.startsWith("markup band") ? { fact: reason.effect ?? line.name, from: "price book" } : reason,
  );
  return { ...line, because, costMinor: null };
}
