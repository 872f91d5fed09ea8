/** A difference between two clocks that is worth a word: less comes from the way between them. */
const WORTH_SAYING_MS = 2 * 60_000;
/** The oldest act taken over: the week that a device keeps it, and a day for the way. */
const OLDEST_MS = 8 * 86_400_000;

export interface ActClock {
  /** When it was done, by the device's clock, in milliseconds. */
  readonly at: number;
  /** When it was sent, by the same clock. */
  readonly sent: number;
  /** What that clock lacked against the server's when they last met before the act; null where they never did. */
  readonly offMs: number | null;
  /** When it arrived, by the server's clock. */
  readonly arrived: number;
}

export interface ActTime {
  /** When it was done, by the server's clock; null where that is more than eight days ago. */
  readonly at: number | null;
  /** What the device's clock lacks now, in milliseconds: less than 0 where it is ahead. */
  readonly offMs: number;
  /** `right`, `corrected` by what the clock lacks, or `doubtful`: the clock was set while the act waited, or the act lies ahead. */
  readonly clock: "right" | "corrected" | "doubtful";
}

/**
 * When an act was done, by the server's clock: as long before its arrival as the device says it was made before it was sent.
 * A clock that is wrong does no harm so, whatever it shows; one that was set in between is noticed by what it lacked before.
 * An act is never later than its arrival.
 */
export function actTime({ at, sent, offMs, arrived }: ActClock): ActTime {
  const off = arrived - sent;
  const done = Math.min(at + off, arrived);
  const set = at > sent || (offMs !== null && Math.abs(off - offMs) > WORTH_SAYING_MS);
  const clock = set ? "doubtful" : Math.abs(off) > WORTH_SAYING_MS ? "corrected" : "right";
  return { at: arrived - done > OLDEST_MS ? null : done, offMs: off, clock };
}

/** What to tell of a device's clock; null where it is right. */
export function clockWords({ clock, offMs }: Pick<ActTime, "clock" | "offMs">): string | null {
  if (clock === "right") return null;
  if (clock === "doubtful")
    return "This device's clock was set while acts waited on it: look at their times.";
  const minutes = Math.round(Math.abs(offMs) / 60_000);
  const said = minutes < 120 ? `${minutes} minutes` : `${Math.round(minutes / 60)} hours`;
  return `This device's clock is ${said} ${offMs < 0 ? "ahead" : "behind"}; the times of what was sent are corrected.`;
}
