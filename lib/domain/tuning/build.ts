import type { FittedSpring } from "./fittedSpring";
import type { Build } from "./lesson";
import { comparedNeedles } from "./needlePoints";
import type { ModelCardFacts, NeedleShape, SettingKey, SettingValues } from "./targetTypes";

/** What opens or closes an engine's breathing or its slide; unrecorded means as delivered. */
const BREATHING: readonly SettingKey[] = [
  "airboxOpeningMm",
  "snorkelFitted",
  "headerWeldMm",
  "springLengthMm",
  "springCoils",
];
/** A delivered needle that is read again may be this far off by wear and by the instrument, and is the delivered one still, mm. Source: judgement. */
const WORN_MM = 0.025;
/** As delivered where no card says otherwise. Source: judgement. */
const USUAL: SettingValues = { airboxOpeningMm: 0, snorkelFitted: 1 };

/** What of a bike its maker may have built otherwise. */
export interface Built {
  readonly settings: SettingValues;
  readonly needle?: NeedleShape | undefined;
  readonly spring?: FittedSpring | undefined;
}

/**
 * Whether a bike is as its maker built it: same airbox, snorkel, header, spring and needle. Jets, clip and
 * screw do not count, since they are adjustments. Source: judgement (the model's errors follow the hardware).
 */
export function buildOf(
  { settings, needle, spring }: Built,
  delivered: SettingValues | undefined,
  card: ModelCardFacts,
): Build {
  const same = BREATHING.every((key) => {
    const was = delivered?.[key] ?? USUAL[key];
    return settings[key] === undefined || was === undefined || settings[key] === was;
  });
  const other =
    needle && card.needle && comparedNeedles(needle, card.needle.value, 40, WORN_MM) !== "the same";
  return same && !other && spring?.exchanged !== true ? "delivered" : "modified";
}
