import type { ReactNode } from "react";
import { Caution } from "@/app/_ui/Caution";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { figureText } from "@/app/_ui/format";
import type { KeptCalibration } from "@/lib/data/calibrations";
import type { TripAnswer, TripCorner, TripSize } from "@/lib/domain/bench/tripTypes";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { percentText, shownText } from "../shown";
import { Assumptions, Verify } from "../Verify";

export interface TripAnswerProps {
  trip: TripAnswer;
  fitted: number;
  calibrated: KeptCalibration | null;
  locale: string;
  system: UnitSystem;
}

/** The one setting for a trip, what each corner of it wants, and how every size would fare at its worst. */
export function TripAnswerView({ trip, fitted, calibrated, locale, system }: TripAnswerProps) {
  const size = (value: number) => figureText(value, locale);
  const richness = (s: TripSize) => `${figureText(Math.abs(s.phiError) * 100, locale, 1)} % ${s.phiError < 0 ? "lean" : "rich"}`;
  return (
    <>
      <Section title="One setting for the trip">
        <dl className="flex flex-wrap gap-x-10 gap-y-2">
          <Big name="Main jet">
            <Opens name="Main jet" because={trip.because} firmness={trip.firmness}>
              {size(trip.chosen.size)}
            </Opens>
          </Big>
          {trip.screw && (
            <Big name="Mixture screw, turns out">
              <Opens name="Mixture screw" because={[...trip.screw.because, { fact: "The richest that any corner asks for", from: "lean is worse than rich" }]} firmness={trip.screw.firmness}>
                {figureText(trip.screw.value, locale)}
              </Opens>
            </Big>
          )}
        </dl>
        <p className="mt-1 text-[15px]">
          {trip.chosen.size === fitted ? "The fitted jet stays. " : `${size(fitted)} is fitted. `}
          Worst at {trip.chosen.worst}: {richness(trip.chosen)}, chance of running lean at full load {Math.round(trip.chosen.leanRisk * 100)} %.{" "}
          {trip.chosen.free > 0 ? `${trip.chosen.free} in the drawer.` : trip.chosen.size === fitted ? "" : "Not in the drawer."}
          {trip.runnerUp && ` Next best: ${size(trip.runnerUp.size)}, ${richness(trip.runnerUp)} at its worst.`}
        </p>
        <Verify />
        {trip.carry && (
          <Note title="A compromise over this range.">
            At {trip.carry.corner} about {figureText(trip.carry.exact, locale, 1)} would be right: carry one to change there.
          </Note>
        )}
        {trip.held && (
          <Caution title={trip.held.message}>{trip.held.remedy} Lean at full load destroys engines.</Caution>
        )}
        {calibrated && <Note>The model card was calibrated by {calibrated.samples} steady samples; its corrections are in these numbers.</Note>}
        <Assumptions list={trip.assumptions} />
      </Section>
      <Section title="Corners of the trip">
        <Corners corners={trip.corners} locale={locale} system={system} />
      </Section>
      <Section title="Sizes around it, each at its worst">
        <Sizes trip={trip} fitted={fitted} richness={richness} size={size} />
      </Section>
    </>
  );
}

function Big({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div>
      <dt className="text-[14px] text-soft">{name}</dt>
      <dd className="text-[26px]">{children}</dd>
    </div>
  );
}

/** Sizes shown on either side of the chosen one. */
const AROUND = 4;

const HEAD = "border-rule border-b py-1 pl-3 text-end font-semibold first:pl-0 first:text-start";
const CELL = "py-1.5 pl-3 text-end font-mono";

function Corners({ corners, locale, system }: { corners: readonly TripCorner[]; locale: string; system: UnitSystem }) {
  return (
    <div className="overflow-x-auto">
      <table className="w-full border-collapse text-[15px]">
        <thead>
          <tr className="text-[13px] text-soft">
            {["Where", "Oxygen", "Exact main", "Jet area", "Screw"].map((name) => (
              <th key={name} scope="col" className={HEAD}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {corners.map((c) => (
            <tr key={c.name} className="border-hair border-b">
              <th scope="row" className="py-1.5 text-start font-normal">
                {shownText("altitude", c.place.altitudeM, system, locale)}, {shownText("airTemperature", c.place.temperatureC + 273.15, system, locale)}
              </th>
              <td className={CELL}>
                <Opens name="Oxygen against here" because={c.air.because} firmness={c.air.firmness}>
                  {figureText(c.density * 100, locale, 1)} %
                </Opens>
              </td>
              <td className={CELL}>{figureText(c.exact, locale, 1)}</td>
              <td className={CELL}>{percentText(c.areaRatio - 1, locale)}</td>
              <td className={CELL}>{c.screw ? figureText(c.screw.value, locale) : "–"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Sizes({ trip, fitted, richness, size }: { trip: TripAnswer; fitted: number; richness: (s: TripSize) => string; size: (value: number) => string }) {
  const word = (s: TripSize) => [s.size === trip.chosen.size ? "chosen" : "", s.size === trip.runnerUp?.size ? "next best" : "", s.size === fitted ? "fitted" : ""].filter(Boolean).join(", ");
  const at = trip.sizes.indexOf(trip.chosen);
  const near = trip.sizes.filter((s, i) => Math.abs(i - at) <= AROUND || s.size === fitted || s === trip.runnerUp);
  return (
    <div className="overflow-x-auto">
      <table className="w-full border-collapse text-[15px]">
        <thead>
          <tr className="text-[13px] text-soft">
            {["Size", "Worst at", "Off target", "Lean risk", "Drawer"].map((name) => (
              <th key={name} scope="col" className={HEAD}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {near.map((s) => (
            <tr key={s.size} className={s.size === trip.chosen.size ? "border-hair border-b bg-brass-wash" : "border-hair border-b"}>
              <th scope="row" className="py-1.5 text-start font-mono font-normal">
                {size(s.size)} <span className="font-sans text-[13px] text-soft">{word(s)}</span>
              </th>
              <td className="py-1.5 pl-3 text-end">{s.worst}</td>
              <td className={CELL}>{richness(s)}</td>
              <td className={CELL}>{Math.round(s.leanRisk * 100)} %</td>
              <td className={CELL}>{s.free > 0 ? s.free : "–"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
