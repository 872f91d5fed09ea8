import { figureText } from "@/app/_ui/format";
import { State } from "@/app/_ui/State";
import type { KeptCalibration } from "@/lib/data/bikes/calibrations";
import { REGIONS } from "@/lib/domain/tuning/regions";
import { acceptedSigma } from "@/lib/domain/tuning/station";
import { REGION_WORDS } from "../bench/lambda/LambdaAnswer";

const HEAD = "border-rule border-b py-1 pl-3 text-end font-semibold first:pl-0 first:text-start";
const CELL = "py-1.5 pl-3 text-end";

/** What logs and accepted settings taught about a model, by region; what nothing sampled stands at its prior and says so. */
export function Learned({ calibration, locale }: { calibration: KeptCalibration | null; locale: string }) {
  const percent = (log: number) => figureText(Math.expm1(log) * 100, locale, 1);
  const rows = REGIONS.map((region) => {
    const found = calibration?.regions.find((r) => r.region === region);
    return {
      region,
      value: found?.value ?? 0,
      sigma: found?.sigma ?? acceptedSigma(region),
      samples: found?.samples ?? 0,
    };
  });
  return (
    <>
      <p className="mb-2 text-[15px] text-soft">
        {calibration
          ? `From logs: ${calibration.logs}, with ${calibration.samples} steady samples. From accepted settings: ${calibration.accepted}.`
          : "No log and no accepted setting is kept for this model yet."}
      </p>
      <div className="overflow-x-auto">
        <table className="w-full border-collapse text-[15px]">
          <thead>
            <tr className="text-[13px] text-soft">
              {["Region", "Richer than the model", "Evidence"].map((name) => (
                <th key={name} scope="col" className={HEAD}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((r) => (
              <tr key={r.region} className="border-hair border-b">
                <th scope="row" className="py-1.5 text-start font-normal">
                  {REGION_WORDS[r.region]}
                </th>
                <td className={`${CELL} whitespace-nowrap font-mono`}>
                  {percent(r.value)} % <span className="text-soft">± {percent(r.sigma)}</span>
                </td>
                <td className={CELL}>
                  {r.samples > 0 ? (
                    <State shape="filled" tone="pine">
                      {r.samples} {r.samples === 1 ? "opening" : "openings"} logged
                    </State>
                  ) : r.sigma < acceptedSigma(r.region) - 1e-6 ? (
                    <State shape="circle" tone="brass">
                      ridden, not logged
                    </State>
                  ) : (
                    <State shape="dash">as accepted, nothing ridden</State>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
