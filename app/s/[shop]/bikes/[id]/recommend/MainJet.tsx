import type { ReactNode } from "react";
import { jetOff, jetRisk, WHY } from "@/app/_documents/recommendReasons";
import { Caution } from "@/app/_ui/Caution";
import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { State } from "@/app/_ui/State";
import type { JetCandidate, JetChoice, TargetRefusal } from "@/lib/domain/tuning/targetTypes";

export interface MainJetProps {
  jet: JetChoice;
  fitted: number | null;
  needed: number;
  refusals: readonly TargetRefusal[];
  /** True when full load was read on this bike as it is set now. */
  measured: boolean;
  /** The greatest chance of running lean in any air asked for. */
  leanRisk: number;
  /** True for a range of airs: the figures are of its worst corner. */
  range: boolean;
  /** False when no drawer of main jets was chosen to take from. */
  drawer: boolean;
  /** The address that answers what one of its figures rests on. */
  why: (of: string) => string;
  locale: string;
}

/** The main jet with how far off it is, the chance of running lean, the next best, and what to do when the drawer lacks it. */
export function MainJet(props: MainJetProps) {
  const { jet, fitted, needed, refusals, measured, leanRisk, range, drawer, why, locale } = props;
  const off = (c: JetCandidate) => jetOff(c, locale);
  const { chosen, runnerUp, density } = jet;
  return (
    <>
      <dl className="flex flex-wrap gap-x-10 gap-y-2">
        <Big name="Main jet">
          <Opens name="Main jet" because={why(WHY.jet)} firmness={jet.firmness}>
            {figureText(chosen.size, locale)}
          </Opens>
        </Big>
        <Big name={range ? "Off target at its worst" : "Off target at full load"}>{off(chosen)}</Big>
        <Big name={range ? "Chance of λ above 0.92, leanest corner" : "Chance of λ above 0.92"}>
          {Math.round(leanRisk * 100)} %
        </Big>
        {density && (
          <Big name="By air density alone, firm">
            <Opens name="Main jet by air density alone" because={why(WHY.density)} firmness="firm">
              {figureText(density.size, locale)}
            </Opens>{" "}
            <span className="font-sans text-[14px] text-soft">
              {density.size === fitted && "as fitted; "}the whole model, judged:{" "}
              {figureText(jet.exact, locale, 1)}
            </span>
          </Big>
        )}
        {runnerUp && (
          <Big name="Next best">
            {figureText(runnerUp.size, locale)}{" "}
            <span className="font-sans text-[14px] text-soft">
              {off(runnerUp)}, {jetRisk(runnerUp)}
            </span>
          </Big>
        )}
      </dl>
      <p className="mt-1 text-[15px]">
        {chosen.size === fitted
          ? "The fitted jet stays."
          : chosen.free >= needed
            ? `${chosen.free} in the drawer.`
            : drawer
              ? `${jet.note} ${untilThen(jet, needed, off)}`
              : "No drawer is chosen: see that you have one, or choose the drawer to take from."}
      </p>
      <p className="mt-1 text-[15px]">
        {measured ? (
          <State shape="filled" tone="pine">
            Full load was read on this bike as it is set now: it decides, and no step is held back.
          </State>
        ) : (
          <State shape="dash">
            Full load was not read on this bike as it is set now: one step leaner, or what density alone asks.
          </State>
        )}
      </p>
      {refusals.map((held) => (
        <Caution key={held.carburettor + held.setting} title={held.message}>
          {held.remedy} Lean at full load destroys engines.
        </Caution>
      ))}
    </>
  );
}

/** What to ride with until the chosen jet is there. */
function untilThen(jet: JetChoice, needed: number, off: (c: JetCandidate) => string): string {
  const near = jet.nearestInDrawer;
  if (!near || near.free < needed || near.size === jet.chosen.size)
    return "Until it is here, no full throttle for long: choose a drawer, or order it.";
  return near.phiError >= -0.02
    ? `Until it is here, ${near.size} will do: ${off(near)}.`
    : `${near.size} would be ${off(near)}: do not ride it at full throttle.`;
}

function Big({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div>
      <dt className="text-[14px] text-soft">{name}</dt>
      <dd className="font-mono text-[22px]">{children}</dd>
    </div>
  );
}
