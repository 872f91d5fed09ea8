import { answerLog, type LogAnswer } from "@/lib/domain/bench/logReading";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { valuesOf } from "@/lib/domain/tuning/changes";
import { readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { lambdaColumns, rideOf } from "@/lib/schemas/benchLogRead";
import type { LambdaInput } from "@/lib/schemas/benchLogs";
import { baselineAir } from "../quotes/air";
import type { BenchBike } from "./bikes";

/** A ride whose altitude alone is known is taken to be a mild day. Source: judgement. */
const MILD_C = 20;

/** A lambda log read, and for a bike its regions fitted from the settings on it. Throws Refusal, OutOfRange. */
export function workLog(
  input: LambdaInput,
  bike: BenchBike | null,
  home: { altitudeM: number; latitudeSouth: boolean },
): LogAnswer {
  const { log } = lambdaColumns(input);
  const reading = readLambdaLog(log);
  if (!bike) return answerLog(reading, null, null);
  const settings = valuesOf(bike.carburettors[0]?.settings ?? {});
  const { altitudeM, temperatureK } = rideOf(input);
  const air =
    altitudeM === null && temperatureK === null
      ? null
      : placeAir({
          altitudeM: altitudeM ?? home.altitudeM,
          temperatureC: temperatureK === null ? MILD_C : temperatureK - 273.15,
          humidity: null,
        });
  return answerLog(
    reading,
    {
      card: bike.card,
      carburettors: bike.carburettors.length,
      settings,
      needle: bike.carburettors[0]?.needle,
      baseline: baselineAir(bike.conditions, home.altitudeM, home.latitudeSouth),
    },
    air,
  );
}
