import { curveText } from "@/app/_ui/curveText";
import { lambdaFrame } from "@/app/_ui/LambdaChart";
import type { FeltMark, LambdaFrame } from "@/app/_ui/LambdaPicture";
import type { Mixture } from "@/lib/data/quotes/draftView";
import type { QuotePage } from "@/lib/data/quotes/get";
import type { FuelCurve } from "@/lib/domain/tuning/targetTypes";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { shownConditions } from "@/lib/schemas/quoteConditions";

export interface MixtureShown {
  readonly title: string;
  /** One for each carburettor whose curve differs from the first. */
  readonly charts: readonly {
    readonly key: string;
    readonly description: string;
    readonly before: string;
    readonly after: string;
    readonly wanted: { readonly low: number; readonly high: number };
    readonly frame: LambdaFrame;
  }[];
  /** Where the bike was felt lean or rich before the quote. */
  readonly marks: readonly FeltMark[];
  readonly assumptions: readonly string[];
}

const points = (curve: FuelCurve) =>
  curve.points.map((p) => ({ x: p.throttle, y: p.lambda, low: p.low, high: p.high }));

/** The mixture before and after, as it is shown. */
export function mixtureShown(
  quote: QuotePage,
  mixture: readonly Mixture[],
  system: UnitSystem,
): MixtureShown {
  const { season } = quote.conditions;
  const { altitude, altitudeUnit, temperature, temperatureUnit } = shownConditions(quote.conditions, system);
  const heat = temperature === null ? "" : `, ${temperature} ${UNITS[temperatureUnit].sign}`;
  const [first] = mixture;
  const distinct = mixture.filter(
    (m, at) =>
      at === 0 || JSON.stringify(points(m.after)) !== JSON.stringify(points(first?.after ?? m.after)),
  );
  return {
    title: `Mixture over throttle, ${altitude} ${UNITS[altitudeUnit].sign}, ${season}${heat}`,
    charts: distinct.map((m) => {
      const [before, after] = [points(m.before), points(m.after)];
      const targets = m.after.points.map((p) => p.target);
      const wanted = { low: Math.min(...targets), high: Math.max(...targets) };
      return {
        key: m.name,
        description: `Lambda from closed to full throttle with the settings as found and with the target settings, each in its likely range. ${m.after.because.map((r) => r.fact).join(". ")}`,
        before: curveText(before),
        after: curveText(after),
        wanted,
        frame: lambdaFrame({ before, after, wanted }),
      };
    }),
    marks: quote.intake?.marks ?? [],
    assumptions: (first?.after.assumptions ?? []).map((a) => `${a.fact}${a.effect ? `: ${a.effect}` : ""}`),
  };
}
