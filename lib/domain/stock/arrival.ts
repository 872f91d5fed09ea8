import { dayAfter } from "../schedule/localTime";

/** An open line on its way: thousandths of the part's unit, the day it is due (null while unknown), the job it is for (null: the shelf). */
export interface OnTheWay {
  readonly openMilli: number;
  readonly dueOn: string | null;
  readonly jobId: number | null;
}

/** What a job wants of a part and does not hold. */
export interface Waiting {
  readonly jobId: number;
  readonly shortMilli: number;
}

/**
 * What of the shelf's lines nobody waits for yet, the line due first standing first. A job's own lines serve it before the
 * shelf's do; what it is then still short of comes off the shelf's lines in the order in which they are due.
 */
export function unclaimed(lines: readonly OnTheWay[], waiting: readonly Waiting[]): OnTheWay[] {
  const own = (jobId: number) =>
    lines.filter((l) => l.jobId === jobId).reduce((sum, l) => sum + l.openMilli, 0);
  const short = Map.groupBy(waiting, (w) => w.jobId);
  let claimed = [...short].reduce(
    (sum, [jobId, all]) => sum + Math.max(0, all.reduce((of, w) => of + w.shortMilli, 0) - own(jobId)),
    0,
  );
  return lines
    .filter((l) => l.jobId === null)
    .sort((a, b) => (a.dueOn ?? "9999").localeCompare(b.dueOn ?? "9999"))
    .flatMap((line) => {
      const taken = Math.min(claimed, line.openMilli);
      claimed -= taken;
      return taken < line.openMilli ? [{ ...line, openMilli: line.openMilli - taken }] : [];
    });
}

/** When what is missing can be there: from an order, from the supplier's lead time, or nobody knows. Days are "2026-11-25". */
export interface Arrival {
  readonly by: "order" | "lead time" | "unknown";
  /** The day it can be there; null where nobody knows. */
  readonly on: string | null;
  /** The day a line was due that has passed without it; null otherwise. */
  readonly late: string | null;
}

/**
 * When `shortMilli` of a part can be there: by the last of the lines that are needed for it, else by its lead time counted from
 * `today`, a calendar day (null: as of no day). A needed line without a day, or behind its day, comes nobody knows when.
 * Common practice.
 */
export function arrivalOf(
  shortMilli: number,
  coming: readonly OnTheWay[],
  leadDays: number | null,
  today: string | null,
): Arrival {
  let left = shortMilli;
  const needed = coming.filter((line) => {
    const before = left;
    left -= line.openMilli;
    return before > 0;
  });
  if (needed.length === 0 || left > 0)
    return leadDays === null
      ? { by: "unknown", on: null, late: null }
      : { by: "lead time", on: today && dayAfter(today, leadDays), late: null };
  const late = needed.find(({ dueOn }) => dueOn !== null && today !== null && dueOn < today)?.dueOn ?? null;
  const days = needed.map((line) => line.dueOn);
  if (late !== null || days.includes(null)) return { by: "order", on: null, late };
  return { by: "order", on: days.reduce((last, day) => ((day ?? "") > (last ?? "") ? day : last)), late };
}
