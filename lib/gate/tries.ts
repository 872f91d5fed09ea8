import type { DirectoryTx } from "@/lib/db/directory";
import { directory } from "@/lib/db/directory";
import { failedAgain, type Tries, type TryRule, waitNow } from "@/lib/domain/access/tries";
import { Refusal } from "@/lib/domain/refusal";
import { limitKey, makeRoomIn, tooOften } from "./limit";

/** A count that a failed try adds to. */
export interface Counted {
  readonly what: string;
  readonly rule: TryRule;
  /** A success forgets the whole count, not only its own try. */
  readonly forgiven?: boolean;
  /** The network address that pays for the row, where strangers choose `what`. */
  readonly madeFrom?: string;
}

interface Row {
  readonly key: string;
  readonly lastAt: Date;
  readonly count: number;
}

const triesOf = (row: Row | undefined): Tries | null =>
  row ? { failures: row.count, lastAtMs: row.lastAt.getTime() } : null;

/**
 * Runs something that people may get wrong, such as a password. Where one of the counts asks for a wait it is refused before
 * anything else is looked at. Only failures count: each try is counted as it begins, so that a thousand at once are not all
 * let through, and taken back once it succeeds or breaks.
 */
export async function tried<T>(counted: readonly Counted[], now: Date, run: () => Promise<T>): Promise<T> {
  const keyed = counted.map((one) => ({ ...one, key: limitKey(one.what) }));
  const keys = keyed.map((one) => one.key);
  const waits = (rows: readonly Row[]) =>
    keyed.map(({ key, rule }) => {
      const tries = triesOf(rows.find((row) => row.key === key));
      return tries ? waitNow(tries, now.getTime(), rule) : 0;
    });
  const seen = await directory().read.attempt.findMany({
    where: { key: { in: keys } },
    orderBy: { key: "asc" },
  });
  // A last failure ahead of the clock, which was set back, is put to now below, so that the wait ends.
  const ahead = seen.some((row) => row.lastAt > now);
  const wait = Math.max(0, ...waits(seen));
  if (wait > 0 && !ahead) throw tooOften(wait);
  const begun = await directory().write(async (tx) => {
    await tx.attempt.updateMany({ where: { key: { in: keys }, lastAt: { gt: now } }, data: { lastAt: now } });
    const rows = await tx.attempt.findMany({ where: { key: { in: keys } }, orderBy: { key: "asc" } });
    const held = Math.max(0, ...waits(rows));
    if (held > 0) return { held, before: rows };
    for (const one of keyed)
      await countIn(
        tx,
        one,
        rows.find((row) => row.key === one.key),
        now,
      );
    return { held: 0, before: rows };
  });
  if (begun.held > 0) throw tooOften(begun.held);
  try {
    const result = await run();
    await settle(keyed, begun.before, now);
    return result;
  } catch (cause) {
    if (!(cause instanceof Refusal))
      await settle(
        keyed.map((one) => ({ ...one, forgiven: false })),
        begun.before,
        now,
      );
    throw cause;
  }
}

async function countIn(tx: DirectoryTx, one: Counted & { key: string }, row: Row | undefined, now: Date) {
  const { failures: count } = failedAgain(triesOf(row), now.getTime(), one.rule);
  if (row) {
    const fresh = count === 1 ? { windowStart: now } : {};
    await tx.attempt.update({
      where: { key: one.key },
      data: { count, lastAt: now, ...fresh },
      select: { key: true },
    });
    return;
  }
  if (one.madeFrom !== undefined) await makeRoomIn(tx, one.madeFrom);
  const madeFrom = one.madeFrom === undefined ? null : limitKey(one.madeFrom);
  await tx.attempt.create({
    data: { key: one.key, count, windowStart: now, lastAt: now, madeFrom },
    select: { key: true },
  });
}

/** Takes a try back that did not fail: others that began meanwhile stay counted. */
async function settle(
  keyed: readonly (Counted & { key: string })[],
  before: readonly Row[],
  now: Date,
): Promise<void> {
  await directory().write(async (tx) => {
    for (const { key, forgiven } of keyed) {
      if (forgiven) {
        await tx.attempt.deleteMany({ where: { key } });
        continue;
      }
      const was = before.find((row) => row.key === key);
      await tx.attempt.updateMany({ where: { key, count: { gt: 0 } }, data: { count: { decrement: 1 } } });
      if (was) await tx.attempt.updateMany({ where: { key, lastAt: now }, data: { lastAt: was.lastAt } });
      else await tx.attempt.deleteMany({ where: { key, count: { lte: 0 } } });
    }
  });
}
