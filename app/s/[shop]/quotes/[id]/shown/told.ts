import type { IntakeView } from "@/lib/data/intakes/get";
import type { GroupView } from "@/lib/domain/quoting/options";
import type { RuleOut } from "@/lib/domain/tuning/rideTypes";
import { observedText } from "@/lib/domain/tuning/symptoms";

export interface ToldShown {
  /** Path of the intake in the shop. */
  readonly at: string;
  readonly complaint: string;
  /** What was felt wrong, and the names of ticked options that answer it. */
  readonly felt: readonly { readonly key: string; readonly by: string }[];
  readonly ruleOut: readonly RuleOut[];
}

/** What the bike is complained of, and which of it the ticked options answer. */
export function toldShown(intake: IntakeView, groups: readonly GroupView[]): ToldShown {
  const ticked = groups.flatMap((group) => group.options).filter((option) => option.ticked);
  const felt = intake.observations.filter((one) => one.sign !== "good").map(observedText);
  return {
    at: `bikes/${intake.bikeId}/intakes/${intake.id}`,
    complaint: intake.complaint,
    felt: felt.map((text) => ({
      key: text,
      by: ticked
        .filter((option) => option.answers.includes(text))
        .map((option) => option.name)
        .join(", "),
    })),
    ruleOut: intake.ruleOut,
  };
}
