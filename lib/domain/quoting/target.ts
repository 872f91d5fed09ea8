import { airOf } from "../air/conditions";
import type { Needs } from "../packages/needs";
import { Refusal } from "../refusal";
import { knownNeedle } from "../tuning/needleRecord";
import type { NeedleWork } from "../tuning/needleWork";
import { targetSettings } from "../tuning/targetSheet";
import type {
  CarburettorTarget,
  JetConvention,
  JetOnHand,
  NeedleChange,
  TargetSheet,
} from "../tuning/targetTypes";
import type { QuoteFacts } from "./facts";

/** The settings the chosen options lead to, or why none can be computed; null where the options change no setting. */
export interface Target {
  readonly sheet: TargetSheet | null;
  readonly trouble: { readonly message: string; readonly remedy: string } | null;
}

/**
 * The settings that the chosen work leads to, by the tuning library: in the quote's air, from the air that the fitted settings
 * were right for, with the jets of the drawers that the work takes from. What the library refuses is told as trouble.
 */
export function targetOf(facts: QuoteFacts, needs: Needs): Target {
  if (needs.changes.length === 0 && !needs.needle && !needs.leaves) return { sheet: null, trouble: null };
  try {
    const sheet = targetSettings({
      card: facts.card,
      carburettors: facts.carburettors,
      changes: needs.changes,
      needleChange: needs.needle && needleChange(facts, needs.needle),
      partChanges: needs.leaves,
      shims: facts.shims,
      now: airOf(facts.conditions, facts.terms),
      baseline: facts.baseline,
      jets: jetsOf(facts, needs),
      calibration: facts.calibration ?? undefined,
    });
    return { sheet, trouble: null };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { sheet: null, trouble: { message: cause.message, remedy: cause.remedy } };
  }
}

/** The needle's work, with the needle of stock that it fits where somebody measured that one. */
function needleChange(facts: QuoteFacts, work: NeedleWork): NeedleChange {
  const record = work.kind === "exchange" ? (facts.needles?.[work.code] ?? null) : null;
  const part = knownNeedle(record, facts.card);
  return part ? { work, part } : { work };
}

/** The drawers that the chosen work takes its jets from. */
function jetsOf(facts: QuoteFacts, needs: Needs): JetOnHand[] {
  const usual = facts.card.jetConvention?.value ?? "bore";
  return needs.parts.flatMap((need) =>
    need.kind !== "jet"
      ? []
      : facts.parts
          .filter((p) => p.kind === "jet" && p.family === need.family && p.sizeMilli !== null)
          .map((p) => ({
            setting: need.setting,
            convention:
              p.convention === "bore" || p.convention === "flow" ? (p.convention as JetConvention) : usual,
            size: (p.sizeMilli ?? 0) / 1000,
            free: Math.floor(p.freeMilli / 1000),
            orderable: p.orderable,
          })),
  );
}

/** The jet size a carburettor comes to: computed, as the size chosen in its own numbering; undefined where unknown. */
export function jetSize(
  target: CarburettorTarget | undefined,
  setting: "mainJet" | "pilotJet",
): number | undefined {
  const found = target?.settings.find((s) => s.key === setting);
  return found?.how === "computed" ? (target?.[setting]?.chosen.size ?? found.value) : found?.value;
}
