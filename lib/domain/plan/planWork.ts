import type { Access, Operation } from "../packages/recipe";
import { Refusal } from "../refusal";
import { type AccessMap, accessMap, refuseApart } from "./accesses";
import { leastOpenings } from "./order";
import type { WorkPlan } from "./plan";
import { MOST_WORK } from "./sequence";
import { stepsOf } from "./steps";

/**
 * The order of work with the least total minutes, from a closed bike to a closed bike. Operations come after those named in
 * their `after` where both are given; every access an operation needs, and what that access needs, is open while it is
 * done; accesses that exclude each other are never open together. Proven least where a bounded amount of work suffices for that
 * (about all of 16 operations, and most longer lists); otherwise `gapMinutes` says how far from least it can be. Refuses an operation given twice, unknown
 * accesses, an operation that needs accesses which exclude each other, and circles.
 * An operation key in `after` that is not given is ignored. `work` bounds the search.
 */
export function planWork(
  operations: readonly Operation[],
  accesses: readonly Access[],
  work: number = MOST_WORK,
): WorkPlan {
  return replan(operations, accesses, [], work);
}

/**
 * The same from where the bike stands: `openNow` are the accesses open at this moment, `remaining` the operations not yet
 * done. Refuses an `openNow` that
 * cannot be: an access open without what it needs, or two open that exclude each other.
 */
export function replan(
  remaining: readonly Operation[],
  accesses: readonly Access[],
  openNow: readonly string[],
  work: number = MOST_WORK,
): WorkPlan {
  const map = accessMap(accesses);
  const twice = remaining.find(
    (operation, i) => remaining.findIndex((other) => other.key === operation.key) !== i,
  );
  if (twice) throw new Refusal(`“${twice.name}” is in the work twice.`, "Leave one of them out.");
  const open = standing(map, openNow);
  const found = leastOpenings(remaining, map, open, { left: work });
  const ordered = found.order.flatMap((index) => remaining[index] ?? []);
  const steps = stepsOf(ordered, map, open);
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
  return {
    steps,
    minutes,
    tools: [...new Set(steps.flatMap((step) => step.tools))],
    exact: found.exact,
    gapMinutes: found.cost - found.bound,
  };
}

function standing(map: AccessMap, openNow: readonly string[]): readonly string[] {
  const open = map.withNeeds(openNow);
  const shut = open.find((key) => !openNow.includes(key));
  if (shut !== undefined)
    throw new Refusal(
      `Something is open that needs “${map.get(shut).name}” open, but that is closed.`,
      "Say again what is open on the bike.",
    );
  refuseApart(map, open, "The bike");
  return open;
}
