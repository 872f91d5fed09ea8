import type { PartNeed } from "../packages/recipe";
import { takenBy } from "../packages/taking";
import { dayWords } from "../schedule/days";
import { type Arrival, arrivalOf, type OnTheWay } from "../stock/arrival";
import type { TargetSheet } from "../tuning/targetTypes";

import type { PartRow, QuoteFacts } from "./facts";
import { jetSize } from "./target";

export interface QuotePart {
  /** Null where no part of the shop's stock is meant yet. */
  readonly partId: number | null;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  /** The operation that uses it; null where the option names no work. */
  readonly operation: string | null;
  readonly option: string;
  readonly setting: "mainJet" | "pilotJet" | null;
  readonly size: number | null;
  readonly freeMilli: number;
  readonly shortMilli: number;
  /** When what is short can be there; null where nothing is. */
  readonly arrival: Arrival | null;
  /** In words: "3 in the drawer", "not in stock, on order, due 4 Dec 2026". */
  readonly note: string;
  readonly costE4: number | null;
  readonly priceE4: number | null;
}

interface Wanted {
  readonly need: PartNeed;
  readonly option: string;
  readonly operation: string | null;
}

/** The parts of some chosen options: each under the operation that takes it (null: whichever step the person takes it at), an operation's own parts once. */
function wantedOf(facts: QuoteFacts, chosen: readonly string[]): Wanted[] {
  const options = facts.recipe.options.filter((o) => chosen.includes(o.key));
  const seen = new Set<string>();
  return options.flatMap((option) => [
    ...option.parts.map((need) => ({
      need,
      option: option.key,
      operation: takenBy(facts.recipe, option, need),
    })),
    ...option.operations.flatMap((key) => {
      if (seen.has(key)) return [];
      seen.add(key);
      const operation = facts.recipe.operations.find((o) => o.key === key);
      return (operation?.parts ?? []).map((need) => ({ need, option: option.key, operation: key }));
    }),
  ]);
}

/**
 * What the chosen options take out of stock. A jet is the one of its family at the size the settings came to, one for
 * each carburettor; where no size is known yet the dearest of the family stands in for the price.
 */
export function partsOf(
  facts: QuoteFacts,
  chosen: readonly string[],
  sheet: TargetSheet | null,
): QuotePart[] {
  const left = new Map(facts.parts.map((p) => [p.id, { free: p.freeMilli, coming: p.coming }]));
  const take: Take = (row, quantityMilli) => {
    const { free, coming } = left.get(row.id) ?? { free: 0, coming: [] };
    const shortMilli = Math.max(0, quantityMilli - free);
    left.set(row.id, { free: Math.max(0, free - quantityMilli), coming: without(coming, shortMilli) });
    const arrival = shortMilli > 0 ? arrivalOf(shortMilli, coming, row.leadDays, facts.today) : null;
    return stockNote(row, shortMilli, arrival, facts.terms.locale);
  };
  return wantedOf(facts, chosen).flatMap((wanted): QuotePart[] => {
    const { need } = wanted;
    if (need.kind === "jet") return jetParts(facts, { ...wanted, need }, sheet, take);
    const row = facts.parts.find((p) => p.code === need.code);
    if (!row) return [unknownPart(wanted, need.code, need.quantityMilli)];
    return [stockPart(wanted, row, need.quantityMilli, take)];
  });
}

type Take = (row: PartRow, quantityMilli: number) => Pick<QuotePart, "shortMilli" | "arrival" | "note">;

/** What is still on its way after so much of it was counted on. */
function without(coming: readonly OnTheWay[], milli: number): OnTheWay[] {
  let left = milli;
  return coming.flatMap((line) => {
    const taken = Math.min(left, line.openMilli);
    left -= taken;
    return taken < line.openMilli ? [{ ...line, openMilli: line.openMilli - taken }] : [];
  });
}

type JetWanted = Wanted & { readonly need: Extract<PartNeed, { kind: "jet" }> };

function jetParts(facts: QuoteFacts, wanted: JetWanted, sheet: TargetSheet | null, take: Take): QuotePart[] {
  const { setting, family, quantityMilli } = wanted.need;
  const carburettors = Math.max(1, facts.carburettors.length);
  const each = Math.max(1000, Math.ceil(quantityMilli / carburettors / 1000) * 1000);
  const bySize = new Map<number, number>();
  let unknown = 0;
  for (const [at, found] of facts.carburettors.entries()) {
    const size = jetSize(sheet?.carburettors[at], setting);
    if (size === undefined) unknown += each;
    else if (size !== found.settings[setting]?.value) bySize.set(size, (bySize.get(size) ?? 0) + each);
  }
  const drawer = facts.parts.filter((p) => p.kind === "jet" && p.family === family);
  const jets = [...bySize].map(([size, milli]) => {
    const row = drawer.find((p) => p.sizeMilli === Math.round(size * 1000));
    if (!row) return { ...unknownPart(wanted, `${family} ${size}`, milli), setting, size };
    return { ...stockPart(wanted, row, milli, take), setting, size };
  });
  if (unknown === 0) return jets;
  const dearest = [...drawer].sort((a, b) => (b.priceE4 ?? b.costE4 ?? 0) - (a.priceE4 ?? a.costE4 ?? 0))[0];
  return [
    ...jets,
    {
      ...unknownPart(wanted, family, unknown),
      name: setting === "mainJet" ? "Main jet, size to be settled" : "Pilot jet, size to be settled",
      note: "size settled when the bike is here and its jets are read",
      setting,
      costE4: dearest?.costE4 ?? null,
      priceE4: dearest?.priceE4 ?? null,
    },
  ];
}

function stockPart(wanted: Wanted, row: PartRow, quantityMilli: number, take: Take): QuotePart {
  return {
    partId: row.id,
    code: row.code,
    name: row.name,
    unit: row.unit,
    quantityMilli,
    operation: wanted.operation,
    option: wanted.option,
    setting: null,
    size: null,
    freeMilli: row.freeMilli,
    ...take(row, quantityMilli),
    costE4: row.costE4,
    priceE4: row.priceE4,
  };
}

function stockNote(row: PartRow, shortMilli: number, arrival: Arrival | null, locale: string) {
  const where = row.kind === "jet" ? "in the drawer" : "in stock";
  const amount = (milli: number) => `${milli / 1000}${row.unit === "each" ? "" : ` ${row.unit}`}`;
  if (!arrival) return { shortMilli, arrival, note: `${amount(row.freeMilli)} ${where}` };
  const short = row.freeMilli > 0 ? `only ${amount(row.freeMilli)} ${where}` : "not in stock";
  return { shortMilli, arrival, note: `${short}, ${comingWords(row, arrival, locale)}` };
}

function comingWords({ leadDays, coming }: PartRow, { by, on, late }: Arrival, locale: string): string {
  if (by === "order" && on !== null) return `on order, due ${dayWords(on, locale)}`;
  if (by === "order")
    return late === null
      ? "on order, no day known"
      : `on order, was due ${dayWords(late, locale)} and is not here`;
  const short = coming.length > 0 ? "on order but not enough, " : "";
  if (leadDays === null) return `${short}to be ordered`;
  const days = `${short}${leadDays} ${leadDays === 1 ? "day" : "days"} to come`;
  return on === null ? days : `${days}, ${dayWords(on, locale)} if ordered today`;
}

function unknownPart(wanted: Wanted, code: string, quantityMilli: number): QuotePart {
  return {
    partId: null,
    code,
    name: code,
    unit: "each",
    quantityMilli,
    operation: wanted.operation,
    option: wanted.option,
    setting: null,
    size: null,
    freeMilli: 0,
    shortMilli: quantityMilli,
    arrival: { by: "unknown", on: null, late: null },
    note: "not among the shop's parts yet",
    costE4: null,
    priceE4: null,
  };
}
