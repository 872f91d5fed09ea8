import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { SettingDef } from "@/lib/domain/tuning/settings";
import { readRecipe } from "@/lib/schemas/recipeVersions";
import { correctionWork } from "../jobs/reopen";
import { replanIn } from "../jobs/replan";
import { reserveIn } from "../stock/reservations";

/** A correction comes to the card, planned anew from where the bike stands, and a new ride after it. The ride that led here counts as done. */
export async function appendCorrectionIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  def: SettingDef,
  change: { fromValue: number; toValue: number },
): Promise<void> {
  const job = await tx.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      revision: { select: { packageRevision: { select: { recipe: true } } } },
      bike: { select: { carburettors: { select: { id: true }, orderBy: { position: "asc" } } } },
    },
  });
  const recipe = readRecipe(job.revision.packageRevision.recipe);
  const { operation } = correctionWork(
    recipe.success ? recipe.data : null,
    def,
    change.fromValue,
    change.toValue,
  );
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
  await reserveJet(tx, shop, jobId, stepId, def, change, job.bike.carburettors.length || 1);
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

/** Promises the new jet to the change, where the drawer of the fitted family knows its size. */
async function reserveJet(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  stepId: number,
  def: SettingDef,
  change: { fromValue: number; toValue: number },
  carburettors: number,
): Promise<void> {
  if (def.key !== "mainJet" && def.key !== "pilotJet") return;
  const fitted = await tx.reservation.findFirst({
    where: { jobId, part: { kind: "jet", sizeMilli: Math.round(change.fromValue * 1000) } },
    select: { part: { select: { family: true } } },
    orderBy: { id: "desc" },
  });
  if (!fitted?.part.family) return;
  const jet = await tx.part.findFirst({
    where: { family: fitted.part.family, sizeMilli: Math.round(change.toValue * 1000), active: true },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (jet) await reserveIn(tx, shop, { jobId, stepId, partId: jet.id, wantedMilli: carburettors * 1000 });
}
