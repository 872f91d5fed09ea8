/**
 * Minutes from one try of a mail to the next, growing. Together above four days, after which RFC 5321 (4.5.4.1, "at least 4-5
 * days") lets a sender give up; sooner than its 30 minutes at first, since the server asked is the shop's own.
 */
const WAITS_MIN = [1, 5, 15, 60, 180, 360, 720, 1440, 1440, 1440, 1440] as const;

/** A mail is taken at most so often, also by senders that are stopped before they can tell how it went. */
export const MOST_TRIES = WAITS_MIN.length + 1;

/**
 * When a mail that did not go is tried again.
 * @param tries how often it was tried so far, at least 1
 * @param now the moment of the last try
 * @returns the moment of the next one; null when it is given up
 */
export function nextTry(tries: number, now: Date): Date | null {
  const minutes = WAITS_MIN[Math.max(0, tries - 1)];
  return minutes === undefined ? null : new Date(now.getTime() + minutes * 60_000);
}
