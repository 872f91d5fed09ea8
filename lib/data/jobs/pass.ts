import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type JetSaid, settleJetsIn } from "./jets";
import { keepNeedleReadingsIn, NEEDLE_READING } from "./needleReadings";
import { accountForIn, type PartSaid } from "./partsLeft";
import { inOwnUnits, type ReadingTaken, takeReadingsIn } from "./readings";
import { startWorkIn } from "./states";
import { moveOnIn, type StepOfCard, setStopIn, stepIn, whoDid } from "./steps";
import { followTimeIn } from "./time/run";

export interface PassStepInput {
  stepId: number;
  version: number;
  /** What was measured, per hold point. */
  readings: readonly ReadingTaken[];
  /** The unit chosen for a reading, where it is not its hold point's own. */
  units?: Readonly<Record<string, string>> | undefined;
  /** The carburettor that a reading is of, where its hold point leaves that open. */
  carburettors?: Readonly<Record<string, number>> | undefined;
  /** What was said of the parts reserved for the step. */
  parts?: readonly PartSaid[];
  /** What was said of the jets that the step settles. */
  jets?: readonly JetSaid[];
  /** Hold points ticked. */
  checks: readonly number[];
  /** Hold points signed by whoever acts. */
  signatures: readonly number[];
  key?: string | undefined;
}

export type Passed = "passed" | "stopped";

/**
 * Passes the next step of a card: every hold point must be passed. A reading outside its limits is kept and
 * stops the job; it goes on once measured inside, or when an owner overrides it with a reason.
 */
export async function passStep(shop: ShopHandle, input: PassStepInput): Promise<Passed> {
  return shop.write((tx) => once(tx, shop, "passed a step", input, () => passStepIn(tx, shop, input)));
}

async function passStepIn(tx: ShopTx, shop: ShopHandle, input: PassStepInput): Promise<Passed> {
  const step = await stepIn(tx, input.stepId);
  await demandOpen(tx, step, input.version);
  await demandNext(tx, step);
  await startWorkIn(tx, shop, step.jobId);
  if (step.kind === "ride") await demandGoodRide(tx, step);

  const readings = input.readings.map((reading) => ({
    ...reading,
    carburettor: reading.carburettor ?? input.carburettors?.[reading.holdPointId],
  }));
  const outside = await takeReadingsIn(tx, shop, step, inOwnUnits(step, readings, input.units));
  if (step.holdPoints.some((hold) => hold.measures === NEEDLE_READING))
    await keepNeedleReadingsIn(tx, shop, { id: step.jobId, bikeId: step.job.bikeId });
  if (outside.length > 0) {
    await raise(tx, step);
    await setStopIn(tx, step.jobId, outside.join("; "));
    await audit(tx, shop, "stopped", "job", step.jobId, { step: step.position, outside });
    return "stopped";
  }
  const given = new Set([...input.readings.map((r) => r.holdPointId), ...input.checks, ...input.signatures]);
  const missing = step.holdPoints.filter(
    (hold) => !hold.passed && !hold.overrideReason && !given.has(hold.id),
  );
  if (missing.length > 0) throw notAll(missing);
  await accountForIn(tx, shop, step.id, input.parts ?? []);
  await settleJetsIn(tx, shop, step, input.jets ?? []);
  await markHeld(tx, shop, step, [...input.checks, ...input.signatures]);
  await finishStep(tx, shop, step);
  await setStopIn(tx, step.jobId, "");
  await audit(tx, shop, "passed", "step", step.id, { job: step.job.number, step: step.position });
  await moveOnIn(tx, step.jobId);
  await followTimeIn(tx, shop, step.jobId, step.id);
  return "passed";
}

async function demandOpen(tx: ShopTx, step: StepOfCard, version: number): Promise<void> {
  if (step.state !== "todo")
    throw new Refusal(
      `“${step.name}” was ${step.state === "done" ? "passed" : "skipped"} by ${await whoDid(tx, step)} while you had it open.`,
      "Nothing of yours was saved. Go on with the step that is next now.",
      {},
      "conflict",
    );
  if (step.version !== version)
    throw new Refusal(
      `“${step.name}” was worked on by someone else while you had it open.`,
      "Nothing of yours was saved. Look at the readings as they are now, then pass it.",
      {},
      "conflict",
    );
}

async function demandNext(tx: ShopTx, step: StepOfCard): Promise<void> {
  const before = await tx.step.findFirst({
    where: { jobId: step.jobId, state: "todo", position: { lt: step.position } },
    select: { position: true, name: true },
    orderBy: { position: "asc" },
  });
  if (before)
    throw new Refusal(
      `Step ${before.position}, “${before.name}”, comes first.`,
      "Do it, or skip it with a reason: the order spares what breaks.",
    );
}

/** The ride is passed by a ride that was good, recorded with what was felt. */
async function demandGoodRide(tx: ShopTx, step: StepOfCard): Promise<void> {
  const ride = await tx.testRide.findFirst({
    where: { jobId: step.jobId },
    select: { good: true },
    orderBy: { id: "desc" },
  });
  if (ride?.good) return;
  throw new Refusal(
    ride ? "The last ride was not good." : "No ride is recorded yet.",
    ride ? "Accept a correction and ride again." : "Ride, then record what you felt, or that all was good.",
  );
}

async function markHeld(
  tx: ShopTx,
  shop: ShopHandle,
  step: StepOfCard,
  ids: readonly number[],
): Promise<void> {
  for (const id of new Set(ids)) {
    const hold = step.holdPoints.find((one) => one.id === id && one.kind !== "reading");
    if (!hold) throw new Refusal("This check is not of this step.", "Open the card again.", {}, "missing");
    if (hold.passed) continue;
    await tx.reading.create({
      data: { holdPointId: id, value: null, inside: true, at: shop.now, staffId: shop.by.staffId },
      select: { id: true },
    });
    await tx.holdPoint.update({ where: { id }, data: { passed: true }, select: { id: true } });
  }
}

async function finishStep(tx: ShopTx, shop: ShopHandle, step: StepOfCard): Promise<void> {
  await demandOne(
    tx.step.updateMany({
      where: { id: step.id, state: "todo", version: step.version },
      data: { state: "done", doneAt: shop.now, doneBy: shop.by.staffId, version: { increment: 1 } },
    }),
    () =>
      new Refusal("This step has just been changed by someone else.", "Look at it again.", {}, "conflict"),
  );
}

async function raise(tx: ShopTx, step: StepOfCard): Promise<void> {
  await tx.step.updateMany({
    where: { id: step.id, version: step.version },
    data: { version: { increment: 1 } },
  });
}

function notAll(missing: StepOfCard["holdPoints"]): Refusal {
  const word = {
    reading: "needs a reading",
    signature: "needs your signature",
    check: "is not ticked",
  } as const;
  const name = { reading: "readings", signature: "signatures[]", check: "checks[]" } as const;
  return new Refusal(
    `This step is held: ${missing.map((hold) => `${hold.name} ${word[hold.kind]}`).join("; ")}.`,
    "Measure it or tick it, then pass the step.",
    Object.fromEntries(
      missing.map((hold) => [
        hold.kind === "reading" ? `readings.${hold.id}` : name[hold.kind],
        `${hold.name} ${word[hold.kind]}.`,
      ]),
    ),
  );
}
