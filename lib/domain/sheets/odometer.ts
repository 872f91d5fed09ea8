import { distanceUnit, shownDistance } from "../units/distance";

/** An odometer reading that went before. */
export interface OdometerBefore {
  readonly km: number;
  /** Epoch milliseconds when it was read; null where nobody wrote it down. */
  readonly at: number | null;
}

const DAY = 86_400_000;
/** A motorcycle that is ridden every day rarely does more than this in one (judgement). */
const KM_A_DAY = 800;
/** What is believed at once, however soon after the last reading (judgement). */
const ALWAYS_KM = 3_000;
/** What is believed where nobody knows when the last reading was taken (judgement). */
const UNDATED_KM = 60_000;

/**
 * What to ask about an odometer reading in kilometres, or null where it is believable: it is lower than the last one, or has
 * gone up by more than a motorcycle does in the time between. A question, no refusal: counters are exchanged, and misread.
 * Its figures are in the distance of the shop's unit system ("metric", "uk" or "us"), as the person typed them.
 */
export function odometerQuestion(
  reading: number,
  before: OdometerBefore | null,
  now: number,
  units = "metric",
): string | null {
  if (before === null) return null;
  const said = (km: number) =>
    `${shownDistance(km, units).toLocaleString("en").replaceAll(",", "\u202f")} ${distanceUnit(units)}`;
  if (reading < before.km) return `${said(reading)} is lower than the ${said(before.km)} read before.`;
  const gone = reading - before.km;
  const days = before.at === null ? null : Math.max(0, (now - before.at) / DAY);
  const most = days === null ? UNDATED_KM : ALWAYS_KM + days * KM_A_DAY;
  return gone > most ? `${said(reading)} is ${said(gone)} more than was read before.` : null;
}
