import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { Correction } from "@/lib/domain/tuning/rideTypes";
import type { RideInput } from "@/lib/schemas/rides";
import { keepOdometerIn } from "../bikes/odometer";
import { demandVersion, jobIn } from "../jobs/states";
import { keepFeltIn } from "./felt";
import { readingOf } from "./reading";

/**
 * Records a test ride once nothing but the ride is left. All good: the ride step is done. Otherwise what was felt
 * is kept with the corrections it points to, best first.
 */
export async function recordRide(shop: ShopHandle, input: RideInput): Promise<{ rideId: number }> {
  return shop.write(async (tx) => ({
    rideId: await once(tx, shop, "recorded a ride", input, async () => {
      const job = await jobIn(tx, input.jobId);
      demandVersion(job, input.version);
      await demandRideable(tx, job);
      const good = input.good === "yes";
      demandFelt(input, good);
      const corrections = good ? [] : (await readingOf(tx, job, input.observations)).corrections;
      await keepOdometerIn(tx, shop, job.bikeId, input);
      const ride = await tx.testRide.create({
        data: {
          jobId: job.id,
          at: shop.now,
          staffId: shop.by.staffId,
          odometerKm: input.odometerKm,
          good,
          note: input.note,
          observations: { create: input.observations.map((one) => ({ ...one })) },
          corrections: {
            create: keptCorrections(corrections),
          },
        },
        select: { id: true },
      });
      if (good) await passRideSteps(tx, shop, job.id);
      else await keepFeltIn(tx, shop, job, input.observations);
      await tx.job.update({
        where: { id: job.id },
        data: { version: { increment: 1 } },
        select: { id: true },
      });
      await audit(tx, shop, "ridden", "job", job.id, { rideId: ride.id, good });
      return ride.id;
    }),
  }));
}

/** Corrections as they are kept with a ride; one whose setting is not on the sheet cannot be. */
export function keptCorrections(corrections: readonly Correction[]) {
  return corrections.flatMap((one, at) =>
    one.from === null || one.to === null
      ? []
      : [
          {
            rank: at + 1,
            setting: one.setting,
            fromValue: one.from,
            toValue: one.to,
            also: (one.also ?? []).map(({ setting, from, to }) => ({ setting, from, to })),
            because: one.because as unknown as Prisma.InputJsonValue,
            needs: one.needsMeasurement ?? "",
          },
        ],
  );
}

/** Refuses a ride, felt or logged, while the job is not in work, is stopped, or has work left before the ride. */
export async function demandRideable(
  tx: ShopTx,
  job: { id: number; number: string; state: string; stopped: string },
): Promise<void> {
  if (job.state !== "inWork" && job.state !== "ride")
    throw new Refusal(
      `Job ${job.number} is not in work.`,
      "A ride is recorded while its work goes on.",
      {},
      "conflict",
    );
  if (job.stopped)
    throw new Refusal(
      `Job ${job.number} is stopped: ${job.stopped}.`,
      "Do not ride it: measure again first.",
    );
  const left = await tx.step.findFirst({
    where: { jobId: job.id, state: "todo", kind: { not: "ride" } },
    select: { position: true, name: true },
    orderBy: { position: "asc" },
  });
  if (left)
    throw new Refusal(
      `Step ${left.position}, “${left.name}”, is still to do.`,
      "Close the bike up by the card, then ride.",
    );
}

function demandFelt(input: RideInput, good: boolean): void {
  const felt = input.observations.filter((one) => one.sign !== "good");
  if (good && felt.length > 0)
    throw new Refusal("You said all was good, and something that was not.", "Choose one of the two.", {
      good: "Not all was good by what you entered.",
    });
  if (!good && felt.length === 0)
    throw new Refusal(
      "Nothing is entered that was not good.",
      "Say at which throttle position you felt what.",
      {
        "observations.0.sign": "Choose what you felt.",
      },
    );
}

/** A good ride passes the ride step; its own hold points stay to be passed on the card. */
async function passRideSteps(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  await tx.step.updateMany({
    where: {
      jobId,
      state: "todo",
      kind: "ride",
      holdPoints: { none: { passed: false, overrideReason: "" } },
    },
    data: { state: "done", doneAt: shop.now, doneBy: shop.by.staffId, version: { increment: 1 } },
  });
}
