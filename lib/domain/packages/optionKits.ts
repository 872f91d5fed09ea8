import type { OptionKit, PartNeed } from "./recipe";

/** Kits to open: what the parts come to together, in thousandths of each part's unit, and at which price; null: at the parts' own. */
export interface KitToOpen {
  readonly code: string;
  readonly name: string;
  readonly priceMinor: number | null;
  readonly parts: readonly { readonly code: string; readonly quantityMilli: number }[];
}

/** Parts of an option or of a written work, with the kits whose set prices hold for some of them. */
export interface WithKits {
  readonly parts: readonly PartNeed[];
  readonly kits?: readonly OptionKit[];
}

/** So many of a kit. */
export const kitsOf = (kit: KitToOpen, count: number): KitToOpen => ({
  ...kit,
  priceMinor: kit.priceMinor === null ? null : kit.priceMinor * count,
  parts: kit.parts.map((part) => ({ ...part, quantityMilli: part.quantityMilli * count })),
});

/**
 * Parts and kits with one more kit opened into them, taken by an operation where one is named. A part that is there already from the
 * same place (the same kit, or no kit with a set price) is added to, and so is the price of a kit that is there.
 */
export function withKit({ parts, kits = [] }: WithKits, opened: KitToOpen, operation?: string): WithKits {
  const { code: kit, name, priceMinor } = opened;
  const from = priceMinor === null ? undefined : kit;
  const all = [...parts];
  for (const { code, quantityMilli } of opened.parts) {
    const at = all.findIndex((need) => need.kind === "part" && need.code === code && need.kit === from);
    const there = all[at];
    if (there) all[at] = { ...there, quantityMilli: there.quantityMilli + quantityMilli };
    else
      all.push({
        kind: "part",
        code,
        quantityMilli,
        ...(operation === undefined ? {} : { operation }),
        ...(from === undefined ? {} : { kit: from }),
      });
  }
  if (priceMinor === null) return { parts: all, ...(kits.length > 0 ? { kits } : {}) };
  const before = kits.find(({ code }) => code === kit)?.priceMinor ?? 0;
  const now = { code: kit, name, priceMinor: before + priceMinor };
  return { parts: all, kits: [...kits.filter(({ code }) => code !== kit), now] };
}

/**
 * Parts as they were written anew, with the kits that still have a part among them. A part that names a kit which is not there
 * any more is one at its own price.
 */
export function keptKits(parts: readonly PartNeed[], there: readonly OptionKit[]): WithKits {
  const kits = there.filter(({ code }) => parts.some((need) => need.kind === "part" && need.kit === code));
  const known = parts.map((need): PartNeed => {
    if (need.kind !== "part" || need.kit === undefined) return need;
    const { kit, ...own } = need;
    return kits.some(({ code }) => code === kit) ? need : own;
  });
  return { parts: known, ...(kits.length > 0 ? { kits } : {}) };
}
