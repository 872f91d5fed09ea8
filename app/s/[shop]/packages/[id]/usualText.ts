import type { Usual } from "@/lib/domain/labour/usual";

/** What something usually takes here, in a few words; undefined where no time was ever taken on it. */
export function usualText(usual: Usual | null | undefined): string | undefined {
  if (!usual) return undefined;
  const whole = (minutes: number) => String(Math.round(minutes));
  const jobs = `${usual.jobs} ${usual.jobs === 1 ? "job" : "jobs"}`;
  const half = usual.middleHalf;
  return half
    ? `Here usually ${whole(usual.median)} min: half of ${jobs} took ${whole(half.from)} to ${whole(half.to)}`
    : `Here ${whole(usual.median)} min on ${jobs}: too few to tell a spread`;
}
