import { z } from "zod";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type SettingDef, settingDef } from "@/lib/domain/tuning/settings";
import type { AcceptInput } from "@/lib/schemas/rides";
import { saveSheetIn } from "../bikes/sheets";
import { type SheetOfJob, sheetsOfJob } from "../jobs/sheets";
import { demandVersion, jobIn, moveJobIn } from "../jobs/states";
import { appendCorrectionIn } from "./append";

/** Leaner than this at full load, or anywhere else, nothing is made leaner still. Typical targets, from memory. */
const LEANEST = { mainJet: 0.9, other: 1.05 } as const;

/**
 * Accepts one correction of the job's newest ride: a new target sheet, the steps that carry it out and a new ride
 * are added, and the job is in work again. One change at a time.
 */
export async function acceptCorrection(
  shop: ShopHandle,
  input: AcceptInput,
): Promise<{ jobId: number; sheetId: number }> {
  return shop.write(async (tx) => {
    const found = await correctionIn(tx, input.correctionId);
    const sheetId = await once(tx, shop, "accepted a correction", input, async () => {
      const job = await jobIn(tx, found.ride.jobId);
      await demandOpen(tx, found, job.id);
      demandVersion(job, input.version);
      const def = demandSetting(found.setting);
      demandMeasured(found, def, input.lambda);

      const { sheetId: saved, values } = await saveTarget(tx, shop, job, found, input.lambda);
      await tx.correction.update({
        where: { id: found.id },
        data: { acceptedAt: shop.now, acceptedBy: shop.by.staffId, sheetId: saved },
        select: { id: true },
      });
      await appendCorrectionIn(
        tx,
        shop,
        job.id,
        changesOf(found).map((change) => ({
          ...change,
          target: values.filter((value) => value.setting === change.def.key),
        })),
      );
      await moveJobIn(tx, job, ["inWork", "ride"], { state: "inWork", finishedAt: null });
      await audit(tx, shop, "accepted a correction", "job", job.id, {
        setting: found.setting,
        from: found.fromValue,
        to: found.toValue,
        lambda: input.lambda,
      });
      return saved;
    });
    return { jobId: found.ride.jobId, sheetId };
  });
}

type Found = Awaited<ReturnType<typeof correctionIn>>;

async function correctionIn(tx: ShopTx, id: number) {
  const found = await tx.correction.findUnique({
    where: { id },
    select: {
      id: true,
      setting: true,
      fromValue: true,
      toValue: true,
      also: true,
      needs: true,
      rideId: true,
      ride: { select: { jobId: true } },
    },
  });
  if (!found) throw new Refusal("There is no such correction.", "Open the job's ride again.", {}, "missing");
  return found;
}

async function demandOpen(tx: ShopTx, found: Found, jobId: number): Promise<void> {
  const [newest, taken] = await Promise.all([
    tx.testRide.findFirst({ where: { jobId }, select: { id: true }, orderBy: { id: "desc" } }),
    tx.correction.findFirst({
      where: { rideId: found.rideId, acceptedAt: { not: null } },
      select: { setting: true },
      orderBy: { id: "asc" },
    }),
  ]);
  if (taken)
    throw new Refusal(
      `${settingDef(taken.setting)?.name ?? taken.setting} is already being changed after this ride.`,
      "One change at a time: make it, ride again, then choose the next.",
      {},
      "conflict",
    );
  if (newest?.id !== found.rideId)
    throw new Refusal(
      "The bike was ridden again since.",
      "Choose among the corrections of the newest ride.",
      {},
      "conflict",
    );
}

function demandSetting(setting: string): SettingDef {
  const def = settingDef(setting);
  if (!def) throw new Refusal(`“${setting}” is no setting.`, "Record the ride again.");
  return def;
}

function demandMeasured(found: Found, def: SettingDef, lambda: number | null): void {
  if (!found.needs) return;
  if (lambda === null)
    throw new Refusal("Nothing was measured for this leaner change.", found.needs, { lambda: found.needs });
  const leanest = def.key === "mainJet" ? LEANEST.mainJet : LEANEST.other;
  if (lambda > leanest)
    throw new Refusal(
      `Lambda ${lambda} is already lean: going leaner would hurt the engine.`,
      "Look at the faults to rule out first; a lean reading is not cured by a smaller jet.",
      { lambda: `At most ${leanest} before this change.` },
    );
}

export interface Change {
  readonly def: SettingDef;
  readonly from: number;
  readonly to: number;
}

/** A correction's own change and those that are made with it. */
function changesOf(found: Found): readonly Change[] {
  const also = AlsoSchema.parse(found.also);
  return [{ setting: found.setting, from: found.fromValue, to: found.toValue }, ...also].map(
    ({ setting, from, to }) => ({ def: demandSetting(setting), from, to }),
  );
}

const AlsoSchema = z.array(z.object({ setting: z.string(), from: z.number(), to: z.number() })).max(4);

type SheetValue = SheetOfJob["values"][number];

/** The target as it stands, changed in this one setting by the same step on every carburettor. */
async function saveTarget(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number },
  found: Found,
  lambda: number | null,
): Promise<{ sheetId: number; values: readonly SheetValue[] }> {
  const changes = changesOf(found);
  // A spring is shortened by cutting it, so that its coils go with its length.
  const cut = changes.find((one) => one.def.key === "springLengthMm" && one.to < one.from);
  const values = (await sheetsOfJob(tx, job)).fitted.map((value) => {
    const change = changes.find((one) => one.def.key === value.setting);
    if (cut && value.setting === "springCoils")
      return { ...value, value: Number(((value.value * cut.to) / cut.from).toFixed(2)), how: "computed" };
    return change
      ? { ...value, value: Number((value.value + change.to - change.from).toFixed(4)), how: "computed" }
      : value;
  });
  const measured = lambda === null ? "" : ` Lambda ${lambda} measured before.`;
  const sheetId = await saveSheetIn(tx, shop, {
    bikeId: job.bikeId,
    jobId: job.id,
    kind: "target",
    values,
    note: `After a ride: ${changes.map((one) => `${one.def.name.toLowerCase()} ${one.from} to ${one.to}`).join(", ")}.${measured}`,
  });
  return { sheetId, values };
}
