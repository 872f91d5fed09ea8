import type { Reason } from "../reason";
import { within } from "../refusal";
import type { Known, NeedleShape } from "./targetTypes";

/** Collects the assumptions that stand in for missing facts, and how much they widen the uncertainty. */
export class StandIns {
  readonly assumptions: Reason[] = [];
  private square = 0;

  /** The fact's value, or the stand-in: noted, with the fractional sigma it adds per unit of relative change. */
  choice<T>(fact: Known<T> | undefined, name: string, stand: () => T, sigma: number, shown?: string): T {
    if (fact !== undefined && fact.how !== "assumed") return fact.value;
    const value = fact?.value ?? stand();
    this.square += sigma * sigma;
    this.note(`${name}: ${shown ?? value}`);
    return value;
  }

  /** The same for a number, which must lie in [low, high] whoever gave it. Throws OutOfRange. */
  number(
    fact: Known<number> | undefined,
    name: string,
    stand: () => number,
    sigma: number,
    limits: readonly [low: number, high: number, unit: string],
  ): number {
    const [low, high, unit] = limits;
    const assumed = fact === undefined ? stand() : fact.value;
    const shown = `${Math.round(assumed * 100) / 100}${unit && ` ${unit}`}`;
    return within(
      name,
      this.choice(fact, name, () => assumed, sigma, shown),
      low,
      high,
      unit,
    );
  }

  note(fact: string): void {
    this.assumptions.push({ fact, from: "assumed (judgement)", effect: "wider band" });
  }

  get widen(): number {
    return Math.sqrt(this.square);
  }
}

/** A stand-in kept inside its own range. */
export const between = (low: number, value: number, high: number) => Math.min(high, Math.max(low, value));

/** A needle of usual proportions for a needle jet and a bore, both mm, with a groove for the clip that is fitted. Source: judgement. */
export function usualNeedle(needleJetMm: number, boreMm: number, clip = 3): NeedleShape {
  const k = needleJetMm / 2.6;
  const angle = (2 * Math.atan((0.375 * k) / (0.63 * boreMm)) * 180) / Math.PI;
  return {
    straightMm: 2.5 * k,
    straightLiftMm: 0.16 * boreMm,
    clipAt: 3,
    clipStepMm: 1,
    clips: Math.max(5, clip),
    tapers: [{ lengthMm: 1.2 * boreMm, includedAngleDeg: angle }],
  };
}
