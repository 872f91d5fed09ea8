import type { Air } from "@/lib/domain/air/weather";
import { answerLog, type LogAnswer } from "@/lib/domain/bench/logReading";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { valuesOf } from "@/lib/domain/tuning/changes";
import type { LambdaReading } from "@/lib/domain/tuning/lambdaLog";
import { type ModelledParts, modelledParts } from "@/lib/domain/tuning/modelledParts";
import { heldAt, keptAir, type RiddenEvidence } from "@/lib/domain/tuning/ridden";
import type { NeedleShape, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { rideOf } from "@/lib/schemas/benchLogRead";
import type { LambdaInput } from "@/lib/schemas/benchLogs";
import type { BenchBike } from "./benchBike";

/** A ride whose altitude alone is known is taken to be a mild day. Source: judgement. */
const MILD_C = 20;

/** What was fitted on the ride, and its air where the input says none. */
export interface Ridden {
  readonly settings: SettingValues;
  /** The needle where it is another than the model card's. */
  readonly needle?: NeedleShape;
  readonly parts?: ModelledParts;
  readonly air: Air;
}

export interface WorkedLog {
  readonly answer: LogAnswer;
  /** What is kept of it for the model card; null without a bike. */
  readonly evidence: RiddenEvidence | null;
}

/**
 * What a log's `reading` says, and for a bike its regions fitted: from the settings on it and the air they were right for, or from what
 * was `ridden`. Throws Refusal, OutOfRange.
 */
export function workLog(
  input: Omit<LambdaInput, "bike" | "act">,
  reading: LambdaReading,
  bike: BenchBike | null,
  home: { altitudeM: number },
  ridden?: Ridden,
): WorkedLog {
  if (!bike) return { answer: answerLog(reading, null, null), evidence: null };
  const [first] = bike.carburettors;
  const reference = valuesOf(first?.settings ?? {});
  const settings = { ...reference, ...ridden?.settings };
  const needle = ridden?.needle ?? first?.needle?.value;
  const acceptedParts = modelledParts(first?.parts);
  const parts = ridden?.parts ?? acceptedParts;
  const { altitudeM, temperatureK } = rideOf(input);
  const said =
    altitudeM === null && temperatureK === null
      ? null
      : placeAir({
          altitudeM: altitudeM ?? home.altitudeM,
          temperatureC: temperatureK === null ? MILD_C : temperatureK - 273.15,
          humidity: null,
        });
  const air = said ?? ridden?.air ?? bike.baseline;
  return {
    answer: answerLog(
      reading,
      {
        card: bike.card,
        carburettors: Math.max(1, bike.carburettors.length),
        settings,
        accepted: reference,
        needle: needle && { value: needle, how: "measured" },
        parts,
        acceptedParts,
        baseline: bike.baseline,
        delivered: bike.delivered,
      },
      air,
    ),
    evidence: {
      kind: "wideband",
      settings,
      ...(needle ? { needle } : {}),
      ...parts,
      air: keptAir(air),
      at: reading.bins.map(heldAt),
    },
  };
}
