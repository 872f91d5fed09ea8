import type { OdometerRead } from "./odometerRate";

export const LIFE_KINDS = ["job", "sheet", "reading", "ride", "photo", "part"] as const;
export type LifeKind = (typeof LIFE_KINDS)[number];

/** Something that happened to a bike. `km` null where nobody read the odometer with it. */
export interface LifeEvent {
  readonly kind: LifeKind;
  readonly at: number;
  readonly km: number | null;
  readonly text: string;
  readonly jobId: number | null;
}

/** An event with its distance, read or between two readings; null outside all readings. */
export interface PlacedEvent extends LifeEvent {
  readonly placedKm: number | null;
  readonly estimated: boolean;
}

/**
 * Gives each event a distance: its own, else on the straight line between the readings before and after it. Outside the readings,
 * and between two of which the later is lower (another counter), there is none. Source: linear interpolation.
 */
export function placed(events: readonly LifeEvent[], readings: readonly OdometerRead[]): PlacedEvent[] {
  const sorted = [...readings].sort((a, b) => a.at - b.at);
  return [...events]
    .sort((a, b) => a.at - b.at)
    .map((event) => {
      if (event.km !== null) return { ...event, placedKm: event.km, estimated: false };
      const before = sorted.filter((one) => one.at <= event.at).at(-1);
      const after = sorted.find((one) => one.at >= event.at);
      if (!before || !after || after.km < before.km) return { ...event, placedKm: null, estimated: false };
      const share = after.at === before.at ? 0 : (event.at - before.at) / (after.at - before.at);
      return {
        ...event,
        placedKm: Math.round(before.km + share * (after.km - before.km)),
        estimated: share > 0 && share < 1,
      };
    });
}
