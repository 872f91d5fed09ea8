import type { BillingUnit } from "../labour/billing";
import type { TimeEntry } from "../labour/entries";
import { atGrades, sideBySide } from "../labour/sideBySide";
import { roundHalfAway } from "../money/round";
import type { LabourFact, PartFact } from "../pricing/facts";
import { saying } from "../pricing/said";
import { Refusal } from "../refusal";
import { taxMark } from "../tax/rates";

export interface WorkedStep {
  readonly id: number;
  readonly minutes: number;
  readonly grade: string;
}

export interface GradeRate {
  readonly code: string;
  readonly name: string;
  readonly ratePerHourMinor: number;
  readonly costPerHourMinor: number;
  /** False until the shop has entered a rate of its own; absent: it has. */
  readonly rateSet?: boolean;
}

/**
 * Labour as worked: the minutes spent of each grade, rounded once to billing units; grades as atGrades has them. `steps` are all of
 * the job's, `entries` those that are billed. Refuses while time runs.
 */
export function workedLabour(
  steps: readonly WorkedStep[],
  entries: readonly TimeEntry[],
  grades: readonly GradeRate[],
  unit: BillingUnit,
  now: number,
): LabourFact[] {
  if (entries.some((entry) => entry.endedAt === null))
    throw new Refusal("Time still runs on this job.", "Stop the clock on the job's card, then look again.");
  const graded = atGrades(
    steps,
    grades.map((grade) => grade.code),
  );
  return sideBySide(graded.steps, entries, unit, now, graded.main).grades.map(
    ({ grade: code, spentMinutes, billedMinutes }) => {
      const grade = grades.find((one) => one.code === code);
      if (!grade || grade.rateSet === false)
        throw new Refusal(
          grade ? `The price of an hour of ${grade.name} is not set.` : "The shop has no labour rate.",
          "An owner enters it under Shop, Labour and markup; then look again.",
        );
      return {
        key: `worked-${grade.code}`,
        name: `Work, ${grade.name.toLowerCase()}`,
        ...saying("labour", "Work"),
        minutes: billedMinutes,
        grade: grade.name,
        ratePerHourMinor: grade.ratePerHourMinor,
        costPerHourMinor: grade.costPerHourMinor,
        because: [
          {
            fact: `${roundHalfAway(spentMinutes)} min spent`,
            from: "time entries of the job",
            effect: `${billedMinutes} min, rounded up once to ${unit === "tenths" ? "tenths of an hour" : "whole minutes"}`,
          },
        ],
      };
    },
  );
}

/** A move of a part on the job: negative is used, positive came back. */
export interface UsedMove {
  readonly quantityMilli: number;
  readonly unitCostE4: number | null;
  readonly part: {
    readonly code: string;
    readonly name: string;
    readonly unit: string;
    readonly priceE4: number | null;
    readonly costE4: number | null;
    /** Z, E or O where it is not taxed as parts are. */
    readonly taxCategory?: string;
  };
}

/** Parts really used: what went out for the job less what came back; the unit cost is the mean of what went out. */
export function workedParts(moves: readonly UsedMove[]): PartFact[] {
  const byCode = Map.groupBy(moves, (move) => move.part.code);
  return [...byCode.values()].flatMap((own) => {
    const first = own[0];
    const quantityMilli = own.reduce((sum, move) => sum - move.quantityMilli, 0);
    if (!first || quantityMilli <= 0) return [];
    const { code, name, unit, priceE4, costE4 } = first.part;
    const mark = taxMark(first.part.taxCategory);
    const out = own.filter((move) => move.quantityMilli < 0);
    const costed = out.filter((move) => move.unitCostE4 !== null);
    const weight = costed.reduce((sum, move) => sum - move.quantityMilli, 0);
    const worth = costed.reduce((sum, move) => sum - move.quantityMilli * (move.unitCostE4 ?? 0), 0);
    const unitCostE4 = weight > 0 ? roundHalfAway(worth / weight) : costE4;
    return [
      {
        code,
        name,
        unit,
        quantityMilli,
        unitCostE4,
        unitPriceE4: priceE4,
        ...(mark ? { taxMark: mark } : {}),
      },
    ];
  });
}
