import type { DescribedPart } from "@/lib/domain/tuning/describedParts";
import { knownNeedle } from "@/lib/domain/tuning/needleRecord";
import { type SettingKey, settingDef } from "@/lib/domain/tuning/settings";
import type { FoundCarburettor, Known, ModelCardFacts } from "@/lib/domain/tuning/targetTypes";
import { deliveredSettings, howKnown, type ModelCardRow } from "./delivered";
import type { KeptNeedle } from "./needles";

interface SheetValue {
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
  readonly how: string;
}

export interface WhatIsFitted {
  readonly facts: ModelCardRow;
  readonly card: ModelCardFacts;
  readonly values: readonly SheetValue[];
  readonly needles?: ReadonlyMap<number, KeptNeedle>;
  readonly parts?: ReadonlyMap<number, readonly DescribedPart[]>;
}

/** What is fitted in a carburettor: the newest sheet's values and needle, and the delivered ones where nothing is said. */
export function foundCarburettor(
  { position, label }: { readonly position: number; readonly label: string },
  { facts, card, values, needles, parts }: WhatIsFitted,
): FoundCarburettor {
  const delivered = deliveredSettings(facts);
  const settings: Partial<Record<SettingKey, Known<number>>> = { ...delivered };
  for (const v of values) {
    const def = v.carburettor === position ? settingDef(v.setting) : undefined;
    if (def) settings[def.key] = { value: v.value, how: howKnown(v.how) };
  }
  // Coils as delivered say nothing of a spring of another length: somebody cut or changed it, or it has sagged.
  const counted = values.some((v) => v.carburettor === position && v.setting === "springCoils");
  const asNew = delivered.springLengthMm?.value;
  if (!counted && asNew !== undefined && settings.springLengthMm?.value !== asNew)
    delete settings.springCoils;
  const record = needles?.get(position)?.record ?? null;
  const needle = knownNeedle(record, card);
  // A needle that was looked at and has no grooves has no clip, whatever an older sheet says.
  const assumed = card.needle?.value.clips === 0 && settings.clipPosition?.how === "assumed";
  if (record?.grooves === 0 || (record?.grooves == null && assumed)) delete settings.clipPosition;
  const described = parts?.get(position);
  return {
    name: label || String(position),
    settings,
    ...(needle ? { needle } : {}),
    ...(described ? { parts: described } : {}),
  };
}
