import { Refusal, within } from "../refusal";
import type { NeedleShape } from "./cardTypes";
import { cornersOf, demandPlane, diameterBelow, type NeedlePoint, needleThroughPoints } from "./needlePoints";

/** What a package does to a needle. Distances are below the shoulder, all in mm. */
export type NeedleWork =
  | {
      /** Taken down by `byMm` in diameter between two places, run out at both ends and polished. */
      readonly kind: "reduce";
      readonly fromMm: number;
      readonly toMm: number;
      readonly byMm: number;
      /** Diameter of the ring gauge that tells when to stop; absent: none is used. */
      readonly gaugeMm?: number;
    }
  | {
      /** Brought to these diameters at these stations. */
      readonly kind: "stations";
      readonly stations: readonly NeedlePoint[];
      readonly gaugeMm?: number;
    }
  | {
      /** Exchanged for a needle of stock, by its code. */
      readonly kind: "exchange";
      readonly code: string;
    };

/** A step in a needle is run out over this length beside it, mm. Source: judgement. */
const RUN_OUT_MM = 0.5;
/** As much as may be taken off in one work, mm of diameter. Source: judgement. */
const MOST_OFF_MM = 0.4;
/** A station may be this much over the needle as found before metal would have to be added, mm. Source: judgement. */
const OVER_MM = 0.005;

/**
 * The needle that a reshape leaves. Refuses work on a needle whose place in its jet is not known, stations that would need metal
 * added, and more than 0.4 mm off; OutOfRange for impossible measures. Source: geometry.
 */
export function reshaped(needle: NeedleShape, work: Exclude<NeedleWork, { kind: "exchange" }>): NeedleShape {
  const plane = demandPlane(needle);
  return work.kind === "reduce" ? reduced(needle, plane, work) : atStations(needle, plane, work.stations);
}

function reduced(
  needle: NeedleShape,
  plane: number,
  { fromMm, toMm, byMm }: { readonly fromMm: number; readonly toMm: number; readonly byMm: number },
): NeedleShape {
  within("what is taken off the needle", byMm, 0.001, MOST_OFF_MM, "mm");
  if (!(toMm > fromMm))
    throw new Refusal(
      `The needle is to be taken down from ${fromMm} to ${toMm} mm below its shoulder, which is no length.`,
      "Enter the place nearer to the shoulder first.",
    );
  const share = (atMm: number) =>
    Math.max(0, Math.min(1, 1 + (atMm - fromMm) / RUN_OUT_MM, 1 + (toMm - atMm) / RUN_OUT_MM));
  const places = [
    ...cornersOf(needle).map((corner) => corner.atMm),
    fromMm - RUN_OUT_MM,
    fromMm,
    toMm,
    toMm + RUN_OUT_MM,
  ];
  const points = apart(places).map((atMm) => ({
    atMm,
    diameterMm: diameterBelow(needle, atMm) - byMm * share(atMm),
  }));
  return needleThroughPoints(points, plane, needle);
}

function atStations(needle: NeedleShape, plane: number, stations: readonly NeedlePoint[]): NeedleShape {
  for (const { atMm, diameterMm } of stations) {
    const now = diameterBelow(needle, atMm);
    if (diameterMm > now + OVER_MM)
      throw new Refusal(
        `The needle is ${now.toFixed(3)} mm at ${atMm} mm below its shoulder; the package wants ${diameterMm} mm there.`,
        "A needle gets no thicker: measure it again, or fit another.",
      );
    within("what is taken off the needle", now - diameterMm, -OVER_MM, MOST_OFF_MM, "mm");
  }
  return needleThroughPoints(stations, plane, needle);
}

/** Places in order, none twice: corners a hundredth of a millimetre apart are one. */
function apart(places: readonly number[]): number[] {
  const kept: number[] = [];
  for (const place of places.toSorted((a, b) => a - b))
    if (kept.length === 0 || place - (kept.at(-1) ?? 0) >= 0.06) kept.push(place);
  return kept;
}
