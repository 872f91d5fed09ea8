import type { Access, Operation } from "../packages/recipe";
import { folded, oneBike, type PackageWork } from "./oneBike";
import type { WorkPlan } from "./plan";
import { replan } from "./planWork";

/** An operation that is on a card or comes to it. */
export interface CardWork {
  /** Names it in the plan that comes out: unlike every other. */
  readonly id: string;
  /** Which of the packages it is from. */
  readonly from: number;
  readonly operation: Operation;
}

/** A step that opens or closes, or anything else, in the order of the card. */
export interface StepOnCard {
  readonly kind: "open" | "operation" | "close" | "ride";
  readonly key: string;
  readonly state: "todo" | "done" | "skipped";
}

/**
 * The rest of the work from where the bike stands: the operations left and those that come to it, of whichever package, in the
 * order of least minutes, with what is open kept open for what still needs it. An operation that should have come before one
 * already done says so among its cautions. Refuses what `replan` refuses; two packages may contradict each other so.
 */
export function goOn(
  works: readonly PackageWork[],
  left: readonly CardWork[],
  done: readonly string[],
  openNow: readonly string[],
): WorkPlan {
  const bike = oneBike(works);
  const operations = left.map(({ id, from, operation }): Operation => {
    const before = bike.before(operation.name);
    const late = done.filter((name) => bike.before(name).has(folded(operation.name)));
    const again = late.map((name) => `“${name}” was done before this: look at it again afterwards.`);
    return {
      ...operation,
      key: id,
      accesses: operation.accesses.map((key) => bike.keyOf(from, key)),
      after: left
        .filter((other) => other.id !== id && before.has(folded(other.operation.name)))
        .map((other) => other.id),
      cautions: [...operation.cautions, ...again],
    };
  });
  return replan(operations, bike.accesses, openNow);
}

/**
 * What is open on the bike after the steps that are behind it. A step counts as what it leads to, passed or skipped ("off
 * already"), but one skipped ahead of its turn counts for nothing yet. What cannot be so (something open on a thing that is
 * closed, or two that exclude each other) is taken as closed: opening it again is a step too many, never one too few.
 */
export function openAt(steps: readonly StepOnCard[], accesses: readonly Access[]): string[] {
  const next = steps.findIndex((step) => step.state === "todo");
  const behind = steps.filter((step, at) => step.state === "done" || (next < 0 ? true : at < next));
  const open = new Set<string>();
  for (const { kind, key, state } of behind) {
    if (state === "todo") continue;
    const access = accesses.find((one) => one.key === key);
    if (!access) continue;
    if (kind === "open") {
      for (const other of accesses)
        if (access.excludes.includes(other.key) || other.excludes.includes(key)) open.delete(other.key);
      open.add(key);
    }
    if (kind === "close") open.delete(key);
  }
  for (let shrunk = true; shrunk; ) {
    const loose = accesses.filter((one) => open.has(one.key) && !one.needs.every((need) => open.has(need)));
    for (const { key } of loose) open.delete(key);
    shrunk = loose.length > 0;
  }
  return accesses.map((one) => one.key).filter((key) => open.has(key));
}
