import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { IntakeView } from "@/lib/data/intakes/get";
import { observedText } from "@/lib/domain/tuning/symptoms";
import { RuleOutList } from "../RuleOutList";
import { PLUG_WORDS } from "../words";

/** What was felt and looked at, and what that says to rule out before a setting is changed. */
export function FirstLook({ intake, locale }: { intake: IntakeView; locale: string }) {
  const { observations, cylinders, ruleOut, marks } = intake;
  return (
    <>
      {observations.length > 0 && (
        <Section title="What it does" className="break-inside-avoid">
          <ul>
            {observations.map((one, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the same may be felt twice, and the list never changes.
              <li key={at} className="border-hair border-b py-1.5">
                {observedText(one)}
              </li>
            ))}
          </ul>
          {marks.length > 0 && intake.calibrationId !== null && intake.withdrawnAt === null && (
            <Note title="As found may be wrong.">
              Felt {marks.map((m) => `${m.sign} at ${Math.round(m.throttle * 100)} % throttle`).join(", ")}:
              curves and settings of this bike count with it, as a feeling, not as a measurement.
            </Note>
          )}
        </Section>
      )}
      {cylinders.length > 0 && (
        <Section title="What a look shows" className="break-inside-avoid">
          <ul>
            {cylinders.map((one) => (
              <li key={one.position} className="border-hair border-b py-1.5">
                {cylinders.length > 1 && <strong>Cylinder {one.position}: </strong>}
                {[
                  one.plug && `plug ${PLUG_WORDS[one.plug]}`,
                  one.compressionKpa !== null && `compression ${figureText(one.compressionKpa, locale)} kPa`,
                  one.leakDownPercent !== null && `leak-down ${figureText(one.leakDownPercent, locale)} %`,
                  one.intakeClearanceMm !== null &&
                    `intake valve ${figureText(one.intakeClearanceMm, locale, 2)} mm`,
                  one.exhaustClearanceMm !== null &&
                    `exhaust valve ${figureText(one.exhaustClearanceMm, locale, 2)} mm`,
                ]
                  .filter(Boolean)
                  .join(", ")}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {ruleOut.length > 0 && (
        <Section title="First rule out" className="break-inside-avoid">
          <RuleOutList ruleOut={ruleOut} />
        </Section>
      )}
    </>
  );
}
