import type { Region } from "./targetTypes";

/** A one-sigma in natural-log units of richness, and where it comes from. */
export interface Spread {
  readonly sigma: number;
  readonly source: string;
}

const judged = (sigma: number, why: string): Spread => ({ sigma, source: `judgement: ${why}` });

/** How far the model itself is off for all bikes of a model card, before anything was learned. */
export const MODEL_SPREAD: Readonly<Record<Region, Spread>> = {
  pilot: judged(0.095, "idle mixture is set by ear and differs most between makes"),
  straight: judged(0.095, "clearance of needle and needle jet is a few hundredths of a millimetre"),
  taper: judged(0.074, "tapers are read off paper or measured at two places"),
  main: judged(0.04, "full load is what makers tune to"),
};

/** How far bikes of one model differ from each other, set alike: wear, floats, tolerance of jets. */
export const BIKE_SPREAD: Spread = judged(0.03, "two bikes of a model, set alike, differ by about 3 %");

/** An instrument's own bias, the same in all its logs, and what changes from one log to the next (exhaust leak, warmth). */
export const SENSOR_BIAS: Spread = judged(0.012, "wideband sensors agree to about 1.5 % in all");
export const SESSION_BIAS: Spread = judged(0.009, "wideband sensors agree to about 1.5 % in all");
/** Least noise of one opening within a log, however many samples it holds: an opening is never held twice alike. */
export const OPENING_NOISE: Spread = judged(0.012, "repeats of one opening in one log");
/** The share of one reading's stated sigma that is the instrument's bias. */
export const BIAS_IN_READING = Math.hypot(SENSOR_BIAS.sigma, SESSION_BIAS.sigma);

/** What people call right is off by this, the same for everyone, in each region: so rides without an instrument never add up to one. */
export const FEEL_BIAS: Spread = judged(0.04, "4 % from the target is not felt");
/** What one good ride without an instrument adds to that, as a whole and at each opening. */
export const FEEL_SESSION: Spread = judged(0.02, "riders and days differ");
export const FEEL_NOISE: Spread = judged(0.05, "a ride is good within about 5 %");
/** The rest of "the reference settings were accepted" beyond the bias of what is felt: 5 % in all. */
export const REFERENCE_NOISE: Spread = judged(0.03, "an accepted setup is within about 5 % of the target");

/** Share of a change computed by the model that is uncertain: a ride with other settings counts less by it. */
export const CHANGE_SHARE: Spread = judged(0.3, "the model's own changes hold to about 30 %");
