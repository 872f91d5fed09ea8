import type { HowKnown, SettingKey } from "./settings";
import type { FillingPoint } from "./volumetric";

export type { SettingKey } from "./settings";

/** A value and how it is known. */
export interface Known<T> {
  readonly value: T;
  readonly how: HowKnown;
}

export type CarburettorType = "cv" | "mechanical";
/** "bore": hundredths of a millimetre. "flow": a rated flow number. Across the two, comparison is approximate. */
export type JetConvention = "bore" | "flow";
/** Where bowl and diaphragm are vented. "unknown": both cases are computed and shown. */
export type VentedTo = "atmosphere" | "airbox" | "unknown";
export type FuelName = "E0" | "E10" | "E85";

/** A needle: straight part, then its tapers, from the shoulder downwards; a taper of no angle is straight, of a negative one thickens. */
export interface NeedleShape {
  readonly straightMm: number;
  /** Slide lift at which the first taper reaches the needle jet, clip in `clipAt`. */
  readonly straightLiftMm: number;
  readonly clipAt: number;
  readonly clipStepMm: number;
  /** Clip grooves; 0: it has none and sits by shims. */
  readonly clips: number;
  /** True where nobody counted the grooves: no groove is recommended then. */
  readonly groovesAssumed?: boolean;
  /** How far the needle jet lies below the shoulder, slide shut; absent: nobody measured it. */
  readonly planeMm?: number;
  readonly tapers: readonly { readonly lengthMm: number; readonly includedAngleDeg: number }[];
}

/**
 * What the model card knows. Every fact may be missing: a stated assumption stands in and widens the uncertainty.
 * Units as named. `displacementCc` is the whole engine's; lengths are per carburettor.
 */
export interface ModelCardFacts {
  readonly displacementCc?: Known<number> | undefined;
  readonly cylinders?: Known<number> | undefined;
  readonly strokeMm?: Known<number> | undefined;
  readonly ratedRpm?: Known<number> | undefined;
  readonly carburettorType?: Known<CarburettorType> | undefined;
  readonly boreMm?: Known<number> | undefined;
  readonly diaphragmMm?: Known<number> | undefined;
  readonly slideMassG?: Known<number> | undefined;
  readonly springRateNPerM?: Known<number> | undefined;
  /** Free length and coils of the spring that `springRateNPerM` belongs to. */
  readonly springFreeMm?: Known<number> | undefined;
  readonly springCoils?: Known<number> | undefined;
  readonly springInstalledMm?: Known<number> | undefined;
  /** A second spring inside the first, where there is one. */
  readonly innerSpringRateNPerM?: Known<number> | undefined;
  readonly innerSpringFreeMm?: Known<number> | undefined;
  readonly needleJetMm?: Known<number> | undefined;
  readonly needle?: Known<NeedleShape> | undefined;
  readonly jetConvention?: Known<JetConvention> | undefined;
  readonly ventedTo?: Known<VentedTo> | undefined;
  readonly fuel?: Known<FuelName> | undefined;
  /** Filling over engine speed from a dyno pull of the bike itself; absent: the usual curve. */
  readonly filling?: Known<readonly FillingPoint[]> | undefined;
  /** Inside diameter of the delivered snorkel, and of the hole left when it is out. */
  readonly snorkelMm?: Known<number> | undefined;
  readonly snorkelHoleMm?: Known<number> | undefined;
  /** Inside diameter of the header pipe at the weld. */
  readonly headerMm?: Known<number> | undefined;
  /** Delivered mixture screw, turns out. */
  readonly deliveredScrewTurns?: Known<number> | undefined;
}

export type SettingValues = Partial<Record<SettingKey, number>>;
export type KnownSettings = Partial<Record<SettingKey, Known<number>>>;
