import { gaugeStopMm } from "./needlePoints";
import { reshaped } from "./needleWork";
import type {
  FoundCarburettor,
  Known,
  NeedleChange,
  NeedleShape,
  NeedleTarget,
  Warning,
} from "./targetTypes";

export interface ChangedNeedle {
  /** The needle that is fitted afterwards; undefined where none is known. */
  readonly needle: Known<NeedleShape> | undefined;
  readonly target: NeedleTarget | null;
  readonly warnings: readonly Warning[];
}

/**
 * The needle that a package leaves. Where the needle or its place in the jet is not known the work cannot be computed: it is asked
 * for, and the needle counts as it is found. Throws Refusal for work that a needle cannot bear.
 */
export function changedNeedle(
  found: Known<NeedleShape> | undefined,
  change: NeedleChange | undefined,
): ChangedNeedle {
  const kept = (ask: string, remedy: string): ChangedNeedle => ({
    needle: found,
    target: null,
    warnings: [{ rule: "needle not known", message: ask, remedy, source: "model" }],
  });
  if (!change) return { needle: found, target: null, warnings: [] };
  const { work, part } = change;
  if (work.kind === "exchange") {
    if (!part)
      return kept(
        `Needle ${work.code} is to be fitted, and its shape is not known: its effect is not in the curve.`,
        "Measure it and keep the diameters with the part.",
      );
    return { needle: part, target: found ? targetOf(work, found.value, part.value) : null, warnings: [] };
  }
  if (!found)
    return kept(
      "The needle is to be reshaped, and it is not known: the effect is not in the curve.",
      "Measure the needle at five stations from the shoulder down and record it.",
    );
  if (found.value.planeMm === undefined)
    return kept(
      "The needle is to be reshaped, and how deep the needle jet lies below its shoulder is not known: the effect is not in the curve.",
      "Measure it with the slide shut, or the length of the straight part, and record it.",
    );
  const after = reshaped(found.value, work);
  return {
    needle: { value: after, how: "computed" },
    target: targetOf(work, found.value, after),
    warnings: [],
  };
}

function targetOf(work: NeedleTarget["work"], before: NeedleShape, after: NeedleShape): NeedleTarget {
  const gaugeMm = work.kind === "exchange" ? undefined : work.gaugeMm;
  const known = before.planeMm !== undefined && after.planeMm !== undefined;
  return {
    work,
    before,
    after,
    gauge:
      gaugeMm === undefined || !known
        ? null
        : { gaugeMm, beforeMm: gaugeStopMm(before, gaugeMm), afterMm: gaugeStopMm(after, gaugeMm) },
  };
}

/** A carburettor whose needle has no grooves has no clip: one that only the model card says falls away. */
export function clipLess(found: FoundCarburettor, needle: Known<NeedleShape> | undefined): FoundCarburettor {
  if (needle?.value.clips !== 0 || found.settings.clipPosition?.how !== "assumed") return found;
  const { clipPosition: _, ...settings } = found.settings;
  return { ...found, settings };
}
