import { createHash } from "node:crypto";
import type { DirectoryTx } from "@/lib/db/directory";
import { directory } from "@/lib/db/directory";
import { waitText } from "@/lib/domain/access/tries";
import { Refusal } from "@/lib/domain/refusal";
import { markTooOften } from "./answerStatus";
import { SHARED } from "./clientAddress";

/** What is limited is stored by its hash: neither its length nor its words are a stranger's to choose. */
export function limitKey(what: string): string {
  return createHash("sha256").update(what).digest("base64url");
}

/** Rows that one network address may make; the oldest of them give way. */
const MOST_ROWS = 200;
const MOST_SHARED_ROWS = 2000;

/** Keeps what an address makes within its bound. Call before a row is made for it. */
export async function makeRoomIn(tx: DirectoryTx, address: string): Promise<void> {
  const most = address === SHARED ? MOST_SHARED_ROWS : MOST_ROWS;
  const madeFrom = limitKey(address);
  const beyond = await tx.attempt.findMany({
    where: { madeFrom },
    select: { key: true },
    orderBy: { lastAt: "desc" },
    skip: most - 1,
    take: 50,
  });
  if (beyond.length) await tx.attempt.deleteMany({ where: { key: { in: beyond.map((row) => row.key) } } });
}

/** A refusal to be answered with 429 and Retry-After. */
export function tooOften(waitMs: number): Refusal {
  markTooOften(waitMs);
  return new Refusal(
    "Too many tries in a short time.",
    `Wait ${waitText(waitMs)}, then try again.`,
    {},
    "tooOften",
  );
}

/**
 * Counts one request for `what`; refuses the one after `most` within `windowMs`. Holds across processes. A window that
 * begins ahead of the clock, which was set back, begins now: its count stays.
 */
export async function limit(what: string, most: number, windowMs: number, now: Date): Promise<void> {
  const key = limitKey(what);
  const left = (row: { windowStart: Date }) =>
    windowMs - Math.max(0, now.getTime() - row.windowStart.getTime());
  const found = await directory().read.attempt.findUnique({ where: { key } });
  const ahead = found !== null && found.windowStart > now;
  // Over the limit nothing is written: a flood costs one reading each.
  if (found && !ahead && left(found) > 0 && found.count >= most) throw tooOften(left(found));
  const row = await directory().write(async (tx) => {
    const before = await tx.attempt.findUnique({ where: { key } });
    const fresh = before === null || left(before) <= 0;
    const windowStart = fresh || before.windowStart > now ? now : before.windowStart;
    const count = fresh ? 1 : Math.min(before.count, most) + 1;
    const values = { windowStart, lastAt: now, count };
    return tx.attempt.upsert({ where: { key }, create: { key, ...values }, update: values });
  });
  if (row.count > most) throw tooOften(left(row));
}

/** Longer than any window and any count is kept. */
const OLD_MS = 25 * 3_600_000;

/** Forgets counts that matter to nobody any more. */
export async function sweepLimits(now: Date): Promise<number> {
  const before = new Date(now.getTime() - OLD_MS);
  const { count } = await directory().write((tx) =>
    tx.attempt.deleteMany({ where: { lastAt: { lt: before } } }),
  );
  return count;
}
