import { directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";

/** Counts one attempt for `key`; refuses the one after `most` within `windowMs`. Holds across processes. */
export async function limit(key: string, most: number, windowMs: number, now: Date): Promise<void> {
  const count = await directory().write(async (tx) => {
    const found = await tx.attempt.findUnique({ where: { key } });
    const fresh = !found || now.getTime() - found.windowStart.getTime() > windowMs;
    const next = fresh ? { windowStart: now, count: 1 } : { count: found.count + 1 };
    const row = await tx.attempt.upsert({
      where: { key },
      create: { key, windowStart: now, count: 1 },
      update: next,
    });
    return row.count;
  });
  if (count > most)
    throw new Refusal(
      "Too many tries in a short time.",
      `Wait ${Math.ceil(windowMs / 60_000)} minutes, then try again.`,
    );
}

/** Forgets the count, after a success. */
export async function forget(key: string): Promise<void> {
  await directory().write((tx) => tx.attempt.deleteMany({ where: { key } }));
}
