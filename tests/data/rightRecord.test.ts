import { beforeEach, describe, expect, it } from "vitest";
import { saveSheet } from "@/lib/data/bikes/sheets";
import { getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { draftOf, sheetsOfJob, wantedValues } from "@/lib/data/jobs/sheets";
import { recordRide } from "@/lib/data/rides/record";
import type { ShopHandle } from "@/lib/db/shop";
import { jobNow, makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

const value = (setting: string, of: number) => ({ carburettor: 1, setting, value: of, how: "read" as const });
const plain = (values: readonly { setting: string; value: number }[]) =>
  Object.fromEntries(values.map((one) => [one.setting, one.value]));

/** Another job on a bike, without a target of its own. */
async function secondJob(shop: ShopHandle, bikeId: number) {
  const job = await makeJob(shop);
  await shop.write(async (tx) => {
    await tx.settingSheet.deleteMany({ where: { jobId: job.id } });
    await tx.job.update({ where: { id: job.id }, data: { bikeId } });
  });
  return { ...job, bikeId };
}

async function makes(shop: ShopHandle, jobId: number, settings: string[]) {
  await shop.write((tx) =>
    tx.step.updateMany({ where: { jobId, kind: "operation" }, data: { makes: settings } }),
  );
}

/** A reading of a hold point that measures a setting, as the card keeps it. */
async function measured(shop: ShopHandle, holdPointId: number, measures: string, of: number) {
  await shop.write(async (tx) => {
    await tx.holdPoint.update({
      where: { id: holdPointId },
      data: { measures, unit: "rpm", low: null, high: null },
    });
    await tx.reading.create({ data: { holdPointId, value: of, inside: true, at: shop.now, staffId: null } });
  });
}

async function doneButRide(shop: ShopHandle) {
  const job = await makeJob(shop);
  await shop.write(async (tx) => {
    await tx.step.updateMany({ where: { jobId: job.id, kind: { not: "ride" } }, data: { state: "done" } });
    await tx.holdPoint.updateMany({ where: { step: { jobId: job.id } }, data: { passed: true } });
    await tx.job.update({ where: { id: job.id }, data: { state: "inWork" } });
  });
  return job;
}

const at = async (shop: ShopHandle, jobId: number) => ({
  jobId,
  version: (await jobNow(shop, jobId)).version,
});

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

describe("what a job finds and leaves", () => {
  it("starts from the newest sheet of another job, as left too, and never from an older as-found one", async () => {
    const first = await makeJob(a);
    const asFound = [value("mainJet", 137.5), value("pilotJet", 42.5), value("idleSpeedRpm", 1250)];
    await saveSheet(a, { bikeId: first.bikeId, jobId: first.id, kind: "asFound", values: asFound });
    const left = [value("mainJet", 145), value("idleSpeedRpm", 1400)];
    await saveSheet(a, { bikeId: first.bikeId, jobId: first.id, kind: "asLeft", values: left });
    const second = await secondJob(a, first.bikeId);

    const sheets = await sheetsOfJob(a.read, second);
    // The as-left sheet says nothing of the pilot jet: the older sheet's is still fitted.
    expect(plain(sheets.asFound?.values ?? [])).toEqual({ mainJet: 145, pilotJet: 42.5, idleSpeedRpm: 1400 });
    expect(plain(wantedValues(sheets))).toEqual({ mainJet: 145, pilotJet: 42.5, idleSpeedRpm: 1400 });
    expect(plain(await draftOf(a, first.bikeId, second.id, "asLeft"))).toMatchObject({ mainJet: 145 });
    // The first job's own papers still say what it found.
    const own = await sheetsOfJob(a.read, first);
    expect(own.asFound?.values.find((one) => one.setting === "mainJet")?.value).toBe(137.5);
  });

  it("does not bring a target's older settings back that no step makes", async () => {
    const first = await makeJob(a);
    const second = await secondJob(a, first.bikeId);
    await makes(a, second.id, ["mainJet"]);
    // Quoted before the first job was done, from what was fitted then.
    const quoted = [value("mainJet", 150), value("pilotJet", 42.5), value("idleSpeedRpm", 1250)];
    await saveSheet(a, {
      bikeId: first.bikeId,
      jobId: second.id,
      kind: "target",
      values: quoted,
      calculation: { carburettors: [{ settings: [{ key: "mainJet", value: 150, from: 140 }] }] },
    });
    const left = [value("mainJet", 145), value("pilotJet", 47.5), value("idleSpeedRpm", 1400)];
    await saveSheet(a, { bikeId: first.bikeId, jobId: first.id, kind: "asLeft", values: left });

    const sheets = await sheetsOfJob(a.read, second);
    expect(plain(wantedValues(sheets))).toEqual({ mainJet: 150, pilotJet: 47.5, idleSpeedRpm: 1400 });
    const card = await getCard(a, second.id);
    expect(card?.steps.flatMap((step) => step.settings)).toMatchObject([{ from: 145, to: 150 }]);
  });

  it("takes a reading on the card over what was delivered or noted before", async () => {
    const job = await makeJob(a);
    await saveSheet(a, { bikeId: job.bikeId, kind: "asFound", values: [value("idleSpeedRpm", 1250)] });
    await measured(a, job.reading, "idleSpeedRpm", 1400);
    const sheets = await sheetsOfJob(a.read, job);
    expect(sheets.measured).toEqual([
      { carburettor: 1, setting: "idleSpeedRpm", value: 1400, how: "measured" },
    ]);
    expect(wantedValues(sheets).find((one) => one.setting === "idleSpeedRpm")).toMatchObject({
      value: 1400,
      how: "measured",
    });
    // The same ids in the other shop know nothing of it.
    await makeJob(b);
    expect((await sheetsOfJob(b.read, job)).measured).toEqual([]);
  });
});

describe("an odometer", () => {
  it("typed at a ride is kept whatever the ride's outcome", async () => {
    const job = await doneButRide(a);
    const { version } = await jobNow(a, job.id);
    await recordRide(a, {
      jobId: job.id,
      version,
      good: "no",
      odometerKm: 24_212,
      note: "",
      observations: [{ throttle: "full", condition: "steady", engine: "hot", sign: "lean", note: "" }],
    });
    const bike = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
    expect(bike.odometerKm).toBe(24_212);
  });

  it("lower than before, or far too high, is asked about and never replaces a reading in silence", async () => {
    const job = await makeJob(a);
    const save = (odometerKm: number, odometerRight?: boolean) =>
      saveSheet(a, {
        bikeId: job.bikeId,
        kind: "asFound",
        values: [value("mainJet", 140)],
        odometerKm,
        odometerRight,
      });
    await save(24_000);
    await expect(save(2_400)).rejects.toMatchObject({ fields: { odometerRight: expect.any(String) } });
    await expect(save(240_000)).rejects.toMatchObject({ fields: { odometerRight: expect.any(String) } });
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(24_000);
    await save(2_400, true);
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(2_400);
    const told = await a.read.auditEntry.findFirst({
      where: { act: "odometer confirmed" },
      orderBy: { id: "desc" },
    });
    expect(told).not.toBeNull();
  });
});

describe("finishing", () => {
  it("shows everything that is missing at once, and takes one answer for the rest", async () => {
    const job = await doneButRide(a);
    await recordRide(a, {
      ...(await at(a, job.id)),
      good: "yes",
      odometerKm: null,
      note: "",
      observations: [],
    });
    const values = { "1": { mainJet: 142.5, pilotJet: null, idleSpeedRpm: 1400 } };
    const typed = { values, hows: {}, odometerKm: null, note: "" };
    await expect(
      finishJob(a, { ...(await at(a, job.id)), ...typed, cautions: undefined }),
    ).rejects.toMatchObject({
      fields: {
        "values.1.pilotJet": expect.any(String),
        rest: expect.any(String),
        cautions: expect.any(String),
      },
    });
    const whole = {
      "1": { mainJet: 142.5, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: 1400 },
    };
    const { sheetId } = await finishJob(a, {
      ...(await at(a, job.id)),
      values: whole,
      hows: { "1": { idleSpeedRpm: "measured" } },
      rest: "read",
      odometerKm: null,
      note: "",
      cautions: "on",
    });
    const kept = await a.read.settingValue.findMany({ where: { sheetId }, orderBy: { id: "asc" } });
    expect(Object.fromEntries(kept.map((one) => [one.setting, one.how]))).toEqual({
      mainJet: "read",
      clipPosition: "read",
      mixtureScrewTurns: "read",
      idleSpeedRpm: "measured",
    });
  });
});
