import { Refusal, within } from "../refusal";

/** Volumetric efficiency at its best. Source: judgement; it cancels in most of what is relative. */
export const VOLUMETRIC = 0.85;
/** Where it is best, as a share of rated speed, and how fast it falls off on either side. Source: judgement. */
const BEST_AT = 0.8;
const FALL = 0.5;

/** Share of the best filling at an engine speed, as a share of rated speed; both 0 to about 1.2. */
export interface FillingPoint {
  readonly speed: number;
  readonly filling: number;
}

/** Filling of a usual engine: a parabola around 80 % of rated speed, never under half. Source: judgement. */
export function usualFilling(speed: number): number {
  const s = within("engine speed over rated speed", speed, 0, 2);
  return Math.max(0.5, 1 - FALL * (s - BEST_AT) ** 2);
}

/**
 * The bike's own filling from a dyno pull: torque follows it, so torque over its best is its shape. At least five points over
 * at least half of the rated speed. Throws Refusal for fewer, OutOfRange for torque that is not positive. Source: torque at an
 * even mixture and spark goes as trapped air (judgement).
 */
export function fillingFrom(
  rpm: readonly number[],
  torqueNm: readonly number[],
  ratedRpm: number,
): readonly FillingPoint[] {
  within("rated speed", ratedRpm, 1000, 20_000, "rpm");
  const points = rpm
    .map((n, i) => ({ speed: n / ratedRpm, filling: torqueNm[i] ?? Number.NaN }))
    .sort((a, b) => a.speed - b.speed);
  const [first, last] = [points[0], points.at(-1)];
  if (points.length < 5 || !first || !last || last.speed - first.speed < 0.5)
    throw new Refusal(
      "The pull is too short to read the engine's filling from.",
      "Pull over at least half of the rated speed, with five readings or more.",
    );
  const best = Math.max(...points.map((p) => within("torque", p.filling, 0.1, 2000, "Nm")));
  return points.map((p) => ({ speed: p.speed, filling: p.filling / best }));
}

/** Filling at a speed: the bike's own, straight between its points and level beyond them; the usual one where there is none. */
export function fillingAt(speed: number, own: readonly FillingPoint[] | undefined): number {
  const first = own?.[0];
  if (!own || !first) return usualFilling(speed);
  let low = first;
  for (const high of own) {
    if (high.speed >= speed) {
      const width = high.speed - low.speed;
      const share = width > 0 ? Math.max(0, (speed - low.speed) / width) : 0;
      return low.filling + share * (high.filling - low.filling);
    }
    low = high;
  }
  return low.filling;
}
