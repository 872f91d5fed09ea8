import { recordNeedle } from "@/lib/data/bikes/needles";
import { FittedNeedleSchema } from "@/lib/schemas/needles";
import type { Stage } from "../stage";
import type { Ride } from "./ride";

type Stations = readonly (readonly [at: string, diameter: string])[];

/** A needle that an earlier owner fitted: plain at the top, no grooves, on half a millimetre of shims. */
export const FOUND_NEEDLE: Stations = [
  ["10", "2.46"],
  ["26", "2.46"],
  ["36", "2.14"],
  ["46", "1.81"],
  ["56", "1.49"],
];

/** The same once it was eased. */
export const EASED_NEEDLE: Stations = [
  ["10", "2.46"],
  ["26", "2.46"],
  ["36", "2.11"],
  ["46", "1.81"],
  ["56", "1.49"],
];

/** A hitch that one shim takes away. */
export const LEAN_QUARTER: Ride = {
  felt: [
    { throttle: "quarter", condition: "steady", engine: "hot", sign: "lean", note: "hunts at 80 km/h" },
    { throttle: "full", condition: "steady", engine: "hot", sign: "good", note: "" },
  ],
  note: "Clean at the top, lean where the needle begins to work.",
};

/** Measures a bike's needle: as found with its shims, or as made on a job. */
export async function measureNeedle(
  stage: Stage,
  at: Date,
  bikeId: number,
  stations: Stations,
  jobId?: number,
): Promise<void> {
  const found = jobId === undefined;
  await recordNeedle(
    stage.shop.as("tuner", at),
    FittedNeedleSchema.parse({
      bikeId: String(bikeId),
      carburettor: "1",
      state: found ? "found" : "made",
      origin: found ? "bought" : "reshaped",
      marks: "plain",
      micrometerMm: "0.01",
      grooves: "0",
      planeMm: "20",
      stations: Object.fromEntries(
        stations.map(([place, diameter], i) => [String(i + 1), { at: place, diameter }]),
      ),
      ...(found ? { needleShimBelowMm: "0.5", needleShimAboveMm: "0.25" } : { jobId: String(jobId) }),
    }),
  );
}
