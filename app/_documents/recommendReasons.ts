import { figureText } from "@/app/_ui/format";
import type { Recommendation } from "@/lib/domain/bench/recommendTypes";
import type { Reason } from "@/lib/domain/reason";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import type { JetCandidate, JetChoice } from "@/lib/domain/tuning/targetTypes";

/** How far a jet is off what is wanted. */
export const jetOff = (jet: JetCandidate, locale: string): string =>
  `${figureText(Math.abs(jet.phiError) * 100, locale, 1)} % ${jet.phiError < 0 ? "lean" : "rich"}`;

/** The chance that it runs lean. */
export const jetRisk = (jet: JetCandidate): string => `${Math.round(jet.leanRisk * 100)} %`;

/** The words by which a page asks what one of its figures rests on. */
export const WHY = {
  jet: "jet",
  density: "density",
  slideRise: "slide-rise",
  springRate: "spring-rate",
  oxygen: "oxygen",
  curve: "curve",
  setting: (carburettor: string, key: string) => `setting ${carburettor} ${key}`,
  corner: (name: string) => `corner ${name}`,
} as const;

/** What a figure of a recommended setting rests on; undefined where it has no such figure. */
export function recommendReasons(
  { sheet, corners, worst }: Recommendation,
  of: string,
  locale: string,
): readonly Reason[] | undefined {
  const [first] = sheet.carburettors;
  if (of === WHY.curve && first) {
    // Its points are not asked for: two are the fewest.
    const { because, assumptions } = fuelCurve(first.after, worst.air, 2);
    return [...because, ...assumptions];
  }
  const found = new Map<string, readonly Reason[] | undefined>([
    [WHY.jet, first?.mainJet ? jetReasons(first.mainJet, locale) : undefined],
    [WHY.density, first?.mainJet?.density?.because],
    [WHY.slideRise, first?.slideRise?.because],
    [WHY.springRate, first?.springRate?.because],
    [WHY.oxygen, sheet.relativeDensity.toBaseline.because],
    ...sheet.carburettors.flatMap((c) =>
      c.settings.map((s) => [WHY.setting(c.name, s.key), s.because] as const),
    ),
    ...corners.map((corner) => [WHY.corner(corner.name), corner.air.because] as const),
  ]);
  return found.get(of);
}

function jetReasons({ because, exact, chosen, runnerUp }: JetChoice, locale: string): Reason[] {
  return [
    ...because,
    {
      fact: `Exactly ${exact.toFixed(1)} would meet the target`,
      from: "fuel model",
      effect: `${chosen.size}: ${jetOff(chosen, locale)}`,
    },
    ...(runnerUp
      ? [
          {
            fact: `Next best: ${runnerUp.size}`,
            from: "least expected loss, lean counting three times rich",
            effect: `${jetOff(runnerUp, locale)}, lean risk ${jetRisk(runnerUp)}`,
          },
        ]
      : []),
  ];
}
