import type { Operation } from "@/lib/domain/packages/recipe";
import { type CardWork, goOn, openAt } from "@/lib/domain/plan/goOn";
import { oneBike } from "@/lib/domain/plan/oneBike";
import type { PlannedStep, WorkPlan } from "@/lib/domain/plan/plan";
import { replan } from "@/lib/domain/plan/planWork";
import { Refusal } from "@/lib/domain/refusal";
import { type CardRow, type CardRows, operationsOf } from "./cardRows";

/** A line of the card to come: a row that is there already, or a step to be made (`added`: the new operation it is). */
export type Line =
  | { readonly row: CardRow }
  | { readonly row: null; readonly step: PlannedStep; readonly added: Operation | null };

export interface Anew {
  /** What stays where it is, then what is to do; rides that wait come after. */
  readonly lines: readonly Line[];
  readonly rides: readonly CardRow[];
  /** Openings and closings that the new order does without. */
  readonly surplus: readonly CardRow[];
  /** False where the packages contradict each other, so that the new work was put after the old as it was quoted. */
  readonly together: boolean;
}

/** Whether somebody has taken this step in hand: a reading is taken or a check ticked. */
const begun = (row: CardRow) => row.holdPoints.some((hold) => hold.passed || hold.readings.length > 0);

/** The card as it should be from now on, with the operations added that the quote at `from` agreed. */
export function planAnew(rows: CardRows, from: number, added: readonly Operation[]): Anew {
  const first = rows.steps.find((row) => row.state === "todo");
  const inHand = first && first.kind !== "ride" && begun(first) ? first : null;
  const steps = rows.steps.map((row) => (row === inHand ? { ...row, state: "done" as const } : row));
  const past = [...rows.steps.filter((row) => row.state !== "todo"), ...(inHand ? [inHand] : [])];
  const todo = rows.steps.filter((row) => row.state === "todo" && row !== inHand && row.kind !== "ride");
  const rides = rows.steps.filter((row) => row.state === "todo" && row.kind === "ride");
  const known = operationsOf(rows);
  const operations = todo.filter((row) => row.kind === "operation");
  const left = operations.flatMap((row): CardWork[] => {
    const work = known.get(row.id);
    return work ? [{ id: `row ${row.id}`, ...work }] : [];
  });
  const come = added.map((operation, at): CardWork => ({ id: `new ${at}`, from, operation }));
  const done = steps.filter((row) => row.kind === "operation" && row.state === "done").map((row) => row.name);
  const plan =
    left.length === operations.length
      ? allowed(() => goOn(rows.works, [...left, ...come], done, openAt(steps, oneBike(rows.works).accesses)))
      : null;
  const before = past.map((row): Line => ({ row }));
  if (!plan) {
    const alone = replan(added, rows.works[from]?.accesses ?? [], []);
    const after = alone.steps.map((step): Line => ({ row: null, step, added: operationOf(step, added) }));
    const lines = [...before, ...todo.map((row): Line => ({ row })), ...after];
    return { lines, rides, surplus: [], together: false };
  }
  const spare = new Set(todo.filter((row) => row.kind !== "operation"));
  const lines = plan.steps.map((step): Line => {
    const row =
      step.kind === "operation"
        ? operations.find((one) => step.key === `row ${one.id}`)
        : [...spare].find((one) => one.kind === step.kind && one.key === step.key && sameChecks(one, step));
    if (row) {
      spare.delete(row);
      return { row };
    }
    const operation = come.find((one) => one.id === step.key)?.operation ?? null;
    return { row: null, step: operation ? { ...step, key: operation.key } : step, added: operation };
  });
  return { lines: [...before, ...lines], rides, surplus: [...spare], together: true };
}

function operationOf(step: PlannedStep, added: readonly Operation[]): Operation | null {
  return step.kind === "operation" ? (added.find((one) => one.key === step.key) ?? null) : null;
}

function sameChecks(row: CardRow, step: PlannedStep): boolean {
  const has = row.holdPoints.filter((hold) => hold.kind === "check").map((hold) => hold.name);
  return step.checks.every((check) => has.includes(check));
}

function allowed(plan: () => WorkPlan): WorkPlan | null {
  try {
    return plan();
  } catch (cause) {
    // Two packages that were each sound may contradict each other on one bike.
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
