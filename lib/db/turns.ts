import { randomUUID } from "node:crypto";
import { log } from "@/lib/log/log";
import { directory } from "./directory";

/** Who was stopped loses its turn after this; who works renews it. */
const TURN_MS = 2 * 60_000;
const RENEW_MS = 30_000;

const holder = randomUUID();

/**
 * Runs `run` where no other process does this work on this shop, nor another run of this one; answers undefined without
 * running where one does. It spares doing things twice: what must not happen twice is guarded in its own write.
 */
export async function inTurn<T>(
  shopId: string,
  work: string,
  now: Date,
  run: () => Promise<T>,
): Promise<T | undefined> {
  if (!(await take(shopId, work, now))) return undefined;
  const renewing = setInterval(() => {
    renew(shopId, work).catch((cause: unknown) =>
      log().error({ err: cause, work }, "A turn could not be renewed."),
    );
  }, RENEW_MS);
  try {
    return await run();
  } finally {
    clearInterval(renewing);
    await directory().write((tx) => tx.turn.deleteMany({ where: { shopId, work, holder } }));
  }
}

async function take(shopId: string, work: string, now: Date): Promise<boolean> {
  const until = new Date(now.getTime() + TURN_MS);
  return directory().write(async (tx) => {
    const held = await tx.turn.findUnique({
      where: { shopId_work: { shopId, work } },
      select: { until: true },
    });
    if (held && held.until > now) return false;
    await tx.turn.upsert({
      where: { shopId_work: { shopId, work } },
      create: { shopId, work, holder, until },
      update: { holder, until },
      select: { shopId: true },
    });
    return true;
  });
}

async function renew(shopId: string, work: string): Promise<void> {
  const until = new Date(Date.now() + TURN_MS);
  await directory().write((tx) => tx.turn.updateMany({ where: { shopId, work, holder }, data: { until } }));
}
