import { beforeEach, describe, expect, it } from "vitest";
import { measuredOnBike } from "@/lib/data/bikes/measured";
import { wearOnBike, wearOnCard } from "@/lib/data/bikes/wear";
import { getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { passStep } from "@/lib/data/jobs/pass";
import { sheetsOfJob } from "@/lib/data/jobs/sheets";
import { handoverForPaper } from "@/lib/data/papers/handover";
import type { ShopHandle } from "@/lib/db/shop";
import { jobNow, type MadeJob, makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

/** The hold point of a job's operation measures this, its first step is done, and its card knows these facts. */
async function measuring(
  shop: ShopHandle,
  job: MadeJob,
  hold: { measures: string; low?: number | null; high?: number | null; unit?: string; name?: string },
  facts: Readonly<Record<string, number>> = {},
): Promise<number> {
  const { modelCardId } = await shop.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
  await shop.write(async (tx) => {
    await tx.holdPoint.update({
      where: { id: job.reading },
      data: { low: null, high: null, unit: "mm", name: "Read", ...hold },
    });
    await tx.step.updateMany({ where: { jobId: job.id, kind: "open" }, data: { state: "done" } });
    for (const [key, value] of Object.entries(facts))
      await tx.modelFact.create({ data: { modelCardId, key, value, how: "read" } });
  });
  return modelCardId;
}

async function twin(shop: ShopHandle, bikeId: number): Promise<void> {
  await shop.write((tx) => tx.carburettor.create({ data: { bikeId, position: 2, label: "Right" } }));
}

async function pass(shop: ShopHandle, job: MadeJob, value: number, carburettor?: number) {
  const step = (await jobNow(shop, job.id)).steps[1];
  return passStep(shop, {
    stepId: step?.id ?? 0,
    version: step?.version ?? 0,
    readings: [{ holdPointId: job.reading, value }],
    carburettors: carburettor === undefined ? {} : { [job.reading]: carburettor },
    checks: [],
    signatures: [],
  });
}

let a: ShopHandle;
let b: ShopHandle;
let job: MadeJob;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  job = await makeJob(a);
  await makeJob(b);
});

describe("a reading of a part that wears", () => {
  it("is held to the limit of the model card, stops the job beyond it, and stands in the bike's trend", async () => {
    const card = await measuring(a, job, { measures: "needleJetBoreMm" }, { needleJetWearMm: 2.61 });
    const shown = (await getCard(a, job.id))?.steps[1]?.holdPoints[0];
    expect(shown).toMatchObject({ low: null, high: 2.61, from: "model card", asksCarburettor: false });

    expect(await pass(a, job, 2.62)).toBe("stopped");
    expect((await jobNow(a, job.id)).stopped).toBe(
      "Read 2.62 mm, not up to 2.61, the limit of the model card",
    );
    expect(await pass(a, job, 2.56)).toBe("passed");

    const trend = (await measuredOnBike(a, job.bikeId))?.trends;
    expect(trend).toMatchObject([
      { name: "Needle jet bore", limit: { high: 2.61 }, readings: [{ value: 2.62 }, { value: 2.56 }] },
    ]);
    expect((await wearOnCard(a, card))[0]?.readings).toMatchObject([{ measured: 2.56, state: "within" }]);
    expect(await wearOnBike(a, { id: job.bikeId, modelCardId: card })).toMatchObject([{ measured: 2.56 }]);
    // The same ids in the other shop know nothing of it.
    expect((await measuredOnBike(b, job.bikeId))?.trends).toEqual([]);
    expect(await wearOnCard(b, card)).toEqual([]);
  });

  it("keeps the limit that it was held to, whatever the card says later", async () => {
    await measuring(a, job, { measures: "needleJetBoreMm" }, { needleJetWearMm: 2.61 });
    await pass(a, job, 2.6);
    await a.write((tx) =>
      tx.modelFact.updateMany({ where: { key: "needleJetWearMm" }, data: { value: 2.58 } }),
    );
    expect((await getCard(a, job.id))?.steps[1]?.holdPoints[0]).toMatchObject({ high: 2.61 });
    expect((await handoverForPaper(a, job.id))?.readings).toMatchObject([{ value: 2.6, high: 2.61 }]);
  });

  it("is held to the wear of the delivered spring only before a step makes another of it", async () => {
    await measuring(a, job, { measures: "springLengthMm" }, { springFreeMinMm: 104 });
    expect((await getCard(a, job.id))?.steps[1]?.holdPoints[0]).toMatchObject({ low: 104 });
    await a.write((tx) =>
      tx.step.updateMany({ where: { key: "seat" }, data: { makes: ["springLengthMm"] } }),
    );
    expect((await getCard(a, job.id))?.steps[1]?.holdPoints[0]).toMatchObject({ low: null });
    expect(await pass(a, job, 96)).toBe("passed");
  });
});

describe("a reading on a twin", () => {
  it("is asked for its carburettor, and fills the setting of that one", async () => {
    await twin(a, job.bikeId);
    await measuring(a, job, { measures: "floatHeightMm", low: 12, high: 14 });
    expect((await getCard(a, job.id))?.steps[1]?.holdPoints[0]?.asksCarburettor).toBe(true);
    await expect(pass(a, job, 13)).rejects.toMatchObject({
      fields: { [`carburettors.${job.reading}`]: "Say which carburettor Read was read on." },
    });
    await expect(pass(a, job, 13, 3)).rejects.toMatchObject({ kind: "refused" });
    expect(await a.read.reading.count({ where: { holdPointId: job.reading } })).toBe(0);
    expect(await pass(a, job, 13, 2)).toBe("passed");
    expect((await sheetsOfJob(a.read, job)).measured).toEqual([
      { carburettor: 2, setting: "floatHeightMm", value: 13, how: "measured" },
    ]);
  });

  it("does not pass a hold point while another carburettor was read outside there", async () => {
    await twin(a, job.bikeId);
    await measuring(a, job, { measures: "floatHeightMm", low: 12, high: 14 });
    expect(await pass(a, job, 15, 1)).toBe("stopped");
    expect(await pass(a, job, 13, 2)).toBe("stopped");
    expect((await jobNow(a, job.id)).stopped).toContain("carburettor 1 was outside");
    expect(await pass(a, job, 13.5, 1)).toBe("passed");
    const { measured } = await sheetsOfJob(a.read, job);
    expect(measured.map((one) => [one.carburettor, one.value])).toEqual([
      [1, 13.5],
      [2, 13],
    ]);
  });
});

describe("a setting that the card measured", () => {
  async function ready(idle: string, how: "" | "measured" | "read") {
    const values = { mainJet: 142.5, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: Number(idle) };
    const { version } = await jobNow(a, job.id);
    return finishJob(a, {
      jobId: job.id,
      version,
      values: { "1": values },
      hows: { "1": { idleSpeedRpm: how } },
      rest: "read",
      odometerKm: null,
      odometerRight: false,
      note: "",
      cautions: "on",
    });
  }
  beforeEach(async () => {
    await measuring(a, job, {
      measures: "idleSpeedRpm",
      unit: "rpm",
      low: 1300,
      high: 1450,
      name: "Idle, hot",
    });
    await pass(a, job, 1350);
    await a.write(async (tx) => {
      await tx.step.updateMany({ where: { jobId: job.id }, data: { state: "done" } });
      await tx.holdPoint.updateMany({ where: { step: { jobId: job.id } }, data: { passed: true } });
    });
  });

  it("is one number on card, sheet and handover, and is not told twice", async () => {
    await ready("1350", "");
    const paper = await handoverForPaper(a, job.id);
    expect(paper?.asLeft.find((one) => one.setting === "idleSpeedRpm")).toMatchObject({
      value: 1350,
      how: "measured",
    });
    expect(paper?.readings).toEqual([]);
  });

  it("is not said otherwise without a gauge; measured once more, the card has the new reading too", async () => {
    await expect(ready("1400", "read")).rejects.toMatchObject({
      fields: { "values.1.idleSpeedRpm": expect.stringContaining("The card measured 1350 rpm") },
    });
    await expect(ready("1500", "measured")).rejects.toMatchObject({
      message: expect.stringContaining("not 1300 to 1450"),
    });
    await ready("1400", "measured");
    const card = await getCard(a, job.id);
    expect(card?.steps[1]?.holdPoints[0]?.readings.map((one) => one.value)).toEqual([1400, 1350]);
    const paper = await handoverForPaper(a, job.id);
    expect(paper?.asLeft.find((one) => one.setting === "idleSpeedRpm")?.value).toBe(1400);
    expect(paper?.readings).toEqual([]);
  });
});
