import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { airOf } from "@/lib/domain/air/conditions";
import { Refusal } from "@/lib/domain/refusal";
import { feltOpenings } from "@/lib/domain/tuning/feltOpenings";
import { type ModelledParts, modelledParts } from "@/lib/domain/tuning/modelledParts";
import { keptAir } from "@/lib/domain/tuning/ridden";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { IntakeInput } from "@/lib/schemas/intakes";
import { keepCalibrationIn } from "../bikes/calibrations";
import { fittedParts } from "../bikes/describedParts";
import { fittedOn } from "../bikes/fitted";
import { fittedNeedles } from "../bikes/needles";
import { keepOdometerIn } from "../bikes/odometer";
import { conditionsIn } from "../jobs/acceptedSettings";
import { modelledOnJob } from "../jobs/madeParts";
import { type JobNeedle, needleShapeIn, needlesOfJob } from "../jobs/needles";
import { sheetsOfJob } from "../jobs/sheets";

/**
 * Records what the owner says and what a ride and a look showed. What was felt lean or rich is kept as one-sided evidence against
 * what is fitted, so that curves and settings from now on know of it.
 */
export async function recordIntake(shop: ShopHandle, input: IntakeInput): Promise<number> {
  return shop.write((tx) => once(tx, shop, "recorded an intake", input, () => recordIn(tx, shop, input)));
}

async function recordIn(tx: ShopTx, shop: ShopHandle, input: IntakeInput): Promise<number> {
  const { bikeId, jobId, observations, cylinders, odometerKm, odometerRight, key: _, ...said } = input;
  const bike = await tx.bike.findUnique({
    where: { id: bikeId },
    select: { modelCard: { select: { cylinders: true } } },
  });
  if (!bike) throw new Refusal("There is no such bike.", "Choose a bike from the list.", {}, "missing");
  const beyond = cylinders.find((one) => one.position > bike.modelCard.cylinders);
  if (beyond)
    throw new Refusal(
      `The model has ${bike.modelCard.cylinders} cylinders; something is entered for cylinder ${beyond.position}.`,
      "Empty it, or put the model card right first.",
    );
  const job = jobId === undefined ? null : await demandJob(tx, jobId, bikeId);
  await keepOdometerIn(tx, shop, bikeId, { odometerKm, odometerRight });
  const { id } = await tx.intake.create({
    data: {
      bikeId,
      jobId: job?.id ?? null,
      at: shop.now,
      staffId: shop.by.staffId,
      odometerKm,
      ...said,
      observations: { create: observations },
      cylinders: { create: cylinders },
    },
    select: { id: true },
  });
  const calibrationId = await keepFelt(tx, shop, { id, bikeId, jobId: job?.id ?? null }, observations);
  if (calibrationId !== null)
    await tx.intake.update({ where: { id }, data: { calibrationId }, select: { id: true } });
  await audit(tx, shop, "recorded", "intake", id, { bikeId, jobId: job?.id ?? null });
  return id;
}

async function demandJob(tx: ShopTx, id: number, bikeId: number): Promise<{ id: number }> {
  const job = await tx.job.findUnique({ where: { id }, select: { id: true, bikeId: true, number: true } });
  if (!job) throw new Refusal("There is no such job.", "Choose a job of this bike.", {}, "missing");
  if (job.bikeId === bikeId) return job;
  throw new Refusal(`Job ${job.number} is on another bike.`, "Choose a job of this bike.");
}

/** Keeps what was felt of the bike as it came; null where nothing was felt lean or rich. */
async function keepFelt(
  tx: ShopTx,
  shop: ShopHandle,
  intake: { id: number; bikeId: number; jobId: number | null },
  observations: IntakeInput["observations"],
): Promise<number | null> {
  const at = feltOpenings(observations);
  if (at.length === 0) return null;
  const sheet =
    intake.jobId === null
      ? await fittedOn(tx, intake.bikeId)
      : (await sheetsOfJob(tx, { id: intake.jobId, bikeId: intake.bikeId })).asFound;
  const values = (sheet?.values ?? []).filter((one) => one.carburettor === 1 && settingDef(one.setting));
  const { spot, ...conditions } = await conditionsIn(tx, shop);
  return keepCalibrationIn(tx, shop, {
    bikeId: intake.bikeId,
    source: "felt",
    ...(intake.jobId === null ? {} : { jobId: intake.jobId }),
    evidence: {
      kind: "felt",
      settings: Object.fromEntries(values.map((one) => [one.setting, one.value])),
      ...(await needleShapeIn(tx, intake.bikeId, await needlesThen(tx, intake))),
      ...(await partsThen(tx, intake)),
      air: keptAir(airOf(conditions, spot)),
      at,
    },
    samples: 0,
    note: `Intake ${intake.id}, before any work.`,
  });
}

/** The described parts as the bike came, as the fuel model takes them. */
async function partsThen(
  tx: ShopTx,
  { bikeId, jobId }: { readonly bikeId: number; readonly jobId: number | null },
): Promise<ModelledParts> {
  return jobId === null
    ? modelledParts((await fittedParts(tx, bikeId)).get(1))
    : modelledOnJob(tx, { id: jobId, bikeId }, "found");
}

/** The needles as the bike came: those found on its job, or those that its records say are in it. */
async function needlesThen(
  tx: ShopTx,
  intake: { readonly bikeId: number; readonly jobId: number | null },
): Promise<readonly JobNeedle[]> {
  const found =
    intake.jobId === null
      ? [...(await fittedNeedles(tx, intake.bikeId))]
      : (await needlesOfJob(tx, { id: intake.jobId, bikeId: intake.bikeId })).map(
          (one) => [one.carburettor, one.found] as const,
        );
  return found.map(([carburettor, one]) => ({
    carburettor,
    found: one,
    target: null,
    made: null,
    fitted: one,
  }));
}

/** Takes an intake that was wrong out of everything; it stays to be read, with the reason. */
export async function withdrawIntake(
  shop: ShopHandle,
  input: { intakeId: number; version: number; why: string },
): Promise<number> {
  return shop.write(async (tx) => {
    const intake = await tx.intake.findUnique({
      where: { id: input.intakeId },
      select: { id: true, bikeId: true, calibrationId: true },
    });
    if (!intake) throw new Refusal("There is no such intake.", "Open the bike again.", {}, "missing");
    await demandOne(
      tx.intake.updateMany({
        where: { id: intake.id, version: input.version, withdrawnAt: null },
        data: { withdrawnAt: shop.now, withdrawnWhy: input.why, version: { increment: 1 } },
      }),
      () => new Refusal("This intake was withdrawn meanwhile.", "Open it again.", {}, "conflict"),
    );
    if (intake.calibrationId !== null)
      await tx.lessonVerdict.create({
        data: {
          calibrationId: intake.calibrationId,
          act: "takeOut",
          why: input.why,
          at: shop.now,
          staffId: shop.by.staffId,
        },
        select: { id: true },
      });
    await audit(tx, shop, "withdrew", "intake", intake.id, { why: input.why });
    return intake.bikeId;
  });
}
