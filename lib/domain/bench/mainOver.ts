import type { Reason } from "../reason";
import { Refusal } from "../refusal";
import { leastLoss } from "../tuning/choose";
import { jetNote } from "../tuning/jetNote";
import type { SettingChange } from "../tuning/settingChange";
import { settingDef } from "../tuning/settings";
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
 * is least bad, not more than one step leaner than found unless full load was measured. Throws Refusal when the main jet is
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
  const measured = (input.calibration?.find((c) => c.region === "main")?.samples ?? 0) > 0;
  const floor = measured ? 0 : fitted - (settingDef("mainJet")?.step ?? 2.5) - 1e-9;
  const wanted = pick(sizes, needed, fitted);
  const allowed = sizes.filter((s) => s.size >= floor);
  const chosen = wanted.size >= floor ? wanted : pick(allowed, needed, fitted);
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
      ...asked.map((a) => ({
        fact: `${a.name}: exactly ${a.exact.toFixed(1)} would meet the target`,
        from: "fuel model: air, breathing, slide and needle against the accepted setup",
      })),
      {
        fact: `Worst corner of ${chosen.size}: ${chosen.worst}`,
        from: "least bad worst corner, lean counting three times rich",
        effect: `${(Math.abs(chosen.phiError) * 100).toFixed(1)} % ${chosen.phiError < 0 ? "lean" : "rich"}`,
      },
    ],
    refusals: chosen === wanted ? [] : [heldBack(found.name, wanted.size, chosen.size, fitted)],
    choice: (one) => ({
      chosen: candidate(chosen),
      runnerUp: runnerUp ? candidate(runnerUp) : null,
      nearestInDrawer: drawer ? candidate(drawer) : null,
      best: candidate(at(sizes) ?? chosen),
      inDrawer: isFitted || chosen.free >= needed,
      note: jetNote({ needed, convention }, candidate(chosen), isFitted, drawer ? candidate(drawer) : null),
      because: one.because,
    }),
  };
}

function heldBack(carburettor: string, wanted: number, allowed: number, fitted: number): TargetRefusal {
  return {
    carburettor,
    setting: "mainJet",
    wanted,
    allowed,
    message: `Main jet ${wanted} is more than one step leaner than ${fitted}; nothing was measured.`,
    remedy: `Fit ${allowed}, measure lambda at full load there, then compute again.`,
  };
}
