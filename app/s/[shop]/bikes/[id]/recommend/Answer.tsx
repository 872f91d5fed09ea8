import type { ReactNode } from "react";
import { WHY } from "@/app/_documents/recommendReasons";
import { Caution } from "@/app/_ui/Caution";
import { figureText } from "@/app/_ui/format";
import type { FeltMark } from "@/app/_ui/LambdaPicture";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { Recommendation } from "@/lib/domain/bench/recommendTypes";
import { shimAdvice } from "@/lib/domain/bench/shimAdvice";
import type { SizeInDrawer } from "@/lib/domain/sheets/howToMake";
import { fuelCurve, fuelOverSpeed } from "@/lib/domain/tuning/fuelCurve";
import { Assumptions, BenchWarnings, Verify } from "../../../bench/Verify";
import { Learned } from "../../Learned";
import { Narrower } from "../../Narrower";
import { CornerTable } from "./CornerTable";
import { Curves } from "./Curves";
import { MainJet } from "./MainJet";
import { Needles } from "./Needles";
import { SettingsTable } from "./SettingsTable";

/** A recommendation, from its main jet to its last factor. */
export function Answer({
  bike,
  answer,
  drawer,
  instead,
  shims,
  felt,
  why,
  locale,
}: {
  bike: BenchBike;
  answer: Recommendation;
  drawer: boolean;
  /** What another drawer has in place of a main jet that is missing. */
  instead: ReactNode;
  /** Needle shims of the drawer. */
  shims: readonly SizeInDrawer[];
  /** Where the bike was felt lean or rich before any work. */
  felt: readonly FeltMark[];
  /** The address that answers what one of its figures rests on. */
  why: (of: string) => string;
  locale: string;
}) {
  const { sheet, corners, worst } = answer;
  const [first] = sheet.carburettors;
  if (!first) return null;
  const ratio = (name: string, key: string, of: typeof first.slideRise) =>
    of && (
      <li>
        {name}:{" "}
        <Opens name={name} because={why(key)} firmness={of.firmness}>
          × {of.value.toFixed(3)}
        </Opens>
      </li>
    );
  const range = corners.length > 1;
  return (
    <>
      <Section
        title={range ? `One setting for the range, at its worst in ${worst.name}` : `For ${worst.name}`}
      >
        {first.mainJet && (
          <MainJet
            jet={first.mainJet}
            fitted={bike.carburettors[0]?.settings.mainJet?.value ?? null}
            needed={bike.carburettors.length}
            refusals={sheet.refusals}
            measured={bike.calibration?.regions.some((r) => r.region === "main" && r.measured) ?? false}
            leanRisk={Math.max(...corners.map((c) => c.leanRisk ?? 0))}
            range={range}
            drawer={drawer}
            why={why}
            locale={locale}
          />
        )}
        {instead}
        <Verify />
        {range && <Compromise corners={corners} locale={locale} />}
        <BenchWarnings warnings={sheet.warnings} />
        {bike.calibration && (
          <Note>
            Counts with what {bike.model} was taught: {bike.calibration.logs} logs,{" "}
            {bike.calibration.accepted} accepted settings.
          </Note>
        )}
      </Section>
      <Section title="Target sheet">
        {sheet.carburettors.map((c) => (
          <div key={c.name}>
            {sheet.carburettors.length > 1 && <h3 className="font-semibold">{c.name}</h3>}
            <SettingsTable name={c.name} settings={c.settings} why={why} locale={locale} />
            <Shims said={shimAdvice(c, shims, sheet.carburettors.length)} />
          </div>
        ))}
        <ul className="flex flex-wrap gap-x-8 text-[15px]">
          {ratio("Slide rise time", WHY.slideRise, first.slideRise)}
          {ratio("Slide spring rate", WHY.springRate, first.springRate)}
          {ratio("Oxygen against the settings' own air", WHY.oxygen, sheet.relativeDensity.toBaseline)}
        </ul>
      </Section>
      <Needles ranked={first.needles} locale={locale} />
      <Curves
        before={fuelCurve(first.before, worst.air, 40)}
        after={fuelCurve(first.after, worst.air, 40)}
        speed={{
          before: fuelOverSpeed(first.before, worst.air, 24),
          after: fuelOverSpeed(first.after, worst.air, 24),
        }}
        ownFilling={first.after.card.filling !== undefined}
        fullLiftMm={bike.card.boreMm?.value ?? fullLift(first.after, worst.air)}
        where={worst.name}
        felt={felt}
        why={why(WHY.curve)}
        locale={locale}
      />
      <Section title={range ? "In each corner" : "In this air"}>
        <CornerTable corners={corners} worst={worst.name} why={why} locale={locale} />
      </Section>
      <Section title="How sure this is, region by region">
        <Learned calibration={bike.calibration} locale={locale} />
        <Narrower
          state={first.after}
          air={worst.air}
          taught={{ id: bike.id, delivered: bike.delivered, rides: bike.calibration?.rides ?? [] }}
          locale={locale}
        />
        <Assumptions list={sheet.assumptions} />
      </Section>
    </>
  );
}

/** What a needle without grooves takes from the drawer. */
function Shims({ said }: { said: readonly string[] }) {
  if (said.length === 0) return null;
  return <Note title="Needle shims.">{said.join(" ")}</Note>;
}

/** Further off than this one jet is a compromise, and another is worth carrying. Source: judgement, as for a trip. */
const COMPROMISE = 0.06;
/** A greater chance than this of lambda above 0.92 at full load is called too lean. Source: judgement. */
const LEAN = 0.25;

function Compromise({ corners, locale }: { corners: Recommendation["corners"]; locale: string }) {
  const words = (list: Recommendation["corners"]) =>
    list.map((c) => `${c.name}: about ${figureText(c.exact ?? 0, locale, 1)} would be right`).join("; ");
  const lean = corners.filter((c) => (c.leanRisk ?? 0) > LEAN);
  const far = corners.filter((c) => !lean.includes(c) && Math.abs(c.phiError ?? 0) > COMPROMISE);
  return (
    <>
      {lean.length > 0 && (
        <Caution title="Too lean for full throttle in part of this range.">
          {words(lean)}. Fit the larger jet there, or narrow the range. Lean at full load destroys engines.
        </Caution>
      )}
      {far.length > 0 && (
        <Note title="A compromise over this range.">{words(far)}: carry one to change there.</Note>
      )}
    </>
  );
}

function fullLift(state: Parameters<typeof fuelCurve>[0], air: Parameters<typeof fuelCurve>[1]): number {
  return Math.max(1, ...fuelCurve(state, air, 8).points.map((p) => p.liftMm));
}
