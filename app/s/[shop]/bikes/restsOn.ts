import type { TargetSetting } from "@/lib/domain/tuning/targetTypes";

/** What a setting of a target rests on, in a word: it stands as found, nobody looked, somebody chose it, or the model judged it. */
export function restsOn({ firmness, how, because }: TargetSetting): string {
  if (how === "assumed") return "assumed";
  if (firmness === "firm") return "firm, as found";
  return because.every((reason) => reason.from === "package") ? "as chosen" : "judged";
}
