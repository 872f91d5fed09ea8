import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { airOf } from "@/lib/domain/air/conditions";
import { feltOpenings } from "@/lib/domain/tuning/feltOpenings";
import { keptAir, type RiddenEvidence } from "@/lib/domain/tuning/ridden";
import type { Observation } from "@/lib/domain/tuning/rideTypes";
import { keepCalibrationIn } from "../bikes/calibrations";
import { conditionsIn } from "../jobs/acceptedSettings";
import { modelledOnJob } from "../jobs/madeParts";
import { needleShapeIn, needlesOfJob } from "../jobs/needles";
import { sheetsOfJob } from "../jobs/sheets";
import { settingsOf } from "./reading";

/** What was felt lean or rich on a ride is kept as one-sided evidence; nothing where nothing of the kind was felt. */
export async function keepFeltIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number; number: string },
  observations: readonly Observation[],
): Promise<void> {
  const at = feltOpenings(observations);
  if (at.length > 0) await keepHeardIn(tx, shop, job, { kind: "felt", at }, `Job ${job.number}, test ride.`);
}

/** Keeps evidence that no instrument gave of a job's bike as it is fitted now, in the air of the month. */
export async function keepHeardIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number },
  { kind, at }: Pick<RiddenEvidence, "kind" | "at">,
  note: string,
): Promise<number> {
  const { spot, ...conditions } = await conditionsIn(tx, shop);
  return keepCalibrationIn(tx, shop, {
    bikeId: job.bikeId,
    source: kind === "accepted" ? "asLeft" : "felt",
    jobId: job.id,
    evidence: {
      kind,
      settings: settingsOf((await sheetsOfJob(tx, job)).fitted),
      ...(await needleShapeIn(tx, job.bikeId, await needlesOfJob(tx, job))),
      ...(await modelledOnJob(tx, job, "fitted")),
      air: keptAir(airOf(conditions, spot)),
      at,
    },
    samples: 0,
    note,
  });
}
