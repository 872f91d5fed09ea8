import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { accessTitles } from "@/lib/domain/packages/accessTitles";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import type { WearItem } from "@/lib/domain/tuning/wear";

export type StepData = Omit<Prisma.StepUncheckedCreateInput, "jobId" | "position">;

/** A planned step as a row of the card, its hold points and closing checks with it, and the parts whose wear it inspects. */
export function stepData(step: PlannedStep, inspects: readonly WearItem[] = []): StepData {
  const readings = step.holdPoints.map((point) => ({
    kind: point.kind,
    name: point.name,
    unit: point.unit ?? "",
    low: point.low ?? null,
    high: point.high ?? null,
    increment: point.step ?? null,
    measures: point.measures ?? "",
    carburettor: point.carburettor ?? null,
    station: point.station ?? null,
  }));
  const checks = step.checks.map((name) => ({ kind: "check" as const, name }));
  return {
    kind: step.kind,
    key: step.key,
    ...namesOf(step),
    instruction: step.instruction,
    minutes: step.minutes,
    grade: step.grade,
    tools: [...step.tools],
    cautions: [...step.cautions],
    makes: [...(step.makes ?? [])],
    inspections: { create: inspects.map((item) => ({ item })) },
    holdPoints: { create: [...readings, ...checks].map((point, position) => ({ ...point, position })) },
  };
}

/** What a step says and the access that it is about. A plan frozen before steps said what the hand does names the access alone. */
function namesOf(step: PlannedStep): { name: string; access: string } {
  if (step.kind === "operation") return { name: step.name, access: "" };
  if (step.access !== undefined) return { name: step.name, access: step.access };
  return { name: accessTitles({ name: step.name })[step.kind], access: step.name };
}

/** The ride that ends a card. */
export const RIDE: StepData = {
  kind: "ride",
  key: "test-ride",
  name: "Test ride",
  instruction:
    "Ride on a closed or quiet road. Feel for it at closed, quarter, half and full throttle, and write it down after stopping.",
  minutes: 0,
  tools: [],
  cautions: ["Never read an instrument while riding.", "A slide or throttle that sticks is a no-ride fault."],
};
