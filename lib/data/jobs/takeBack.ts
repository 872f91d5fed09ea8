import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { keepNeedleReadingsIn } from "./needleReadings";
import { moveOnIn, stepIn } from "./steps";

/**
 * Takes the newest pass of a card back, until the next act: the step waits again, its checks and readings to be given anew. What
 * was measured stays on record and tells nothing of the bike any more; a part that was used stays used.
 */
export async function takeBackPass(
  shop: ShopHandle,
  input: { stepId: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const step = await stepIn(tx, input.stepId);
    const why = await notTakenBack(tx, step);
    if (why)
      throw new Refusal(
        why,
        "What is done stays as it is; put it right on the step that is next.",
        {},
        "conflict",
      );
    await demandOne(
      tx.step.updateMany({
        where: { id: step.id, state: "done", version: input.version },
        data: { state: "todo", doneAt: null, doneBy: null, version: { increment: 1 } },
      }),
      () => new Refusal("This step was changed by someone else.", "Look at it again.", {}, "conflict"),
    );
    const newest = await tx.reading.findFirst({
      where: { holdPoint: { stepId: step.id } },
      select: { id: true },
      orderBy: { id: "desc" },
    });
    await tx.holdPoint.updateMany({
      where: { stepId: step.id, overrideReason: "" },
      data: { passed: false, ...(newest ? { takenBackTo: newest.id } : {}) },
    });
    await keepNeedleReadingsIn(tx, shop, { id: step.jobId, bikeId: step.job.bikeId });
    await audit(tx, shop, "pass taken back", "step", step.id, { job: step.job.number, step: step.position });
    await moveOnIn(tx, step.jobId);
  });
}

/** Why a pass cannot be taken back; null where it can. */
async function notTakenBack(tx: ShopTx, step: Awaited<ReturnType<typeof stepIn>>): Promise<string | null> {
  if (step.job.state !== "inWork" && step.job.state !== "ride")
    return `Job ${step.job.number} is no longer in work.`;
  if (step.state !== "done" || step.kind === "ride") return `“${step.name}” is not a step that was passed.`;
  const later = await tx.step.findFirst({
    where: {
      jobId: step.jobId,
      position: { gt: step.position },
      OR: [
        { state: { not: "todo" } },
        { holdPoints: { some: { OR: [{ passed: true }, { readings: { some: {} } }] } } },
        { reservations: { some: { usedMilli: { gt: 0 } } } },
      ],
    },
    select: { name: true },
    orderBy: { position: "asc" },
  });
  return later ? `“${later.name}” was begun after it.` : null;
}
