import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { airOf } from "@/lib/domain/air/conditions";
import { Refusal } from "@/lib/domain/refusal";
import { logObservations, withMeasured } from "@/lib/domain/tuning/logObservations";
import type { RideLogInput } from "@/lib/schemas/rideLog";
import { inWorker } from "@/lib/workers/pool";
import { benchBike } from "../bikes/benchBike";
import { keepCalibrationIn } from "../bikes/calibrations";
import { workLog } from "../bikes/workLog";
import { conditionsIn } from "../jobs/acceptedSettings";
import { modelledOnJob } from "../jobs/madeParts";
import { needleShapeIn, needlesOfJob } from "../jobs/needles";
import { sheetsOfJob } from "../jobs/sheets";
import { demandVersion, jobIn } from "../jobs/states";
import { readingOf, settingsOf } from "./reading";
import { demandRideable, keptCorrections } from "./record";

/**
 * Reads a lambda log ridden on a job. What it taught is kept for the model card. Where an opening is off target the ride is
 * recorded with what it points at, in the same list as a felt ride; where none is, nothing is recorded: a good ride is said by
 * the rider, since a log holds only some openings.
 */
export async function recordLog(
  shop: ShopHandle,
  input: RideLogInput,
): Promise<{ rideId: number | null; steady: number }> {
  const found = await shop.read.job.findUnique({ where: { id: input.jobId }, select: { bikeId: true } });
  const bike = found && (await benchBike(shop, found.bikeId));
  if (!bike) throw new Refusal("There is no such job.", "Open it from the list.", {}, "missing");
  // Read before the transaction: the shop's other writers do not wait for it.
  const log = await inWorker(shop, "readRiddenLog", input);
  return shop.write(async (tx) => {
    let steady = 0;
    const rideId = await once(tx, shop, "recorded a log", input, async () => {
      const job = await jobIn(tx, input.jobId);
      demandVersion(job, input.version);
      await demandRideable(tx, job);
      const { spot, ...conditions } = await conditionsIn(tx, shop);
      const fitted = settingsOf((await sheetsOfJob(tx, job)).fitted);
      const { answer, evidence } = workLog(input, log, bike, conditions, {
        settings: fitted,
        ...(await needleShapeIn(tx, job.bikeId, await needlesOfJob(tx, job))),
        parts: await modelledOnJob(tx, job, "fitted"),
        air: airOf(conditions, spot),
      });
      steady = answer.steady;
      if (answer.bins.length === 0 || !evidence)
        throw new Refusal(
          "No opening was held long enough to be read.",
          "Hold each opening steady for two seconds or more, then read the log again.",
          { csv: "No steady opening is in it." },
        );
      await keepCalibrationIn(tx, shop, {
        bikeId: job.bikeId,
        source: "log",
        jobId: job.id,
        evidence,
        samples: answer.steady,
        note: input.note || `Job ${job.number}, test ride.`,
      });
      const seen = logObservations(answer.bins);
      if (seen.every((one) => one.sign === "good")) return 0;
      const reading = await readingOf(tx, job, seen);
      const ride = await tx.testRide.create({
        data: {
          jobId: job.id,
          at: shop.now,
          staffId: shop.by.staffId,
          good: false,
          conditions,
          note: ["Lambda log", input.note].filter(Boolean).join(": "),
          observations: { create: seen.map(({ note, ...one }) => ({ ...one, note: note ?? "" })) },
          corrections: {
            create: keptCorrections(withMeasured(reading.corrections, seen, answer.bins, answer.ratedRpm)),
          },
        } satisfies Prisma.TestRideUncheckedCreateInput,
        select: { id: true },
      });
      await tx.job.update({
        where: { id: job.id },
        data: { version: { increment: 1 } },
        select: { id: true },
      });
      await audit(tx, shop, "ridden", "job", job.id, { rideId: ride.id, good: false, log: answer.steady });
      return ride.id;
    });
    return { rideId: rideId || null, steady };
  });
}
