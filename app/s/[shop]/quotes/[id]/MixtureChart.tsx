import { curveOf } from "@/app/_ui/curveText";
import { LambdaPicture } from "@/app/_ui/LambdaPicture";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { MixtureShown } from "./shown/mixture";

/** The mixture before and after, for each carburettor whose curve differs from the first. */
export function MixtureChart({ mixture, locale }: { mixture: MixtureShown; locale: string }) {
  const { title, charts, marks, assumptions } = mixture;
  if (charts.length === 0)
    return (
      <Section title={title}>
        <Note>The options ticked change no setting, so there is no curve to show.</Note>
      </Section>
    );
  return (
    <Section title={title}>
      {charts.map(({ key: name, description, before, after, wanted, frame }) => (
        <div key={name}>
          {charts.length > 1 && <h3 className="text-[14px] text-soft">{name}</h3>}
          <LambdaPicture
            title={charts.length > 1 ? `${title}, ${name}` : title}
            description={description}
            before={curveOf(before)}
            after={curveOf(after)}
            wanted={wanted}
            felt={marks}
            locale={locale}
            frame={frame}
          />
        </div>
      ))}
      {marks.length > 0 && (
        <Note title="As found may be wrong.">
          On the intake it was felt{" "}
          {marks.map((m) => `${m.sign} at ${Math.round(m.throttle * 100)} % throttle`).join(", ")}: the curve
          as found is moved a little towards that. A feeling counts little: a lambda log there would settle
          it.
        </Note>
      )}
      {assumptions.length > 0 && (
        <details className="text-[14px] text-soft">
          <summary className="inline-flex min-h-6 items-center underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
            {assumptions.length} assumptions widen the range
          </summary>
          <ul className="mt-1 list-disc pl-5">
            {assumptions.map((said) => (
              <li key={said}>{said}</li>
            ))}
          </ul>
        </details>
      )}
    </Section>
  );
}
