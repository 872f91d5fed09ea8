import { type CalledOut, CarburettorSection } from "@/app/_ui/CarburettorSection";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { NeedleAndJet } from "@/app/_ui/NeedleAndJet";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { PairInput } from "@/lib/domain/bench/needlePair";
import { needlesAt } from "@/lib/domain/bench/needlePair";
import { Refusal } from "@/lib/domain/refusal";
import { settingDef } from "@/lib/domain/tuning/settings";
import { drawnNeedle } from "../../bench/needles/pair";
import { Learned } from "../Learned";
import { settingText } from "../settingText";

const PLACES: readonly CalledOut[] = [
  "mainJet",
  "pilotJet",
  "clipPosition",
  "mixtureScrewTurns",
  "floatHeightMm",
  "springLengthMm",
  "liftHoleMm",
  "airboxOpeningMm",
];
/** Lift the needle is drawn at: about a third of a usual bore. Source: judgement. */
const LIFT_MM = 12;
const BENCHES = [
  ["trip", "Jet for a trip"],
  ["needles", "Needle against needle"],
  ["slide", "Spring and lift holes"],
  ["breathing", "Airbox and header flow"],
  ["lambda", "Lambda log"],
] as const;

/** The bike's carburettor as its newest sheet has it, what the model was taught, and the way to the bench with it. */
export function Carburettor({ bike, slug, locale }: { bike: BenchBike; slug: string; locale: string }) {
  const [first] = bike.carburettors;
  const settings = first?.settings ?? {};
  const calls = PLACES.flatMap((at) => {
    const def = settingDef(at);
    const known = settings[at];
    if (!def || !known) return [];
    const holes = at === "liftHoleMm" && settings.liftHoleCount ? `${settings.liftHoleCount.value} × ` : "";
    const text = `${holes}${settingText({ setting: at, decimals: def.decimals, unit: def.unit }, known.value, locale)}`;
    return [{ at, name: def.name, text }];
  });
  const needle = needleDrawing(bike);
  return (
    <>
      {bike.card.carburettorType?.value !== "mechanical" && calls.length > 0 && (
        <Section
          title={`Where it is set, ${bike.settingsFrom ? (bike.settingsFrom.kind === "asLeft" ? "as left" : "as found") : "as delivered"}`}
        >
          <CarburettorSection title="Constant-vacuum carburettor in section" calls={calls} />
          {bike.carburettors.length > 1 && <p className="text-[14px] text-soft">Shown: {first?.name}.</p>}
        </Section>
      )}
      {needle && (
        <Section title={`Its needle in the jet at ${LIFT_MM} mm lift, to scale`}>
          {needle.pair ? (
            <div className="max-w-[210px]">
              <NeedleAndJet
                needleJetMm={needle.pair.needleJetMm}
                liftMm={LIFT_MM}
                locale={locale}
                needles={[drawnNeedle("fitted", needle.pair, "a", LIFT_MM, needle.inJetMm)]}
              />
            </div>
          ) : (
            <Note title={needle.trouble}>Look at needle and needle jet on the model card.</Note>
          )}
        </Section>
      )}
      <Section title={`What ${bike.model} was taught`}>
        <Learned calibration={bike.calibration} locale={locale} />
      </Section>
      <p className="mb-5 flex flex-wrap gap-3">
        <LinkButton href={`/s/${slug}/bikes/${bike.id}/needle`}>
          Needle: measured, reshaped, earlier
        </LinkButton>
        <LinkButton href={`/s/${slug}/bikes/${bike.id}/parts`}>Jets, springs, holes as described</LinkButton>
      </p>
      <nav aria-label="On the bench with this bike" className="mb-7 flex flex-wrap gap-x-6 print:hidden">
        {BENCHES.map(([path, name]) => (
          <Link key={path} href={`/s/${slug}/bench/${path}?bike=${bike.id}`} className="in-line text-brass">
            {name}
          </Link>
        ))}
      </nav>
    </>
  );
}

type Drawing =
  | { readonly pair: PairInput; readonly inJetMm: number; readonly trouble: "" }
  | { readonly pair: null; readonly inJetMm: 0; readonly trouble: string };

/** The fitted needle where the card knows it and its jet; in words where they cannot be together. */
function needleDrawing({ card, carburettors }: BenchBike): Drawing | null {
  const needle = carburettors[0]?.needle ?? card.needle;
  const needleJetMm = card.needleJetMm?.value;
  if (!needle || !needleJetMm) return null;
  const shape = needle.value;
  const clip = carburettors[0]?.settings.clipPosition?.value ?? shape.clipAt;
  const one = { shape, raisedGrooves: shape.clips === 0 ? 0 : clip - shape.clipAt };
  const pair: PairInput = {
    a: one,
    b: one,
    grooveStepMm: shape.clipStepMm,
    needleJetMm,
    mainJet: carburettors[0]?.settings.mainJet?.value ?? 140,
    convention: card.jetConvention?.value ?? "bore",
    fullLiftMm: Math.max(LIFT_MM, card.boreMm?.value ?? LIFT_MM),
  };
  try {
    const inJetMm = needlesAt(pair, LIFT_MM).a;
    drawnNeedle("fitted", pair, "a", LIFT_MM, inJetMm);
    return { pair, inJetMm, trouble: "" };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { pair: null, inJetMm: 0, trouble: cause.message };
  }
}
