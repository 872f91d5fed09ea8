import { describe, expect, it } from "vitest";
import { finishJob } from "@/lib/data/jobs/finish";
import { passStep } from "@/lib/data/jobs/pass";
import { startTime } from "@/lib/data/jobs/time/run";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { getRides } from "@/lib/data/rides/get";
import { freeJets } from "@/lib/data/rides/jets";
import { recordRide } from "@/lib/data/rides/record";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { type RideObservation, RideSchema } from "@/lib/schemas/rides";
import { jobNow, type MadeJob, makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

async function readyToRide(shop: ShopHandle): Promise<MadeJob> {
  const job = await makeJob(shop);
  const [open, seat, close] = job.steps as [number, number, number];
  const plain = { version: 1, readings: [], checks: [], signatures: [] };
  await passStep(shop, { ...plain, stepId: open });
  await passStep(shop, { ...plain, stepId: seat, readings: [{ holdPointId: job.reading, value: 3.1 }] });
  await passStep(shop, { ...plain, stepId: close, checks: [job.check] });
  return job;
}

const felt = (change: Partial<RideObservation> = {}): RideObservation => ({
  throttle: "full",
  condition: "steady",
  engine: "hot",
  sign: "lean",
  note: "",
  ...change,
});

async function ride(shop: ShopHandle, jobId: number, observations: RideObservation[], key?: string) {
  const { version } = await jobNow(shop, jobId);
  const good = observations.length === 0 ? "yes" : "no";
  return recordRide(shop, { jobId, version, good, odometerKm: null, note: "", observations, key });
}

const confirmed =
  (shop: ShopHandle, jobId: number) =>
  async (change: Record<string, number | null> = {}) => {
    const { version } = await jobNow(shop, jobId);
    const values = {
      mainJet: 142.5,
      clipPosition: 3,
      mixtureScrewTurns: 2.25,
      idleSpeedRpm: 1400,
      ...change,
    };
    const hows = Object.fromEntries(Object.keys(values).map((key) => [key, "read" as const]));
    return finishJob(shop, {
      jobId,
      version,
      values: { "1": values },
      hows: { "1": hows },
      odometerKm: 24_190,
      note: "",
      cautions: "on",
    });
  };

describe("a test ride", () => {
  it("waits until the bike is closed up", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await passStep(a, {
      stepId: job.steps[0] as number,
      version: 1,
      readings: [],
      checks: [],
      signatures: [],
    });
    await expect(ride(a, job.id, [felt()])).rejects.toThrow(/Step 2, “Needle seat height”, is still to do/);
  });

  it("all good does the ride step; the step is not passed on the card without such a ride", async () => {
    const { a, b } = await twoShops();
    const job = await readyToRide(a);
    const last = job.steps[3] as number;
    const plain = { stepId: last, version: 1, readings: [], checks: [], signatures: [] };
    await expect(passStep(a, plain)).rejects.toThrow(/No ride is recorded/);
    await ride(a, job.id, []);
    expect((await jobNow(a, job.id)).steps[3]?.state).toBe("done");
    expect(await b.read.testRide.count()).toBe(0);
  });

  it("cannot be good and not good, nor not good without saying where", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    const { version } = await jobNow(a, job.id);
    const base = { jobId: job.id, version, odometerKm: null, note: "" };
    await expect(recordRide(a, { ...base, good: "yes", observations: [felt()] })).rejects.toThrow(
      /something that was not/,
    );
    await expect(recordRide(a, { ...base, good: "no", observations: [] })).rejects.toThrow(
      /Nothing is entered/,
    );
  });

  it("lean at full throttle offers a main jet one step up, with reasons and what to rule out first", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await ride(a, job.id, [felt()], "one-ride-key");
    const view = await getRides(a, job.id);
    expect(view?.rides[0]?.corrections[0]).toMatchObject({
      setting: "mainJet",
      fromValue: 142.5,
      toValue: 145,
      needs: "",
    });
    expect(view?.rides[0]?.corrections[0]?.because.length).toBeGreaterThan(0);
    expect(view?.ruleOutFirst.map((one) => one.check).join()).toMatch(/Air leak/);
  });

  it("accepting one writes a new target, opens the bike again, and adds a ride after it", async () => {
    const { a, b } = await twoShops();
    const job = await readyToRide(a);
    const jets = await a.write(async (tx) => {
      const made: number[] = [];
      for (const sizeMilli of [142_500, 145_000]) {
        const data = {
          code: `M${sizeMilli}`,
          name: "Main jet",
          kind: "jet" as const,
          family: "Large round main",
          sizeMilli,
          searchKey: "m",
          createdAt: a.now,
        };
        made.push((await tx.part.create({ data, select: { id: true } })).id);
      }
      return made as [number, number];
    });
    for (const partId of jets) await recordMove(a, { partId, kind: "opening", quantityMilli: 1000 });
    await a.write((tx) => reserveIn(tx, a, { jobId: job.id, partId: jets[0], wantedMilli: 1000 }));
    await ride(a, job.id, [felt()]);
    const { version } = await jobNow(a, job.id);
    const first = (await getRides(a, job.id))?.rides[0]?.corrections[0]?.id ?? 0;
    await acceptCorrection(a, { correctionId: first, version, lambda: null });

    const now = await jobNow(a, job.id);
    expect(now.state).toBe("inWork");
    expect(now.steps.slice(3).map((step) => [step.kind, step.name, step.state])).toEqual([
      ["ride", "Test ride", "done"],
      ["open", "Tilt left: carburettor", "todo"],
      ["open", "Take off: bowl", "todo"],
      ["operation", "Main jet 142.5 to 145.0", "todo"],
      ["close", "Put back: bowl", "todo"],
      ["close", "Tilt back: carburettor", "todo"],
      ["ride", "Test ride", "todo"],
    ]);
    const target = (await getRides(a, job.id))?.target;
    expect(target?.values.map((v) => [v.setting, v.value])).toContainEqual(["mainJet", 145]);
    expect(target?.values).toHaveLength(4);
    expect(await a.read.settingSheet.count({ where: { kind: "target" } })).toBe(2);
    const reserved = await a.read.reservation.findFirstOrThrow({ where: { partId: jets[1] } });
    expect(reserved).toMatchObject({ reservedMilli: 1000, stepId: now.steps[6]?.id });
    expect(await b.read.settingSheet.count()).toBe(0);
  });

  it("looks for pilot jets in the drawer that the model card names, where no package names one", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b]) {
      const job = await readyToRide(shop);
      const base = { name: "Pilot jet", kind: "jet" as const, searchKey: "p", createdAt: shop.now };
      for (const [family, size] of [
        ["Long pilot", 45],
        ["Long pilot", 47.5],
        ["Short pilot", 50],
      ] as const) {
        const data = { ...base, code: `P-${size}`, family, sizeMilli: size * 1000 };
        const { id } = await shop.write((tx) => tx.part.create({ data, select: { id: true } }));
        await recordMove(shop, { partId: id, kind: "opening", quantityMilli: 1000 });
      }
      expect(await freeJets(shop.read, job.id, "pilotJet", 45)).toBeUndefined();
      if (shop === b) continue;
      await shop.write((tx) =>
        tx.modelCard.updateMany({ data: { pilotFamily: "Long pilot", mainFamily: "Elsewhere" } }),
      );
      expect(await freeJets(shop.read, job.id, "pilotJet", 45)).toEqual([45, 47.5]);
      // The job's package has the last word.
      expect(await freeJets(shop.read, job.id, "mainJet", 142.5)).toEqual([]);
    }
  });

  it("lets one change be accepted at a time, also when two people choose at once", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await ride(a, job.id, [felt(), felt({ throttle: "quarter", sign: "hesitates" })]);
    const { version } = await jobNow(a, job.id);
    const offered = (await getRides(a, job.id))?.rides[0]?.corrections ?? [];
    expect(offered.length).toBeGreaterThan(1);
    const both = await Promise.allSettled(
      offered.slice(0, 2).map((one) => acceptCorrection(a, { correctionId: one.id, version, lambda: null })),
    );
    expect(both.filter((one) => one.status === "fulfilled")).toHaveLength(1);
    const lost = both.find((one) => one.status === "rejected") as PromiseRejectedResult;
    expect(lost.reason.message).toMatch(/already being changed after this ride/);
    expect(await a.read.settingSheet.count({ where: { kind: "target" } })).toBe(2);
  });

  it("goes leaner on the main jet only after lambda was measured, and not when that is lean already", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await ride(a, job.id, [felt({ sign: "rich" })]);
    const { version } = await jobNow(a, job.id);
    const leaner = (await getRides(a, job.id))?.rides[0]?.corrections.find(
      (one) => one.setting === "mainJet",
    );
    expect(leaner).toMatchObject({ toValue: 140 });
    const id = leaner?.id ?? 0;
    await expect(acceptCorrection(a, { correctionId: id, version, lambda: null })).rejects.toThrow(
      /Nothing was measured/,
    );
    await expect(acceptCorrection(a, { correctionId: id, version, lambda: 0.97 })).rejects.toThrow(
      /already lean/,
    );
    expect((await jobNow(a, job.id)).state).toBe("ride");
    const input = { correctionId: id, version, lambda: 0.82, key: "accept-leaner-key" };
    const [one, two] = [await acceptCorrection(a, input), await acceptCorrection(a, input)];
    expect(one).toEqual(two);
  });
});

describe("finishing a job", () => {
  it("needs every step done, every value confirmed and the idle speed set, then makes it ready", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    const finish = confirmed(a, job.id);
    await expect(finish()).rejects.toThrow(/“Test ride”, is still to do/);
    await ride(a, job.id, []);
    await expect(finish({ idleSpeedRpm: null })).rejects.toMatchObject({
      fields: { "values.1.idleSpeedRpm": expect.any(String) },
    });
    await expect(finish({ mainJet: 900 })).rejects.toThrow(/not complete/);
    await finish();
    expect((await jobNow(a, job.id)).state).toBe("ready");
    const left = await a.read.settingSheet.findFirstOrThrow({
      where: { kind: "asLeft" },
      include: { values: true },
    });
    expect(left.values).toHaveLength(4);
    expect(left.values.every((value) => value.how === "read")).toBe(true);
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(24_190);
    await expect(finish()).rejects.toThrow(/is ready/);
  });

  it("goes back into work when steps were added after it was ready, and stays ready without any", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await ride(a, job.id, []);
    await confirmed(a, job.id)();
    await expect(startTime(a, { jobId: job.id })).rejects.toThrow(/nothing more is done on it/);
    const added = await a.write((tx) =>
      tx.step.create({
        data: {
          jobId: job.id,
          position: 5,
          kind: "operation",
          key: "guide",
          name: "Slide guide",
          minutes: 20,
          tools: [],
          cautions: [],
        },
        select: { id: true },
      }),
    );
    await passStep(a, { stepId: added.id, version: 1, readings: [], checks: [], signatures: [] });
    expect((await jobNow(a, job.id)).state).toBe("inWork");
    await confirmed(a, job.id)();
    expect((await jobNow(a, job.id)).state).toBe("ready");
    expect(await a.read.settingSheet.count({ where: { kind: "asLeft" } })).toBe(2);
  });

  it("refuses an as-left sheet that leaves out a value of the target", async () => {
    const { a } = await twoShops();
    const job = await readyToRide(a);
    await ride(a, job.id, []);
    const { version } = await jobNow(a, job.id);
    await expect(
      finishJob(a, {
        jobId: job.id,
        version,
        values: { "1": { idleSpeedRpm: 1400 } },
        hows: { "1": { idleSpeedRpm: "measured" } },
        odometerKm: null,
        note: "",
        cautions: "on",
      }),
    ).rejects.toMatchObject({ fields: { "values.1.mainJet": "Main jet of carburettor 1 is missing." } });
  });
});

it("a ride's form leaves out rows without a sign and refuses a half-filled one", () => {
  const form = {
    jobId: "1",
    version: "2",
    good: "no",
    observations: { "0": { ...felt() }, "1": { throttle: "half", sign: "" } },
  };
  expect(RideSchema.parse(form).observations).toHaveLength(1);
  const half = { ...form, observations: { "0": { sign: "lean", engine: "hot", condition: "steady" } } };
  expect(RideSchema.safeParse(half).success).toBe(false);
});
