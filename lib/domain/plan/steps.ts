import { accessTitles } from "../packages/accessTitles";
import type { Operation } from "../packages/recipe";
import type { AccessMap } from "./accesses";
import type { PlannedStep } from "./plan";
import { inTheWayOf } from "./swarf";

interface Span {
  readonly access: string;
  /** Place in the order of the operation it is opened for; -1 when it was open from the start. */
  readonly from: number;
  /** Place of the last operation that needs it while it is open; -1 when none does. */
  last: number;
}

/**
 * The steps of a plan: before each operation what it opens, after it what nothing later needs while it is open.
 * Closing as soon as that costs the same as closing when something is in the way, and leaves less open and less to go
 * missing. Opening and closing are priced at the grade of the operation that they are for.
 */
export function stepsOf(
  ordered: readonly Operation[],
  map: AccessMap,
  openNow: readonly string[],
): PlannedStep[] {
  const spans = spansOf(ordered, map, openNow);
  const open = new Set(openNow);
  const steps: PlannedStep[] = [];
  const turn = (kind: "open" | "close", key: string, grade: string) => {
    const access = map.get(key);
    if (kind === "close") open.delete(key);
    steps.push({
      kind,
      key,
      name: accessTitles(access)[kind],
      access: access.name,
      instruction: "",
      minutes: kind === "open" ? access.openMinutes : access.closeMinutes,
      grade,
      tools: access.tools,
      cautions: kind === "open" ? access.cautions : [],
      holdPoints: [],
      checks: kind === "close" ? access.closingChecks : [],
      openAccesses: [...open],
    });
    if (kind === "open") open.add(key);
  };
  const closeAfter = (place: number, grade: string) => {
    const due = spans.filter((span) => span.last === place).map((span) => span.access);
    for (const key of map
      .withNeeds(due)
      .filter((name) => due.includes(name))
      .reverse())
      turn("close", key, grade);
  };

  closeAfter(-1, ordered[0]?.grade ?? "");
  for (const [place, operation] of ordered.entries()) {
    const due = spans.filter((span) => span.from === place).map((span) => span.access);
    for (const key of map.withNeeds(due).filter((name) => due.includes(name)))
      turn("open", key, operation.grade);
    const { key, name, instruction, minutes, grade, tools, cautions, holdPoints, makes } = operation;
    steps.push({
      kind: "operation",
      key,
      name,
      instruction,
      minutes,
      grade,
      tools,
      cautions,
      holdPoints,
      ...(makes?.length ? { makes } : {}),
      checks: [],
      openAccesses: [...open],
    });
    closeAfter(place, operation.grade);
  }
  return steps;
}

function spansOf(ordered: readonly Operation[], map: AccessMap, openNow: readonly string[]): Span[] {
  const spans: Span[] = openNow.map((access) => ({ access, from: -1, last: -1 }));
  const current = new Map(spans.map((span) => [span.access, span]));
  for (const [place, operation] of ordered.entries()) {
    const required = map.withNeeds(operation.accesses);
    for (const key of inTheWayOf(map, [...current.keys()], required, operation)) current.delete(key);
    for (const access of required) {
      const span = current.get(access) ?? { access, from: place, last: place };
      if (span.from === place) spans.push(span);
      span.last = place;
      current.set(access, span);
    }
  }
  return spans;
}
