import type { SettingValues } from "./cardTypes";
import type { Metering } from "./circuits";
import { grooveOf, needleRaiseMm } from "./needle";

/**
 * How far (mm) a needle is raised above where its shape was described: by its clip, and by what seat and shims below the shoulder
 * differ from the reference. What either does not know makes no difference: it is shown as cases (unknownCases.ts), never as 0.
 * A shim above the shoulder only takes up play. Source: geometry.
 */
export function raisedMm(fitted: Metering, from: SettingValues): number {
  const { settings: s, needle } = fitted;
  const clip = s.clipPosition === undefined ? needle.clipAt : grooveOf(needle, s.clipPosition);
  const change =
    apart(s.needleSeatMm, from.needleSeatMm) + apart(s.needleShimBelowMm, from.needleShimBelowMm);
  return needleRaiseMm(needle, clip, change + (fitted.raisedMm ?? 0));
}

const apart = (now: number | undefined, was: number | undefined): number =>
  now === undefined || was === undefined ? 0 : now - was;
