import type { PartNeed } from "../packages/recipe";
import type { TargetSheet } from "../tuning/targetTypes";
import type { QuoteFacts, QuotePartRow } from "./facts";
import type { Take } from "./fromStock";
import { type JetSetting, type QuotePart, unknownPart, type Wanted } from "./partsWanted";
import { jetSize } from "./target";

export type JetWanted = Wanted & { readonly need: Extract<PartNeed, { kind: "jet" }> };

export const JET_NAMES: Readonly<Record<JetSetting, string>> = { mainJet: "Main jet", pilotJet: "Pilot jet" };

/** The jets of a family: what the shop keeps in that drawer. */
export const drawerOf = (facts: QuoteFacts, family: string): QuotePartRow[] =>
  facts.parts.filter((p) => p.kind === "jet" && p.family === family);

/** What the settings come to on some carburettors: a size in the jets' own numbering, null where nobody knows it. */
interface Sized {
  readonly size: number | null;
  readonly carburettors: number[];
}

/**
 * The jets that a need comes to, one (or the need's share) for each carburettor: the one of the family at the size the settings
 * came to, none where that size is fitted already. What has no size yet, or a size the drawer does not know, is settled when it
 * is fitted.
 */
export function jetParts(
  facts: QuoteFacts,
  wanted: JetWanted,
  sheet: TargetSheet | null,
  take: Take,
): QuotePart[] {
  const { setting, family, quantityMilli } = wanted.need;
  const count = Math.max(1, facts.carburettors.length);
  const each = Math.max(1000, Math.ceil(quantityMilli / count / 1000) * 1000);
  const drawer = drawerOf(facts, family);
  return sizesOf(facts, sheet, setting).map(({ size, carburettors }): QuotePart => {
    const milli = carburettors.length * each;
    const row = size === null ? null : drawer.find((p) => p.sizeMilli === Math.round(size * 1000));
    if (row) return { ...take(wanted, row, milli), setting, size };
    const name = JET_NAMES[setting];
    return {
      ...unknownPart(wanted, size === null ? family : `${family} ${size}`, milli),
      name: size === null ? `${name}, size to be settled` : `${name} ${size}`,
      note: size === null ? "size settled when it is fitted" : "this size is not among the shop's parts yet",
      setting,
      size,
      unsettled: { family, carburettors },
    };
  });
}

function sizesOf(facts: QuoteFacts, sheet: TargetSheet | null, setting: JetSetting): Sized[] {
  const sized: Sized[] = [];
  for (const [at, found] of facts.carburettors.entries()) {
    const size = jetSize(sheet?.carburettors[at], setting) ?? null;
    if (size !== null && size === found.settings[setting]?.value) continue;
    const position = facts.positions[at] ?? at + 1;
    const same = sized.find((one) => one.size === size);
    if (same) same.carburettors.push(position);
    else sized.push({ size, carburettors: [position] });
  }
  // What nobody knows stands last.
  return sized.sort((a, b) => Number(a.size === null) - Number(b.size === null));
}
