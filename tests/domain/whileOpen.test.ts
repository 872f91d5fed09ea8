import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OPEN_ROAD } from "@/demo/packages/openRoad";
import { planWork } from "@/lib/domain/plan/planWork";
import { whileOpen } from "@/lib/domain/plan/whileOpen";

const plan = planWork(OPEN_ROAD.operations, OPEN_ROAD.accesses);
const names = OPEN_ROAD.accesses.map((access) => access.name);
const openings = (of: typeof plan) =>
  of.steps.filter((step) => step.kind !== "operation").reduce((sum, step) => sum + step.minutes, 0);

describe("work done while other work holds the bike open", () => {
  it("is charged for itself, and for what only it opens", () => {
    fc.assert(
      fc.property(fc.subarray(names), (open) => {
        const found = whileOpen(
          plan,
          open.map((name) => ` ${name.toUpperCase()} `),
        );
        const own = plan.steps.filter(
          (step) => step.kind === "operation" || !open.includes(step.access ?? step.name),
        );
        expect(found.minutes).toBe(own.reduce((sum, step) => sum + step.minutes, 0));
        expect(found.steps.map((step) => `${step.kind} ${step.key}`)).toEqual(
          plan.steps.map((step) => `${step.kind} ${step.key}`),
        );
      }),
    );
  });

  it("costs no opening where all is open, and is what it was where nothing is", () => {
    expect(openings(plan)).toBeGreaterThan(0);
    expect(openings(whileOpen(plan, names))).toBe(0);
    expect(whileOpen(plan, [])).toBe(plan);
    expect(whileOpen(plan, undefined)).toBe(plan);
  });
});
