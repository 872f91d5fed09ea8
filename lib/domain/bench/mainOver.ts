import type { Reason } from "../reason";
import { Refusal } from "../refusal";
import { leastLoss } from "../tuning/choose";
import { mainLimitsOver } from "../tuning/jetLimits";
import { jetNote } from "../tuning/jetNote";
import { heldBack } from "../tuning/jetStep";
import type { SettingChange } from "../tuning/settingChange";
import type { JetCandidate, JetChoice, TargetRefusal } from "../tuning/targetTypes";
import { mainQuestion } from "./mainQuestion";
import type { RecommendInput } from "./recommendTypes";
import { pick, sizesOver, widened } from "./trip";
import type { TripSize } from "./tripTypes";

export interface MainOver {
  readonly chosen: TripSize;
  readonly because: readonly Reason[];
  readonly refusals: readonly TargetRefusal[];
  /** What of a jet choice is another over a range than in one air. */
  readonly choice: (one: JetChoice) => Partial<JetChoice>;
}

/**
 * The main jet for the corners of a range, with everything else as `changes` sets it: of all sizes the one whose worst corner
 * is least bad, within jetLimits over all corners unless full load was measured. Throws Refusal when the main jet is
 * not known as found, or no size meets a corner. Source: minimax of the fuel model, judgement.
 */
export function mainOver(input: RecommendInput, changes: readonly SettingChange[]): MainOver {
  const [found] = input.carburettors;
  const fitted = found?.settings.mainJet?.value;
  if (!found || fitted === undefined)
    throw new Refusal("The main jet fitted is not known.", "Record it as found first.", {
      mainJet: "Needed: a range counts from it.",
    });
  const needed = input.carburettors.length;
  const asked = input.airs.map(({ name, air }) => ({ name, ...mainQuestion(input, changes, fitted, air) }));
  const jets = widened(input.jets, fitted, asked);
  const sizes = sizesOver(asked.map((a) => ({ ...a, question: { ...a.question, jets } })));
  const { low, high, density } = mainLimitsOver(
    asked.map((a) => a.limits),
    fitted,
  );
  const inside = (s: TripSize) => s.size >= low && s.size <= high;
  const wanted = pick(sizes, needed, fitted);
  const allowed = sizes.filter(inside);
  const chosen = inside(wanted) ? wanted : pick(allowed, needed, fitted);
  const at = (list: readonly TripSize[]) => list[leastLoss(list)];
  const convention = asked[0]?.question.convention ?? "bore";
  const listed = (size: number) => jets.find((j) => j.setting === "mainJet" && j.size === size);
  const candidate = ({ worst: _, ...s }: TripSize): JetCandidate => ({
    ...s,
    convention,
    orderable: input.jets.length > 0 && (listed(s.size)?.orderable ?? false),
  });
  const drawer = at(sizes.filter((s) => s.free >= needed));
  const runnerUp = at(allowed.filter((s) => s !== chosen));
  const isFitted = chosen.size === fitted;
  return {
    chosen,
    because: [
      ...density.because,
      ...asked.map((a) => ({
        fact: `${a.name}: exactly ${a.exact.toFixed(1)} would meet the target`,
        from: "fuel model: air, breathing, slide and needle against the accepted setup",
        firmness: "starting point" as const,
      })),
      {
        fact: `Worst corner of ${chosen.size}: ${chosen.worst}`,
        from: "least bad worst corner, lean counting three times rich",
        effect: `${(Math.abs(chosen.phiError) * 100).toFixed(1)} % ${chosen.phiError < 0 ? "lean" : "rich"}`,
      },
    ],
    refusals:
      chosen === wanted
        ? []
        : [heldBack("mainJet", found.name, wanted.size, chosen.size, fitted, density.size)],
    choice: (one) => ({
      chosen: candidate(chosen),
      runnerUp: runnerUp ? candidate(runnerUp) : null,
      nearestInDrawer: drawer ? candidate(drawer) : null,
      best: candidate(at(sizes) ?? chosen),
      inDrawer: isFitted || chosen.free >= needed,
      note: jetNote({ needed, convention }, candidate(chosen), isFitted, drawer ? candidate(drawer) : null),
      density,
      because: one.because,
    }),
  };
}
