import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { recordOfShape } from "@/lib/domain/tuning/needleRecord";
import type { CarburettorTarget, TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { NeedleBeside } from "../../_needle/NeedleBeside";
import { NeedleStations } from "../../_needle/NeedleStations";

/** Lift that is drawn: about a third of a usual bore. Source: judgement. */
const LIFT_MM = 12;

/** What the work does to the needle, drawn to scale, and where it is to sit. Nothing where it leaves the needle alone. */
export function NeedleSection({ sheet, locale }: { sheet: TargetSheet | null; locale: string }) {
  const changed = (sheet?.carburettors ?? []).filter((c) => c.needle || moved(c));
  const shown = changed.filter(
    (c, i) =>
      i === 0 ||
      JSON.stringify([c.needle, c.needlePosition]) !==
        JSON.stringify([changed[0]?.needle, changed[0]?.needlePosition]),
  );
  return shown.map((c) => (
    <Section key={c.name} title={shown.length > 1 ? `Needle, ${c.name}` : "Needle"}>
      <Position target={c} locale={locale} />
      {c.needle && (
        <>
          <NeedleStations
            caption="Diameters before and after"
            columns={[
              { name: "as found", record: recordOfShape(c.needle.before, "delivered") },
              { name: "after", record: recordOfShape(c.needle.after, "reshaped") },
            ]}
            locale={locale}
          />
          {c.needle.gauge && <Gauge gauge={c.needle.gauge} locale={locale} />}
          {c.after.card.needleJetMm ? (
            <NeedleBeside
              needles={[
                { name: "as found", shape: c.needle.before, raisedMm: 0 },
                { name: "after", shape: c.needle.after, raisedMm: c.needlePosition?.differenceMm ?? 0 },
              ]}
              needleJetMm={c.after.card.needleJetMm.value}
              liftMm={LIFT_MM}
              fullLiftMm={c.after.card.boreMm?.value ?? 38}
              locale={locale}
            />
          ) : (
            <Note title="The needle jet is not known.">
              Measure its bore for the model card: the ring follows from it.
            </Note>
          )}
        </>
      )}
    </Section>
  ));
}

const moved = (c: CarburettorTarget): boolean => (c.needlePosition?.differenceMm ?? 0) !== 0;

function Position({ target, locale }: { target: CarburettorTarget; locale: string }) {
  const p = target.needlePosition;
  if (!p) return null;
  const mm = (value: number) => `${figureText(Math.abs(value), locale, 2)} mm`;
  const way = p.differenceMm > 0 ? "up" : "down";
  const text =
    p.differenceMm === 0
      ? "It stays where it sits."
      : p.to === null
        ? `It goes ${way} by ${mm(p.differenceMm)} from where it is found.`
        : p.by === "clip"
          ? `Clip from groove ${p.from} to ${p.to}: ${way} by ${mm(p.differenceMm)}.`
          : `Shims below the shoulder from ${figureText(p.from ?? 0, locale, 2)} to ${figureText(p.to, locale, 2)} mm: ${way} by ${mm(p.differenceMm)}.`;
  return (
    <p className="mb-3">
      <Opens name="Needle height" because={p.because} firmness="starting point">
        {text}
      </Opens>
      {p.question && <span className="block text-soft">{p.question}</span>}
    </p>
  );
}

function Gauge({
  gauge,
  locale,
}: {
  gauge: NonNullable<NonNullable<CarburettorTarget["needle"]>["gauge"]>;
  locale: string;
}) {
  const at = (mm: number | null) => (mm === null ? "nowhere" : `at ${figureText(mm, locale, 1)} mm`);
  return (
    <p className="mb-3">
      A ring gauge of {figureText(gauge.gaugeMm, locale, 2)} mm stops {at(gauge.beforeMm)} below the shoulder
      before the work and {at(gauge.afterMm)} after it.
    </p>
  );
}
