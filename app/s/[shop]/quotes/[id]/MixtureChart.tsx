import { type FeltMark, LambdaChart } from "@/app/_ui/LambdaChart";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { Mixture } from "@/lib/data/quotes/draftView";
import type { QuotePage } from "@/lib/data/quotes/get";
import type { FuelCurve } from "@/lib/domain/tuning/targetTypes";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { shownConditions } from "@/lib/schemas/quoteConditions";

const points = (curve: FuelCurve) =>
  curve.points.map((p) => ({ x: p.throttle, y: p.lambda, low: p.low, high: p.high }));

/** The mixture before and after, for each carburettor whose curve differs from the first. */
export function MixtureChart({
  quote,
  mixture,
  marks,
  system,
}: {
  quote: QuotePage;
  mixture: readonly Mixture[];
  /** Where the bike was felt lean or rich before the quote. */
  marks: readonly FeltMark[];
  system: UnitSystem;
}) {
  const { season } = quote.conditions;
  const { altitude, altitudeUnit, temperature, temperatureUnit } = shownConditions(quote.conditions, system);
  const heat = temperature === null ? "" : `, ${temperature} ${UNITS[temperatureUnit].sign}`;
  const place = `${altitude} ${UNITS[altitudeUnit].sign}, ${season}${heat}`;
  const title = `Mixture over throttle, ${place}`;
  const [first] = mixture;
  if (!first)
    return (
      <Section title={title}>
        <Note>The options ticked change no setting, so there is no curve to show.</Note>
      </Section>
    );
  const shown = mixture.filter(
    (m, at) => at === 0 || JSON.stringify(points(m.after)) !== JSON.stringify(points(first.after)),
  );
  return (
    <Section title={title}>
      {shown.map((m) => {
        const targets = m.after.points.map((p) => p.target);
        const wanted = { low: Math.min(...targets), high: Math.max(...targets) };
        const name = shown.length > 1 ? `${title}, ${m.name}` : title;
        return (
          <div key={m.name}>
            {shown.length > 1 && <h3 className="text-[14px] text-soft">{m.name}</h3>}
            <LambdaChart
              title={name}
              description={`Lambda from closed to full throttle with the settings as found and with the target settings, each in its likely range. ${m.after.because.map((r) => r.fact).join(". ")}`}
              before={points(m.before)}
              after={points(m.after)}
              wanted={wanted}
              felt={marks}
              locale={quote.terms.locale}
            />
          </div>
        );
      })}
      {marks.length > 0 && (
        <Note title="As found may be wrong.">
          On the intake it was felt{" "}
          {marks.map((m) => `${m.sign} at ${Math.round(m.throttle * 100)} % throttle`).join(", ")}: the curve
          as found is moved a little towards that. A feeling counts little: a lambda log there would settle
          it.
        </Note>
      )}
      {first.after.assumptions.length > 0 && (
        <details className="text-[14px] text-soft">
          <summary className="inline-flex min-h-6 items-center underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
            {first.after.assumptions.length} assumptions widen the range
          </summary>
          <ul className="mt-1 list-disc pl-5">
            {first.after.assumptions.map((a) => (
              <li key={`${a.fact} ${a.effect}`}>
                {a.fact}
                {a.effect && `: ${a.effect}`}
              </li>
            ))}
          </ul>
        </details>
      )}
    </Section>
  );
}
