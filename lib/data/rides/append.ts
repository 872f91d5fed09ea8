import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { SettingDef } from "@/lib/domain/tuning/settings";
import { correctionWork, idleCheck } from "../jobs/reopen";
import { replanIn } from "../jobs/replan";
import { composedIfRead, WORKS } from "../packages/works";
import { type AimedAt, askForJetsIn } from "./jets";

interface AddedChange {
  readonly def: SettingDef;
  readonly from: number;
  readonly to: number;
  readonly target: readonly AimedAt[];
}

/** What moves the idle mixture: screw and idle are looked at again after it. Source: common practice. */
const MOVES_IDLE: readonly string[] = [
  "mainJet",
  "pilotJet",
  "clipPosition",
  "needleSeatMm",
  "needleShimBelowMm",
];

/** A correction comes to the card, planned anew from where the bike stands, and a new ride after it. The ride that led here counts as done. */
export async function appendCorrectionIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  changes: readonly AddedChange[],
): Promise<void> {
  const job = await tx.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      revision: { select: { works: WORKS } },
    },
  });
  const recipe = composedIfRead(job.revision.works)?.recipe ?? null;
  const works = changes.map((change) => ({
    ...change,
    operation: correctionWork(recipe, change.def, change.from, change.to).operation,
  }));
  const idle = changes.some((change) => MOVES_IDLE.includes(change.def.key));
  const check =
    idle && recipe
      ? idleCheck(
          recipe,
          works.map((work) => work.operation.key),
        )
      : undefined;
  const ride = await endRide(tx, shop, jobId);
  const ids = await replanIn(
    tx,
    shop,
    jobId,
    { revisionId: null, operations: [...works.map((work) => work.operation), ...(check ? [check] : [])] },
    { kind: "ride", key: "ride", ...ride, instruction: withIdle(ride.instruction, idle && !check) },
  );
  for (const { operation, def, from, target } of works) {
    const stepId = ids.get(operation.key);
    if (stepId === undefined) throw new Error("A correction without a step of its own.");
    await askForJetsIn(tx, shop, { jobId, stepId, setting: def.key, from }, target);
  }
}

const IDLE_FIRST = "Before riding, hot: look at the mixture screw and set the idle again.";

/** Where the package knows no step for it, the ride itself says that screw and idle are looked at first. */
const withIdle = (instruction: string, first: boolean): string =>
  first && !instruction.startsWith(IDLE_FIRST) ? `${IDLE_FIRST} ${instruction}` : instruction;

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
