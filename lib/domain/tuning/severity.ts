import type { Reason } from "../reason";
import { within } from "../refusal";

/** How hard a bike's use is on it, in the shop's words: intervals by distance are divided by the factor (common practice, no source). */
export interface Severity {
  readonly name: string;
  /** From 1 (as on the dry road) to 10. */
  readonly factor: number;
}

/** An interval in whole kilometres, with what shortened it. */
export interface Interval {
  readonly km: number;
  readonly because: readonly Reason[];
}

/** What shortens intervals, as one reason; none for the dry road. */
const severityReasons = (severity: Severity | null): readonly Reason[] =>
  severity === null || severity.factor === 1
    ? []
    : [
        {
          fact: `“${severity.name}”, which divides intervals by ${severity.factor}`,
          from: "the bike's use; common practice, no source",
        },
      ];

/** The same in a few words, for a diary: empty for the dry road. */
export const severityWords = (severity: Severity | null): string =>
  severity === null || severity.factor === 1 ? "" : `sooner for “${severity.name}”, ÷ ${severity.factor}`;

/**
 * An interval by distance as it holds for a bike's use: that of the dry road divided by the factor, rounded to whole kilometres, one at
 * least. `roadKm` is 1 to 200,000; throws OutOfRange for others and for a factor outside 1 to 10. The factors are the shop's own: common
 * practice, no source.
 */
export function intervalFor(roadKm: number, severity: Severity | null): Interval {
  const km = within("interval on the dry road", roadKm, 1, 200_000, "km");
  const factor = within("factor of the use", severity?.factor ?? 1, 1, 10);
  return { km: Math.max(1, Math.round(km / factor)), because: severityReasons(severity) };
}
