import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { Opens } from "@/app/_ui/Opens";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { getRides } from "@/lib/data/rides/get";
import { VERIFY } from "@/lib/domain/reason";
import { settingDef } from "@/lib/domain/tuning/settings";
import { accept } from "../../actions";

type Rides = NonNullable<Awaited<ReturnType<typeof getRides>>>;

interface CorrectionsProps {
  job: Rides;
  corrections: Rides["rides"][number]["corrections"];
  slug: string;
  mayAccept: boolean;
  locale: string;
}

/** What a ride points at, best first, after the faults to rule out. One of them is accepted. */
export function Corrections({ job, corrections, slug, mayAccept, locale }: CorrectionsProps) {
  return (
    <div className="max-w-3xl">
      {job.ruleOutFirst.length > 0 && (
        <Note title="Rule out first.">
          <ul className="mt-1">
            {job.ruleOutFirst.map((one) => (
              <li key={one.check} className="flex flex-wrap gap-x-2">
                <span>{one.check}</span> <span className="text-soft">{one.why}</span>
              </li>
            ))}
          </ul>
        </Note>
      )}
      {job.unexplained.map((text) => (
        <p key={text} className="my-2">
          <State shape="triangle" tone="oxide">
            {text}
          </State>
        </p>
      ))}
      {job.unknown.length > 0 && (
        <p className="my-2 text-soft">
          Also possible, but not on the sheet: {job.unknown.join(", ")}. Measure it and record it as found,
          then ride again.
        </p>
      )}
      {corrections.length === 0 && (
        <Empty title="No setting is offered." text="Look at the faults to rule out, then ride again." />
      )}
      <ol>
        {corrections.map((one, at) => {
          const decimals = settingDef(one.setting)?.decimals ?? 0;
          const unit = one.unit && ` ${one.unit}`;
          return (
            <li key={one.id} className="border-hair border-b py-3">
              <div className="flex flex-wrap items-baseline justify-between gap-x-4">
                <span className={at === 0 ? "font-bold text-[18px]" : "font-semibold"}>
                  {at + 1}. {one.name}
                  {one.also.length > 0 && ", as practised together"}
                </span>
                <Opens name={one.name} because={one.because} firmness="starting point">
                  {figureText(one.fromValue, locale, decimals)} → {figureText(one.toValue, locale, decimals)}
                  {unit}
                  {one.also.map((text) => (
                    <span key={text} className="block text-end">
                      and {text}
                    </span>
                  ))}
                </Opens>
              </div>
              {at === 0 && <p className="text-[14px] text-soft">{VERIFY}</p>}
              {one.needs && (
                <p className="mt-1 text-[15px]">
                  <State shape="diamond" tone="oxide">
                    {one.needs}
                  </State>
                </p>
              )}
              {mayAccept && (
                <Form
                  action={accept}
                  shop={slug}
                  hidden={{ correctionId: String(one.id), version: String(job.version) }}
                  label={`Change ${one.name}`}
                  className="mt-2"
                >
                  {one.needs && (
                    <NumberField
                      name="lambda"
                      label="Lambda measured there"
                      step={0.01}
                      min={0.6}
                      max={1.4}
                    />
                  )}
                  <SubmitButton tone={at === 0 ? "main" : "second"}>
                    {one.also.length > 0
                      ? "Change these together"
                      : at === 0
                        ? "Change this, and only this"
                        : "Change this instead"}
                  </SubmitButton>
                </Form>
              )}
            </li>
          );
        })}
      </ol>
    </div>
  );
}
