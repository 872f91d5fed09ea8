/** From this share of an agreed amount on, whoever works on the job is told. Judgement. */
const NEAR_BP = 8_000;

export type LimitState = "inside" | "near" | "over";

/** Where what a job has come to stands against the amount agreed by word; both in minor units, with tax. */
export function limitState(spentMinor: number, upToMinor: number): LimitState {
  if (spentMinor > upToMinor) return "over";
  return spentMinor * 10_000 >= upToMinor * NEAR_BP ? "near" : "inside";
}
