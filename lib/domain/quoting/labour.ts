import { roundHalfAway } from "../money/round";
import type { WorkPlan } from "../plan/plan";
import type { LabourFact } from "../pricing/facts";
import { saying } from "../pricing/said";
import { keyIn, type WorkHead, workOf } from "./composeWorks";
import type { Grade } from "./facts";

export type Grades = ReadonlyMap<string, Grade>;

const EMPTY: Omit<Grade, "code"> = { name: "Work", ratePerHourMinor: 0, costPerHourMinor: 0 };

/**
 * One line of work for each grade, of each work where the quote lists several, then one of opening and closing for each grade that
 * opens, named where several do: what is opened once belongs to no single work.
 */
export function labourOf(
  plan: WorkPlan,
  grades: Grades,
  works: readonly WorkHead[] | undefined,
): LabourFact[] {
  const codes = [...new Set(plan.steps.map((s) => s.grade))];
  const opening = new Set(
    plan.steps.filter((s) => s.kind !== "operation" && s.minutes > 0).map((s) => s.grade),
  );
  const line = (code: string, opens: boolean, work?: string): LabourFact[] => {
    const steps = plan.steps.filter(
      (s) =>
        s.grade === code &&
        (s.kind === "operation") !== opens &&
        s.minutes > 0 &&
        (work === undefined || workOf(works ?? [], s.key) === work),
    );
    if (steps.length === 0) return [];
    const grade = grades.get(code) ?? { code, ...EMPTY };
    const named = grade.name.toLowerCase();
    const opened = opening.size > 1 ? `Opening up and closing, ${named}` : "Opening up and closing";
    return [
      {
        key: keyIn(work ?? "", opens ? `opening-${code}` : `work-${code}`),
        ...(work === undefined ? {} : { work }),
        name: opens ? opened : `Work, ${named}`,
        ...(opens ? saying("opening", "Opening up and closing") : saying("labour", "Work")),
        minutes: steps.reduce((sum, s) => sum + s.minutes, 0),
        grade: grade.name,
        ratePerHourMinor: grade.ratePerHourMinor,
        costPerHourMinor: grade.costPerHourMinor,
        because: steps.map((s) => ({
          fact: s.name,
          from: "work plan",
          effect: `${s.minutes} min`,
        })),
      },
    ];
  };
  const worked = works
    ? works.flatMap(({ key }) => codes.flatMap((code) => line(code, false, key)))
    : codes.flatMap((code) => line(code, false));
  return [...worked, ...codes.flatMap((code) => line(code, true))];
}

/** The price of saved minutes, at the rate of the grade that opens most. */
export function savedOf(plan: WorkPlan, savedMinutes: number, grades: Grades): number {
  const minutes = new Map<string, number>();
  for (const s of plan.steps)
    if (s.kind !== "operation") minutes.set(s.grade, (minutes.get(s.grade) ?? 0) + s.minutes);
  const most = [...minutes].sort((a, b) => b[1] - a[1])[0]?.[0];
  const rate = most === undefined ? 0 : (grades.get(most)?.ratePerHourMinor ?? 0);
  return roundHalfAway((savedMinutes * rate) / 60);
}

/** Names of the grades that some labour is charged at although the shop has not entered their rate. */
export function unsetGradesOf(plan: WorkPlan, grades: Grades): string[] {
  const unset = [...grades.values()].filter((grade) => grade.rateSet === false);
  return unset
    .filter(({ code }) => plan.steps.some((step) => step.grade === code && step.minutes > 0))
    .map((grade) => grade.name);
}

/** Grades that the plan takes time of and the shop does not have. */
export function unknownGradesOf(plan: WorkPlan, grades: Grades): string[] {
  return [...new Set(plan.steps.filter((s) => s.minutes > 0).map((s) => s.grade))].filter(
    (code) => !grades.has(code),
  );
}
