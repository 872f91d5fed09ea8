import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { SettingDef } from "@/lib/domain/tuning/settings";
import { correctionWork } from "../jobs/reopen";
import { replanIn } from "../jobs/replan";
import { composedIfRead, WORKS } from "../packages/works";
import { type AimedAt, askForJetsIn } from "./jets";

/** A correction comes to the card, planned anew from where the bike stands, and a new ride after it. The ride that led here counts as done. */
export async function appendCorrectionIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  def: SettingDef,
  change: { fromValue: number; toValue: number },
  target: readonly AimedAt[],
): Promise<void> {
  const job = await tx.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      revision: { select: { works: WORKS } },
    },
  });
  const recipe = composedIfRead(job.revision.works)?.recipe ?? null;
  const { operation } = correctionWork(recipe, def, change.fromValue, change.toValue);
  const ride = await endRide(tx, shop, jobId);
  const ids = await replanIn(
    tx,
    shop,
    jobId,
    { revisionId: null, operations: [operation] },
    { kind: "ride", key: "ride", ...ride },
  );
  const stepId = ids.get(operation.key);
  if (stepId === undefined) throw new Error("A correction without a step of its own.");
  await askForJetsIn(tx, shop, { jobId, stepId, setting: def.key, from: change.fromValue }, target);
}

const USUAL_RIDE = {
  name: "Test ride",
  instruction:
    "Warm up, then one throttle position after another on a closed or quiet road. Read no instrument while riding.",
  minutes: 20,
  grade: "",
  tools: [] as string[],
  cautions: ["Ride only with a free throttle, a free slide and working brakes."],
};

/** Ends the ride step that was ridden; answers what the next one is made of, its hold points fresh. */
async function endRide(tx: ShopTx, shop: ShopHandle, jobId: number) {
  const ride = await tx.step.findFirst({
    where: { jobId, kind: "ride" },
    select: {
      id: true,
      state: true,
      name: true,
      instruction: true,
      minutes: true,
      grade: true,
      tools: true,
      cautions: true,
      holdPoints: {
        select: {
          position: true,
          kind: true,
          name: true,
          unit: true,
          low: true,
          high: true,
          increment: true,
          passed: true,
        },
        orderBy: { position: "asc" },
      },
    },
    orderBy: { position: "desc" },
  });
  if (!ride) return { ...USUAL_RIDE, holdPoints: { create: [] } };
  const { id, state, holdPoints, ...same } = ride;
  if (state === "todo") {
    const held = holdPoints.some((hold) => !hold.passed);
    await tx.step.update({
      where: { id },
      data: {
        state: held ? "skipped" : "done",
        reason: held ? "Ridden; a correction follows, and its hold points are passed on the next ride." : "",
        doneAt: shop.now,
        doneBy: shop.by.staffId,
        version: { increment: 1 },
      },
      select: { id: true },
    });
  }
  return {
    ...same,
    tools: same.tools as string[],
    cautions: same.cautions as string[],
    holdPoints: { create: holdPoints.map(({ passed: _, ...hold }) => hold) },
  };
}
