import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import type { FrozenQuote } from "./quotes/frozen";

type StepData = Omit<Prisma.StepUncheckedCreateInput, "jobId" | "position">;

const RIDE: StepData = {
  kind: "ride",
  key: "test-ride",
  name: "Test ride",
  instruction:
    "Ride on a closed or quiet road. Feel for it at closed, quarter, half and full throttle, and write it down after stopping.",
  minutes: 0,
  tools: [],
  cautions: ["Never read an instrument while riding.", "A slide or throttle that sticks is a no-ride fault."],
};

/**
 * The steps of a frozen plan with their hold points, then the test ride; extra work goes before the ride that is there.
 * Answers the step of each operation by its key.
 */
export async function addSteps(
  tx: ShopTx,
  jobId: number,
  frozen: FrozenQuote,
  extra: boolean,
): Promise<Map<string, number>> {
  const ride = extra ? await openRide(tx, jobId) : null;
  const last = await tx.step.findFirst({
    where: { jobId },
    select: { position: true },
    orderBy: { position: "desc" },
  });
  let position = ride?.position ?? (last?.position ?? 0) + 1;
  // Room for the new steps in front of the ride and whatever follows it.
  if (ride)
    await tx.step.updateMany({
      where: { jobId, position: { gte: ride.position } },
      data: { position: { increment: frozen.steps.length } },
    });
  const ids = new Map<string, number>();
  for (const step of frozen.steps) {
    const { id } = await tx.step.create({
      data: { jobId, position, ...stepData(step) },
      select: { id: true },
    });
    if (step.kind === "operation") ids.set(step.key, id);
    position += 1;
  }
  if (!ride && frozen.steps.length > 0)
    await tx.step.create({ data: { jobId, position, ...RIDE }, select: { id: true } });
  return ids;
}

function openRide(tx: ShopTx, jobId: number): Promise<{ position: number } | null> {
  return tx.step.findFirst({
    where: { jobId, kind: "ride", state: "todo" },
    select: { position: true },
    orderBy: { position: "asc" },
  });
}

function stepData(step: PlannedStep): StepData {
  const readings = step.holdPoints.map((point) => ({
    kind: point.kind,
    name: point.name,
    unit: point.unit ?? "",
    low: point.low ?? null,
    high: point.high ?? null,
    increment: point.step ?? null,
  }));
  const checks = step.checks.map((name) => ({ kind: "check" as const, name }));
  return {
    kind: step.kind,
    key: step.key,
    name: step.name,
    instruction: step.instruction,
    minutes: step.minutes,
    grade: step.grade,
    tools: [...step.tools],
    cautions: [...step.cautions],
    holdPoints: { create: [...readings, ...checks].map((point, position) => ({ ...point, position })) },
  };
}
