"use server";
import { CARD_ACTS } from "@/app/_acts/cardActs";
import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { overrideHoldPoint, unskipStep } from "@/lib/data/jobs/exceptions";
import { addFinding, noteFinding } from "@/lib/data/jobs/findings";
import { finishJob } from "@/lib/data/jobs/finish";
import { accountForOne } from "@/lib/data/jobs/partsLeft";
import { takeReplacement } from "@/lib/data/jobs/replacement";
import { arriveJob } from "@/lib/data/jobs/states";
import { takeBackPass } from "@/lib/data/jobs/takeBack";
import { endBreak, takeBreak } from "@/lib/data/jobs/time/breaks";
import { correctTime } from "@/lib/data/jobs/time/correct";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { askedFirst } from "@/lib/data/jobs/time/running";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { recordRide } from "@/lib/data/rides/record";
import { keptKm } from "@/lib/domain/units/distance";
import { action } from "@/lib/gate/action";
import type { OpenShop } from "@/lib/gate/open";
import { formId } from "@/lib/schemas/ids";
import {
  ArriveSchema,
  CancelSchema,
  FindingSchema,
  FinishSchema,
  NoteFindingSchema,
  OverrideSchema,
  PartLeftSchema,
  ReplacementSchema,
  UndoSkipSchema,
} from "@/lib/schemas/jobs";
import { AcceptCorrectionSchema, RideSchema } from "@/lib/schemas/rides";
import {
  CorrectTimeSchema,
  EndBreakSchema,
  StartTimeSchema,
  StopTimeSchema,
  TakeBreakSchema,
} from "@/lib/schemas/timeEntries";
import { cardScreenOf } from "./[id]/card/shown";

/** What was typed, with the odometer in the kilometres that are kept. */
const inKm = <T extends { odometerKm: number | null }>(shop: OpenShop, input: T): T => ({
  ...input,
  odometerKm: keptKm(input.odometerKm, shop.settings.units),
});

const ofJob = { jobId: formId() };

export const arrive = action("job.work", ArriveSchema, async (shop, input, call) => {
  await arriveJob(shop, { ...inKm(shop, input), key: call.key });
  return { toast: "The bike is here." };
});

/** The desk hands bikes in as well. */
export const arriveAtDesk = action("job.write", ArriveSchema, async (shop, input, call) => {
  await arriveJob(shop, { ...inKm(shop, input), key: call.key });
  return { toast: "The bike is here." };
});

export const cancel = action("job.write", CancelSchema, async (shop, input, call) => {
  await cancelJob(shop, { ...input, key: call.key });
  return {
    to: `/s/${shop.slug}/jobs/${input.jobId}`,
    toast: "The job is cancelled; its parts are free again.",
  };
});

export const pass = action("job.work", CARD_ACTS.pass.schema, CARD_ACTS.pass.run, "typed", cardScreenOf);
export const skip = action("job.work", CARD_ACTS.skip.schema, CARD_ACTS.skip.run, "typed", cardScreenOf);

export const unskip = action("job.work", UndoSkipSchema, async (shop, input) => {
  await unskipStep(shop, input);
  return { toast: "The step waits again." };
});

export const takeBack = action("job.work", UndoSkipSchema, async (shop, input) => {
  await takeBackPass(shop, input);
  return { toast: "The pass is taken back: the step waits again." };
});

export const partLeft = action("stock.use", PartLeftSchema, async (shop, input) => {
  await accountForOne(shop, input);
  return { toast: input.used ? "Used." : "Given back." };
});

export const reserveReplacement = action("stock.use", ReplacementSchema, async (shop, input, { key }) => {
  const code = await takeReplacement(shop, { ...input, key });
  return { toast: `${code} is reserved in its place.` };
});

export const override = action("job.override", OverrideSchema, async (shop, input, call) => {
  await overrideHoldPoint(shop, { ...input, key: call.key });
  return { toast: "Overridden, with your reason." };
});

export const takePart = action("stock.use", CARD_ACTS.takePart.schema, CARD_ACTS.takePart.run);

export const find = action("job.work", FindingSchema, async (shop, { photo, ...input }, call) => {
  const { findingId } = await addFinding(shop, { ...input, key: call.key });
  if (photo) return { shown: { finding: String(findingId) } };
  return { to: `/s/${shop.slug}/jobs/${input.jobId}/card`, toast: "Kept: the desk sees it." };
});

export const noteFound = action("bike.write", NoteFindingSchema, async (shop, input) => {
  await noteFinding(shop, input);
  return { toast: "Noted." };
});

export const start = action("job.work", StartTimeSchema, async (shop, input, call) => {
  const asks = input.worked ? null : await askedFirst(shop, input);
  if (asks !== null)
    return { to: `/s/${shop.slug}/jobs/time/${asks}?job=${input.jobId}&step=${input.stepId ?? ""}` };
  await startTime(shop, { ...input, key: call.key });
  return { toast: "Your time runs." };
});

export const stop = action("job.work", StopTimeSchema, async (shop, input, call) => {
  if (!input.worked && (await askedFirst(shop)) === input.entryId)
    return { to: `/s/${shop.slug}/jobs/time/${input.entryId}` };
  await stopTime(shop, { ...input, key: call.key });
  return { toast: "Your time is stopped." };
});

export const pause = action("job.work", TakeBreakSchema, async (shop, input, call) => {
  if (!input.worked && (await askedFirst(shop)) === input.entryId)
    return { to: `/s/${shop.slug}/jobs/time/${input.entryId}?then=break` };
  await takeBreak(shop, { ...input, key: call.key });
  return { toast: "You are on a break." };
});

export const goOn = action("job.work", EndBreakSchema, async (shop, input, call) => {
  const { started } = await endBreak(shop, { ...input, key: call.key });
  return { toast: started ? "Your time runs again." : "The break is over; that job is finished." };
});

export const correct = action(
  "job.work",
  CorrectTimeSchema.extend({ ...ofJob, thenJob: formId().optional(), thenStep: formId().optional() }),
  async (shop, { jobId, thenJob, thenStep, ...input }, call) => {
    await correctTime(shop, { ...input, key: call.key });
    if (thenJob !== undefined) {
      // Sent twice, the second finds the time running there.
      await startTime(shop, { jobId: thenJob, stepId: thenStep });
      return { to: `/s/${shop.slug}/jobs/${thenJob}/card`, toast: "The time is corrected; yours runs here." };
    }
    return { to: `/s/${shop.slug}/jobs/${jobId}`, toast: "The time is corrected." };
  },
);

export const ride = action("job.work", RideSchema, async (shop, input, call) => {
  await recordRide(shop, { ...inKm(shop, input), key: call.key });
  return {
    to: `/s/${shop.slug}/jobs/${input.jobId}/ride`,
    toast: input.good === "yes" ? "Ridden, all good." : "The ride is kept.",
  };
});

export const accept = action("job.work", AcceptCorrectionSchema, async (shop, input, call) => {
  const { jobId } = await acceptCorrection(shop, { ...input, key: call.key });
  return {
    to: `/s/${shop.slug}/jobs/${jobId}/card`,
    toast: "One change: its steps are on the card, and a new ride.",
  };
});

export const finish = action("job.work", FinishSchema, async (shop, input, call) => {
  await finishJob(shop, { ...inKm(shop, input), key: call.key });
  return { to: `/s/${shop.slug}/jobs/${input.jobId}/handover`, toast: "Ready: the as-left sheet is kept." };
});
