import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { may, type Role } from "@/lib/domain/access/permissions";
import { Refusal } from "@/lib/domain/refusal";
import { keepNeedleReadingsIn } from "./needleReadings";
import { startWorkIn } from "./states";
import { moveOnIn, type StepOfCard, setStopIn, stepIn, whoDid } from "./steps";

/** Skips a step with a reason: it can be out of turn, and can be taken back while nothing later builds on it. */
export async function skipStep(
  shop: ShopHandle,
  input: { stepId: number; version: number; reason: string; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "skipped a step", input, async () => {
      const step = await stepIn(tx, input.stepId);
      await demandTodo(tx, step, input.version);
      if (step.holdPoints.some((hold) => !hold.passed && !hold.overrideReason && hold.kind !== "check"))
        throw new Refusal(
          `“${step.name}” has a hold point, so it cannot be skipped.`,
          "Measure or sign it, or ask an owner to override it with a reason.",
        );
      await startWorkIn(tx, shop, step.jobId);
      await setStep(tx, step, "todo", {
        state: "skipped",
        reason: input.reason,
        doneAt: shop.now,
        doneBy: shop.by.staffId,
      });
      await keepNeedleReadingsIn(tx, shop, { id: step.jobId, bikeId: step.job.bikeId });
      await audit(tx, shop, "skipped", "step", step.id, { job: step.job.number, reason: input.reason });
      await moveOnIn(tx, step.jobId);
      return step.id;
    }),
  );
}

/** Takes a skip back: the step waits again. */
export async function unskipStep(
  shop: ShopHandle,
  input: { stepId: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const step = await stepIn(tx, input.stepId);
    if (step.job.state !== "inWork" && step.job.state !== "ride")
      throw new Refusal(
        `Job ${step.job.number} is no longer in work.`,
        "Its card stays as it is.",
        {},
        "conflict",
      );
    if (step.version !== input.version)
      throw new Refusal("This step was changed by someone else.", "Look at it again.", {}, "conflict");
    await setStep(tx, step, "skipped", { state: "todo", reason: "", doneAt: null, doneBy: null });
    await keepNeedleReadingsIn(tx, shop, { id: step.jobId, bikeId: step.job.bikeId });
    await audit(tx, shop, "skip taken back", "step", step.id, { job: step.job.number });
    await moveOnIn(tx, step.jobId);
  });
}

/** An owner lets a hold point pass that measured outside, and says why. The readings stay. */
export async function overrideHoldPoint(
  shop: ShopHandle,
  input: { holdPointId: number; version: number; reason: string; key?: string | undefined },
): Promise<void> {
  if (!may(shop.by.role as Role, "job.override"))
    throw new Refusal(
      "Only an owner may override a hold point.",
      "Ask an owner, or measure again.",
      {},
      "forbidden",
    );
  await shop.write((tx) =>
    once(tx, shop, "overrode a hold point", input, async () => {
      const hold = await tx.holdPoint.findUnique({
        where: { id: input.holdPointId },
        select: { id: true, name: true, stepId: true, passed: true },
      });
      if (!hold) throw new Refusal("There is no such hold point.", "Open the card again.", {}, "missing");
      const step = await stepIn(tx, hold.stepId);
      await demandTodo(tx, step, input.version);
      await demandOne(
        tx.holdPoint.updateMany({
          where: { id: hold.id, passed: false, overrideReason: "" },
          data: { overrideReason: input.reason, overriddenBy: shop.by.staffId },
        }),
        () => new Refusal(`${hold.name} is already passed.`, "Look at the card again.", {}, "conflict"),
      );
      await setStep(tx, step, "todo", {});
      const still = step.holdPoints.filter(
        (h) => h.kind === "reading" && h.id !== hold.id && !h.passed && !h.overrideReason,
      );
      const failed = await failedOf(
        tx,
        still.map((h) => h.id),
      );
      await setStopIn(
        tx,
        step.jobId,
        still
          .filter((h) => failed.has(h.id))
          .map((h) => `${h.name} is outside`)
          .join("; "),
      );
      await audit(tx, shop, "overrode", "holdPoint", hold.id, { job: step.job.number, reason: input.reason });
      return hold.id;
    }),
  );
}

async function failedOf(tx: ShopTx, holdPointIds: readonly number[]): Promise<Set<number>> {
  const rows = await tx.reading.findMany({
    where: { holdPointId: { in: [...holdPointIds] }, inside: false },
    select: { holdPointId: true },
    orderBy: { id: "asc" },
  });
  return new Set(rows.map((row) => row.holdPointId));
}

async function demandTodo(tx: ShopTx, step: StepOfCard, version: number): Promise<void> {
  if (step.state === "todo" && step.version === version) return;
  const what =
    step.state === "todo"
      ? "worked on by someone else"
      : `${step.state === "done" ? "passed" : "skipped"} by ${await whoDid(tx, step)}`;
  throw new Refusal(
    `“${step.name}” was ${what} while you had it open.`,
    "Nothing of yours was saved. Look at the card again.",
    {},
    "conflict",
  );
}

async function setStep(
  tx: ShopTx,
  step: StepOfCard,
  from: "todo" | "skipped",
  data: Parameters<ShopTx["step"]["updateMany"]>[0]["data"],
): Promise<void> {
  await demandOne(
    tx.step.updateMany({
      where: { id: step.id, state: from, version: step.version },
      data: { ...data, version: { increment: 1 } },
    }),
    () => new Refusal(`“${step.name}” is not what it was.`, "Look at the card again.", {}, "conflict"),
  );
}
