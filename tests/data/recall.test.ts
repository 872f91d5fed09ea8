import { expect, it } from "vitest";
import { recallLike } from "@/lib/data/figures/recall";
import type { ShopHandle } from "@/lib/db/shop";
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
