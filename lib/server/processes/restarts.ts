/** A worker that served this long was well: what ended it is another matter than its start. */
const WELL_MS = 30_000;
/** Deaths of one worker soon after its start, one after the other, until it is given up where no other serves. */
const MOST_DEATHS = 5;
const PAUSES_MS = [0, 200, 500, 1_000, 2_000, 5_000, 15_000, 30_000];

export interface NextStart {
  /** Deaths soon after a start by now, one after the other. */
  readonly deaths: number;
  /** How long to wait before the next start. */
  readonly pauseMs: number;
  readonly hopeless: boolean;
}

/** What follows a worker's death: at once a new one, and the longer a pause the more often it has died soon after its start. */
export function nextStart(before: number, served: boolean, livedMs: number): NextStart {
  if (served && livedMs >= WELL_MS) return { deaths: 0, pauseMs: 0, hopeless: false };
  const deaths = before + 1;
  return {
    deaths,
    pauseMs: PAUSES_MS[deaths - 1] ?? (PAUSES_MS.at(-1) as number),
    hopeless: deaths >= MOST_DEATHS,
  };
}
