import { expect, it } from "vitest";
import { recallLike } from "@/lib/data/figures/recall";
import type { ShopHandle } from "@/lib/db/shop";
import { recallFilter } from "@/lib/schemas/recall";
import { makeJob } from "../support/jobs";
import { seeded } from "../support/seeded";
import { twoShops } from "../support/shops";

const DAY = 86_400_000;

/** Another bike of a model with jobs that each left it at a main jet and a screw; the last of them was ridden and asked after. */
async function left(shop: ShopHandle, like: number, name: string, jets: readonly number[]): Promise<number> {
  const { id: jobId, bikeId } = await makeJob(shop);
  const { modelCardId } = await shop.read.bike.findUniqueOrThrow({ where: { id: like } });
  await shop.write(async (tx) => {
    await tx.bike.update({ where: { id: bikeId }, data: { modelCardId, plate: name } });
    for (const [at, mainJet] of jets.entries())
      await tx.settingSheet.create({
        data: {
          bikeId,
          jobId,
          kind: "asLeft",
          takenAt: new Date(shop.now.getTime() + at * DAY),
          conditions: { altitudeM: 400 + at, season: "autumn", temperatureC: 12, humidityPercent: null },
          values: {
            create: [
              { carburettor: 1, setting: "mixtureScrewTurns", value: 2 + at / 4, how: "read" },
              { carburettor: 1, setting: "mainJet", value: mainJet, how: "read" },
            ],
          },
        },
      });
    await tx.testRide.create({
      data: {
        jobId,
        at: shop.now,
        good: false,
        observations: {
          create: { throttle: "quarter", condition: "steady", engine: "hot", sign: "lean" },
        },
        corrections: {
          create: {
            rank: 1,
            setting: "mainJet",
            fromValue: 140,
            toValue: 999,
            because: [],
            acceptedAt: shop.now,
          },
        },
      },
    });
    await tx.testRide.create({ data: { jobId, at: shop.now, good: true, note: "pulls clean" } });
    await tx.followUp.create({
      data: {
        bikeId,
        jobId,
        what: "Ask",
        dueOn: "2026-01-01",
        state: "done",
        outcome: `${name} is happy`,
        createdAt: shop.now,
      },
    });
  });
  return bikeId;
}

it("tells the last five of a model as a plain recount does, each bike once, and none of another shop or model", async () => {
  const { a, b } = await twoShops();
  const mine = await makeJob(a);
  const elsewhere = await makeJob(b);
  const random = seeded(7);
  const made: { bikeId: number; jets: number[] }[] = [];
  for (let i = 0; i < 7; i++) {
    const jets = Array.from({ length: 1 + (i % 2) }, () => 120 + 2.5 * Math.floor(20 * random()));
    made.push({ bikeId: await left(a, mine.bikeId, `P${i}`, jets), jets });
  }
  await left(b, elsewhere.bikeId, "other shop", [300]);

  const { bikes, spreads } = await recallLike(a, mine.bikeId);
  const last = made.toReversed().slice(0, 5);
  expect(bikes.map((one) => one.bikeId)).toEqual(last.map((one) => one.bikeId));
  const jets = last.map((one) => one.jets.at(-1) ?? 0).sort((x, y) => x - y);
  expect(spreads.find((one) => one.setting === "mainJet")).toEqual({
    setting: "mainJet",
    low: jets[0],
    median: jets[2],
    high: jets[4],
    count: 5,
  });
  expect(spreads.map((one) => one.setting)).toEqual(["mainJet", "mixtureScrewTurns"]);
  expect(bikes[0]).toMatchObject({
    season: "autumn",
    altitudeM: 400 + (last[0]?.jets.length ?? 1) - 1,
    ridden: "good: pulls clean",
    said: "P6 is happy",
    rejected: ["Main jet 140 to 999"],
  });
  expect((await recallLike(b, elsewhere.bikeId)).bikes).toHaveLength(1);
});

it("narrows to what was changed, by its done steps and by its package, as a plain recount does", async () => {
  const { a, b } = await twoShops();
  const mine = await makeJob(a);
  const elsewhere = await makeJob(b);
  const random = seeded(11);
  const MADE = ["mainJet", "clipPosition", "needle", "silencer", "airboxOpeningMm", "filter", "pilotJet"];
  const made: { bikeId: number; packageId: number; done: string[]; jet: number }[] = [];
  for (let i = 0; i < 16; i++) {
    const jet = 120 + 2.5 * i;
    const bikeId = await left(a, mine.bikeId, `F${i}`, [jet]);
    const pick = () => MADE.filter(() => random() < 0.25);
    const [done, skipped] = [pick(), pick()];
    const packageId = await a.write(async (tx) => {
      const job = await tx.job.findFirstOrThrow({
        where: { bikeId },
        select: {
          revision: { select: { works: { select: { packageRevision: { select: { packageId: true } } } } } },
          steps: { select: { id: true }, orderBy: { position: "asc" } },
        },
      });
      const [first, second, third] = job.steps.map((step) => step.id);
      await tx.step.update({
        where: { id: second ?? 0 },
        data: { makes: done, kind: "operation", state: "done" },
      });
      await tx.step.update({
        where: { id: third ?? 0 },
        data: { makes: skipped, kind: "operation", state: "skipped" },
      });
      await tx.step.update({ where: { id: first ?? 0 }, data: { makes: MADE, state: "done" } });
      return job.revision.works[0]?.packageRevision?.packageId ?? 0;
    });
    made.push({ bikeId, packageId, done, jet });
  }
  const recount = (keys: readonly string[]) =>
    made
      .toReversed()
      .filter((one) => one.done.some((key) => keys.includes(key)))
      .slice(0, 5);
  const KEYS = {
    mainJet: ["mainJet"],
    needle: ["clipPosition", "needle"],
    exhaust: ["silencer"],
    airbox: ["airboxOpeningMm", "filter"],
  } as const;
  for (const [changed, keys] of Object.entries(KEYS)) {
    const { bikes, spreads } = await recallLike(a, mine.bikeId, { changed: changed as keyof typeof KEYS });
    const expected = recount(keys);
    expect(expected.length).toBeGreaterThan(0);
    expect(bikes.map((one) => one.bikeId)).toEqual(expected.map((one) => one.bikeId));
    const jets = expected.map((one) => one.jet).sort((x, y) => x - y);
    expect(spreads.find((one) => one.setting === "mainJet")).toMatchObject({
      low: jets[0],
      high: jets.at(-1),
      count: jets.length,
    });
  }
  const [, second] = made;
  const of = await recallLike(a, mine.bikeId, { packageId: second?.packageId ?? 0 });
  expect(of.bikes.map((one) => one.bikeId)).toEqual([second?.bikeId]);
  expect(of.packages.map((one) => one.id)).toContain(second?.packageId);
  const other = await recallLike(b, elsewhere.bikeId, { changed: "mainJet" });
  expect([other.bikes, other.packages]).toEqual([[], []]);
});

it("reads a filter from an address, and takes what is none for none", () => {
  expect(recallFilter("needle")).toEqual({ changed: "needle" });
  expect(recallFilter("package-12")).toEqual({ packageId: 12 });
  for (const none of [undefined, "", "spoons", "package-", "package-0x1", ["needle"]])
    expect(recallFilter(none)).toBeUndefined();
});
