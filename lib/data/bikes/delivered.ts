import type { ModelFacts } from "@/lib/domain/packages/facts";
import type { KeptModelCard } from "@/lib/domain/tuning/modelCardFacts";
import { type HowKnown, SETTINGS, type SettingKey } from "@/lib/domain/tuning/settings";
import type { Known, KnownSettings } from "@/lib/domain/tuning/targetTypes";

export type ModelCardRow = KeptModelCard & { readonly carburettors: number };

const HOWS: readonly HowKnown[] = ["measured", "read", "computed", "assumed"];

/** How a stored value is known; anything else counts as assumed. */
export function howKnown(how: string): HowKnown {
  return HOWS.find((h) => h === how) ?? "assumed";
}

/** What "only when" rules may ask of a bike: the card's own columns and each of its facts by key. */
export function modelFactsOf(card: ModelCardRow): ModelFacts {
  return {
    ...Object.fromEntries(card.facts.map((f) => [f.key, f.value ?? f.text])),
    displacementCc: card.displacementCc,
    cylinders: card.cylinders,
    carburettors: card.carburettors,
    carburettorType: card.carburettorType,
  };
}

/** Settings as delivered, off the card (deliveredMainJet, deliveredPilotJet...): what stands in where no sheet says. */
export function deliveredSettings(card: {
  readonly facts: readonly { readonly key: string; readonly value: number | null }[];
}): KnownSettings {
  const found: Partial<Record<SettingKey, Known<number>>> = {};
  for (const { key } of SETTINGS) {
    const named = `delivered${key.charAt(0).toUpperCase()}${key.slice(1)}`;
    const fact = card.facts.find(
      (f) => f.key === named || (key === "mixtureScrewTurns" && f.key === "deliveredScrewTurns"),
    );
    if (fact && fact.value !== null) found[key] = { value: fact.value, how: "assumed" };
  }
  return found;
}
