import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { switchTo } from "@/lib/domain/labour/entries";
import { Refusal } from "@/lib/domain/refusal";
import { startWorkIn } from "../states";
import { closeIn, endIn, type Said } from "./end";
import { demandNothingLaterIn } from "./nothingLater";
import { entryOf, overran } from "./overrun";
import { RUNNING, runningIn, whoWorks } from "./running";

export interface StartTimeInput extends Said {
  jobId: number;
  stepId?: number | undefined;
  key?: string | undefined;
}

/**
 * Starts the person's time on a job or a step; time running elsewhere is stopped at the same moment, so that
 * nobody ever has two. Started again on the same step, it keeps running as it was.
 */
export async function startTime(shop: ShopHandle, input: StartTimeInput): Promise<{ entryId: number }> {
  return shop.write(async (tx) => ({
    entryId: await once(tx, shop, "started the clock", input, () => startTimeIn(tx, shop, input)),
  }));
}

/** As startTime, inside a transaction of the caller's. */
export async function startTimeIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: Omit<StartTimeInput, "key">,
): Promise<number> {
  const staffId = whoWorks(shop);
  const stepId = input.stepId ?? null;
  if (stepId !== null) {
    const step = await tx.step.findUnique({ where: { id: stepId }, select: { jobId: true } });
    if (step?.jobId !== input.jobId)
      throw new Refusal("This step is not of this job.", "Open the card again.", {}, "missing");
  }
  await demandNothingLaterIn(tx, shop, staffId);
  const running = await runningIn(tx, staffId);
  const entries = running ? [entryOf(running)] : [];
  const decided = switchTo(entries, { staffId, jobId: input.jobId, stepId }, shop.now.getTime());
  if (running && !decided.start) return running.id;
  if (running) await endIn(tx, shop, running, input);
  // Whoever goes on with something is no longer on a break.
  await tx.timeBreak.updateMany({
    where: { staffId, endedAt: null },
    data: { endedAt: shop.now, version: { increment: 1 } },
  });
  await startWorkIn(tx, shop, input.jobId);
  const entry = await tx.timeEntry.create({
    data: { staffId, jobId: input.jobId, stepId, startedAt: shop.now },
    select: { id: true },
  });
  await audit(tx, shop, running ? "time switched" : "time started", "timeEntry", entry.id, {
    jobId: input.jobId,
    stepId,
  });
  return entry.id;
}

/** Stops one's own running time. Stopping it again changes nothing. */
export async function stopTime(
  shop: ShopHandle,
  input: Said & { entryId: number; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "stopped the clock", input, async () => {
      const entry = await ownEntryIn(tx, shop, input.entryId);
      if (entry.endedAt) return entry.id;
      await endIn(tx, shop, entry, input);
      await audit(tx, shop, "time stopped", "timeEntry", entry.id);
      return entry.id;
    }),
  );
}

/**
 * Stops one's own time on a job, whichever entry it is: a device that started it without a connection knows no entry. Refused
 * where it runs no longer, since it then ended at another time than the device says.
 */
export async function stopOnJob(
  shop: ShopHandle,
  input: Said & { jobId: number; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "stopped the clock on a job", input, async () => {
      const running = await runningIn(tx, whoWorks(shop));
      if (running?.jobId !== input.jobId)
        throw new Refusal(
          "Your time on this job does not run any more: it was stopped, or goes on elsewhere.",
          "Look at the job's time; an entry that ended at the wrong minute can be corrected.",
          {},
          "conflict",
        );
      await endIn(tx, shop, running, input);
      await audit(tx, shop, "time stopped", "timeEntry", running.id);
      return running.id;
    }),
  );
}

/** One's own entry. */
async function ownEntryIn(tx: ShopTx, shop: ShopHandle, id: number) {
  const entry = await tx.timeEntry.findUnique({ where: { id }, select: RUNNING });
  if (!entry) throw new Refusal("There is no such time entry.", "Open the job again.", {}, "missing");
  if (entry.staffId !== whoWorks(shop))
    throw new Refusal(
      "This is someone else's time.",
      "They stop it themselves; an owner can correct it.",
      {},
      "forbidden",
    );
  return entry;
}

/** Time that ran on a step goes on with the step that is next, once the first is passed. Forgotten time is left to be corrected. */
export async function followTimeIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  fromStepId: number,
): Promise<void> {
  if (shop.by.staffId === null) return;
  const running = await runningIn(tx, shop.by.staffId);
  if (!running || running.jobId !== jobId || running.stepId !== fromStepId) return;
  // A pass that a device sends later than it was made does not reach back behind what was started since.
  if (running.startedAt > shop.now) return;
  const next = await tx.step.findFirst({
    where: { jobId, state: "todo" },
    select: { id: true },
    orderBy: { position: "asc" },
  });
  if (!next || (await overran(tx, shop, running))) return;
  await closeIn(tx, shop, running);
  await tx.timeEntry.create({
    data: { staffId: running.staffId, jobId, stepId: next.id, startedAt: shop.now },
    select: { id: true },
  });
}
