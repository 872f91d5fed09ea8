import { figureText } from "@/app/_ui/format";
import { LambdaChart } from "@/app/_ui/LambdaChart";
import { Note } from "@/app/_ui/Note";
import { RECKON_CELL, ReckonTable } from "@/app/_ui/ReckonTable";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { LogAnswer, LogBin, RegionAnswer } from "@/lib/domain/bench/logReading";
import { FULL_LOAD_WORDS } from "@/lib/domain/tuning/steadyReading";
import type { Region } from "@/lib/domain/tuning/targetTypes";
import { Verify } from "../Verify";

export interface LambdaAnswerData extends LogAnswer {
  readonly bike: string | null;
  readonly model: string | null;
  readonly ventsUnknown: boolean;
  readonly kept: boolean;
}

export const REGION_WORDS: Readonly<Record<Region, string>> = {
  pilot: "Pilot jet and screw",
  straight: "Needle, straight part",
  taper: "Needle, taper",
  main: "Main jet",
};
/** Room on either side of the target that counts as wanted. Source: judgement. */
const WANTED = 0.03;

/** A log against the target lambda, and a bike's calibration with what it has not sampled said plainly. */
export function LambdaAnswer({ data, locale }: { data: LambdaAnswerData; locale: string }) {
  const point = (b: LogBin, y: number, half: number) => ({ x: b.throttle, y, low: y - half, high: y + half });
  return (
    <>
      <Section title="Measured against the target">
        <p className="mb-2 text-[15px]">
          {data.steady} steady samples read, {data.transient} dropped near a throttle movement,{" "}
          {data.unreadable} unreadable.
        </p>
        {data.bins.length === 0 && (
          <Note title="No opening was held long enough.">
            Hold each opening steady for two seconds or more, then read the log again.
          </Note>
        )}
        {/* One opening makes no curve: its row says it. */}
        {data.bins.length > 1 && (
          <LambdaChart
            title="Lambda over throttle, measured"
            description="Mean of the steady samples at each opening with twice their sigma, against the lambda aimed at."
            after={data.bins.map((b) => point(b, b.lambda, 2 * b.sigma * b.lambda))}
            before={data.bins.map((b) => point(b, b.target, WANTED))}
            afterLabel="measured"
            beforeLabel="aimed at"
            locale={locale}
          />
        )}
        <Bins bins={data.bins} locale={locale} />
        <p className="mt-2 text-[14px] text-soft">
          Common targets of the trade, without a published source: full load 0.86 to 0.90, cruise 0.95 to
          1.05, idle 0.90 to 1.00.
        </p>
      </Section>
      {data.regions && (
        <Section title={`Calibration of ${data.bike}`}>
          <Regions regions={data.regions} locale={locale} />
          <p className="my-2 max-w-prose text-[15px]">
            {data.regions.some((r) => r.region === "main" && r.measured)
              ? "Full load was read: the main jet of this bike is no longer held to one leaner step, until its next work."
              : `No reading at full load is in it, so a leaner main jet stays held to one step or to air density alone. One counts with ${FULL_LOAD_WORDS}.`}
          </p>
          <Verify />
          {data.ventsUnknown && (
            <Note>
              Where bowl and diaphragm are vented is not known on the model card: fitted as vented to the open
              air.
            </Note>
          )}
          {data.kept && (
            <Note title="Kept.">
              It counts for {data.model} from now on, together with what was kept before: recommended jets,
              and jets for a trip.
            </Note>
          )}
        </Section>
      )}
    </>
  );
}

function Bins({ bins, locale }: { bins: readonly LogBin[]; locale: string }) {
  const n = (value: number, decimals: number) => figureText(value, locale, decimals);
  return (
    <ReckonTable head={["Throttle", "Lambda", "Aimed at", "Is", "Samples"]} className="mt-3">
      {bins.map((b) => (
        <tr key={b.throttle} className="border-hair border-b">
          <th scope="row" className="py-1.5 text-start font-normal">
            <span className="font-mono">{Math.round(b.throttle * 100)} %</span>{" "}
            {b.region && <span className="block text-[13px] text-soft">{REGION_WORDS[b.region]}</span>}
          </th>
          <td className={RECKON_CELL}>
            {n(b.lambda, 3)} <span className="text-soft">± {n(b.sigma * b.lambda, 3)}</span>
          </td>
          <td className={RECKON_CELL}>{n(b.target, 2)}</td>
          <td className="py-1.5 pl-3 text-end">
            <span className="font-mono">{n(Math.abs(b.richness) * 100, 1)} %</span>{" "}
            {b.richness < 0 ? "lean" : "rich"}
          </td>
          <td className={RECKON_CELL}>{b.samples}</td>
        </tr>
      ))}
    </ReckonTable>
  );
}

function Regions({ regions, locale }: { regions: readonly RegionAnswer[]; locale: string }) {
  const percent = (log: number) => figureText(Math.expm1(log) * 100, locale, 1);
  return (
    <ReckonTable head={["Region", "Richer than the model", "Without evidence", "Evidence"]}>
      {regions.map((r) => (
        <tr key={r.region} className="border-hair border-b">
          <th scope="row" className="py-1.5 text-start font-normal">
            {REGION_WORDS[r.region]}
          </th>
          <td className={RECKON_CELL}>
            {percent(r.value)} % <span className="text-soft">± {percent(r.sigma)}</span>
          </td>
          <td className={RECKON_CELL}>± {percent(r.prior)}</td>
          <td className="py-1.5 pl-3 text-end">
            {r.atPrior ? (
              <State shape="dash">as accepted, not logged</State>
            ) : (
              <State shape="filled" tone="pine">
                {r.samples} {r.samples === 1 ? "opening" : "openings"}
              </State>
            )}
          </td>
        </tr>
      ))}
    </ReckonTable>
  );
}
