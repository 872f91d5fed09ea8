import type { ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

export type StepOfCard = Awaited<ReturnType<typeof stepIn>>;

/** One step with its hold points, as a write decides about it. */
export async function stepIn(tx: ShopTx, stepId: number) {
  const step = await tx.step.findUnique({
    where: { id: stepId },
    select: {
      id: true,
      jobId: true,
      position: true,
      kind: true,
      name: true,
      state: true,
      version: true,
      doneBy: true,
      unsettled: true,
      job: {
        select: {
          number: true,
          state: true,
          bikeId: true,
          bike: { select: { carburettors: { select: { position: true }, orderBy: { position: "asc" } } } },
        },
      },
      holdPoints: {
        select: {
          id: true,
          kind: true,
          name: true,
          unit: true,
          low: true,
          high: true,
          measures: true,
          station: true,
          carburettor: true,
          passed: true,
          overrideReason: true,
        },
        orderBy: { position: "asc" },
      },
    },
  });
  if (!step) throw new Refusal("There is no such step.", "Open the card again.", {}, "missing");
  return step;
}

/** The name of whoever passed or skipped a step. */
export async function whoDid(tx: ShopTx, step: { doneBy: number | null }): Promise<string> {
  if (step.doneBy === null) return "someone else";
  const staff = await tx.staff.findUnique({ where: { id: step.doneBy }, select: { name: true } });
  return staff?.name ?? "someone else";
}

/** Says what stops a job, or that nothing does. */
export async function setStopIn(tx: ShopTx, jobId: number, stopped: string): Promise<void> {
  await tx.job.updateMany({
    where: { id: jobId, stopped: { not: stopped } },
    data: { stopped, version: { increment: 1 } },
  });
}

/** A job with nothing left but its ride is to be ridden; with other work left it is in work. */
export async function moveOnIn(tx: ShopTx, jobId: number): Promise<void> {
  const left = await tx.step.findMany({
    where: { jobId, state: "todo" },
    select: { kind: true },
    orderBy: { position: "asc" },
    take: 200,
  });
  const onlyRide = left.length > 0 && left.every((step) => step.kind === "ride");
  if (onlyRide) await setState(tx, jobId, "inWork", "ride");
  else if (left.length > 0) await setState(tx, jobId, "ride", "inWork");
}

async function setState(
  tx: ShopTx,
  jobId: number,
  from: "inWork" | "ride",
  to: "inWork" | "ride",
): Promise<void> {
  await tx.job.updateMany({
    where: { id: jobId, state: from },
    data: { state: to, version: { increment: 1 } },
  });
}
