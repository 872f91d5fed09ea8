import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { LateSaid } from "@/lib/schemas/timeEntries";
import { correctIn } from "./correct";
import { askedAbout, lateOf } from "./late";
import { RUNNING, type Running, runningIn } from "./running";

/** What was said of time that ran past the shift; `worked`: one's own lasted until now. */
export type Said = LateSaid & { readonly worked?: boolean | undefined };

/**
 * Ends one's own entry now. One that ran past its shift is not ended by guessing: it is asked about first, and ended as its person
 * says.
 */
export async function endIn(tx: ShopTx, shop: ShopHandle, entry: Running, said: Said = {}): Promise<void> {
  await endEachIn(tx, shop, [{ ...entry, staff: { name: shop.by.name } }], said);
}

/** Ends everybody's time on a job that is over, and asks about what ran past a shift, naming whose it is. */
export async function endAllIn(tx: ShopTx, shop: ShopHandle, jobId: number, said: Said = {}): Promise<void> {
  const running = await tx.timeEntry.findMany({
    where: { jobId, endedAt: null },
    select: { ...RUNNING, staff: { select: { name: true } } },
    orderBy: { id: "asc" },
    take: 50,
  });
  await endEachIn(tx, shop, running, said);
}

async function endEachIn(
  tx: ShopTx,
  shop: ShopHandle,
  entries: readonly (Running & { readonly staff: { readonly name: string } })[],
  said: Said,
): Promise<void> {
  const late = await lateOf(tx, shop, entries);
  const ends = askedAbout(shop, late, said);
  for (const entry of entries) {
    const end = ends.get(entry.id);
    if (!end) await closeIn(tx, shop, entry);
    else await end.rightOr(() => correctIn(tx, shop, entry, { startedAt: entry.startedAt, ...end }));
  }
}

export async function closeIn(tx: ShopTx, shop: ShopHandle, entry: Running): Promise<void> {
  const endedAt = new Date(Math.max(shop.now.getTime(), entry.startedAt.getTime()));
  await demandOne(
    tx.timeEntry.updateMany({
      where: { id: entry.id, endedAt: null, version: entry.version },
      data: { endedAt, version: { increment: 1 } },
    }),
    () => new Refusal("This time was stopped elsewhere.", "Look at the job again.", {}, "conflict"),
  );
}

/** Ends whoever acts' own time on a job, where it runs. */
export async function stopOnJobIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  said: Said = {},
): Promise<void> {
  if (shop.by.staffId === null) return;
  const running = await runningIn(tx, shop.by.staffId);
  if (running?.jobId !== jobId) return;
  await endIn(tx, shop, running, said);
  await audit(tx, shop, "time stopped", "timeEntry", running.id);
}
