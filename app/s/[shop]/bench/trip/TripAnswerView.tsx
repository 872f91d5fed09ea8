import type { ReactNode } from "react";
import { Caution } from "@/app/_ui/Caution";
import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { KeptCalibration } from "@/lib/data/bikes/calibrations";
import type { TripAnswer, TripSize } from "@/lib/domain/bench/tripTypes";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { Assumptions, Verify } from "../Verify";
import { Corners, placeText, Sizes } from "./TripTables";

export interface TripAnswerProps {
  trip: TripAnswer;
  fitted: number;
  calibrated: KeptCalibration | null;
  locale: string;
  system: UnitSystem;
}

/** The one setting for a trip, what each corner of it wants, and how every size would fare at its worst. */
export function TripAnswerView({ trip, fitted, calibrated, locale, system }: TripAnswerProps) {
  const where = (name: string) => {
    const corner = trip.corners.find((c) => c.name === name);
    return corner ? placeText(corner, system, locale) : name;
  };
  const size = (value: number) => figureText(value, locale);
  const richness = (s: TripSize) =>
    `${figureText(Math.abs(s.phiError) * 100, locale, 1)} % ${s.phiError < 0 ? "lean" : "rich"}`;
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
              <Opens
                name="Mixture screw"
                because={[
                  ...trip.screw.because,
                  { fact: "The richest that any corner asks for", from: "lean is worse than rich" },
                ]}
                firmness={trip.screw.firmness}
              >
                {figureText(trip.screw.value, locale)}
              </Opens>
            </Big>
          )}
        </dl>
        <p className="mt-1 text-[15px]">
          {trip.chosen.size === fitted ? "The fitted jet stays. " : `${size(fitted)} is fitted. `}
          Worst at {where(trip.chosen.worst)}: {richness(trip.chosen)}, chance of running lean at full load{" "}
          {Math.round(trip.chosen.leanRisk * 100)} %.{" "}
          {trip.chosen.free > 0
            ? `${trip.chosen.free} in the drawer.`
            : trip.chosen.size === fitted
              ? ""
              : trip.drawer
                ? `Not in the drawer; best there: ${size(trip.drawer.size)}, ${richness(trip.drawer)} at its worst.`
                : "Not in the drawer."}
          {trip.runnerUp &&
            ` Next best: ${size(trip.runnerUp.size)}, ${richness(trip.runnerUp)} at its worst.`}
        </p>
        <Verify />
        {trip.carry && !trip.held && (
          <Note title="A compromise over this range.">
            At {where(trip.carry.corner)} about {figureText(trip.carry.exact, locale, 1)} would be right:
            carry one to change there.
          </Note>
        )}
        {trip.held && (
          <Caution title={trip.held.message}>{trip.held.remedy} Lean at full load destroys engines.</Caution>
        )}
        {calibrated && (
          <Note>
            The model card learned from {calibrated.logs} {calibrated.logs === 1 ? "log" : "logs"} with{" "}
            {calibrated.samples} steady samples and {calibrated.accepted} accepted{" "}
            {calibrated.accepted === 1 ? "setting" : "settings"}; that is in these numbers.
          </Note>
        )}
        <Assumptions list={trip.assumptions} />
      </Section>
      <Section title="Corners of the trip">
        <Corners corners={trip.corners} locale={locale} system={system} />
      </Section>
      <Section title="Sizes around it, each at its worst">
        <Sizes trip={trip} fitted={fitted} richness={richness} size={size} where={where} />
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
