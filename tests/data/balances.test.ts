import { beforeEach, expect, it } from "vitest";
import { removeBike } from "@/lib/data/bikes/remove";
import { balancesOf, lastBand, recordBalance } from "@/lib/data/jobs/balances";
import { passStep } from "@/lib/data/jobs/pass";
import type { ShopHandle } from "@/lib/db/shop";
import { BalanceSchema } from "@/lib/schemas/balances";
import { type MadeJob, makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let job: MadeJob;

/** A job on a twin whose second step measures the balance, to 1.5 kPa. */
async function twin(shop: ShopHandle): Promise<MadeJob> {
  const made = await makeJob(shop);
  await shop.write(async (tx) => {
    await tx.carburettor.create({ data: { bikeId: made.bikeId, position: 2, label: "right" } });
    await tx.holdPoint.update({
      where: { id: made.reading },
      data: { measures: "vacuumSpreadKpa", unit: "kPa", low: 0, high: 1.5, name: "Difference" },
    });
  });
  return made;
}

beforeEach(async () => {
  ({ a, b } = await twoShops());
  job = await twin(a);
  await twin(b);
});

const typed = (one: string, two: string, more: object = {}) =>
  BalanceSchema.parse({
    bikeId: String(job.bikeId),
    unit: "kPa",
    values: { 1: one, 2: two },
    bandFrom: "practice",
    ...more,
  });
const onStep = () => ({ jobId: String(job.id), stepId: String(job.steps[1]) });

it("keeps what the gauges said with the bike and the job, compared, and none of it in the other shop", async () => {
  const key = "4f7d8c52-93b8-4a74-9f0e-1f54c0a7a009";
  const input = { ...typed("24", "21,6", { ...onStep(), rpm: "1150" }), key };
  expect(await recordBalance(a, input)).toEqual({ inBand: true });
  await recordBalance(a, input);
  const { rows } = await balancesOf(a, { bikeId: job.bikeId, jobId: job.id });
  expect(rows).toHaveLength(1);
  expect(rows[0]).toMatchObject({
    rpm: 1150,
    unit: "kPa",
    band: 2.7,
    bandFrom: "practice",
    job: { id: job.id },
    inBand: true,
    next: null,
  });
  expect(rows[0]?.ratio).toBeCloseTo(21.6 / 24, 12);
  expect(rows[0]?.spread).toBeCloseTo(2.4, 12);
  expect(await a.read.auditEntry.count({ where: { noun: "vacuum balance" } })).toBe(1);
  expect((await balancesOf(b, { bikeId: job.bikeId })).rows).toEqual([]);
  expect(await lastBand(b, job.bikeId)).toBeNull();
  expect(await lastBand(a, job.bikeId)).toEqual({ unit: "kPa", band: 2.7, bandFrom: "practice" });
});

it("hands the difference to the step's hold point once it lies inside, and stops no job while screws are turned", async () => {
  await passStep(a, { stepId: job.steps[0] ?? 0, version: 1, readings: [], checks: [], signatures: [] });
  const hold = () =>
    a.read.holdPoint.findUniqueOrThrow({
      where: { id: job.reading },
      select: { passed: true, readings: { select: { value: true, inside: true } } },
    });
  await recordBalance(a, typed("24", "21", onStep()));
  expect(await hold()).toEqual({ passed: false, readings: [] });
  expect((await a.read.job.findUniqueOrThrow({ where: { id: job.id } })).stopped).toBe("");
  // 2 mmHg are 0.267 kPa: 180 against 178 mmHg.
  await recordBalance(a, typed("180", "178", { ...onStep(), unit: "mmHg" }));
  expect(await hold()).toEqual({ passed: true, readings: [{ value: 0.27, inside: true }] });
  await recordBalance(a, typed("180", "179", { ...onStep(), unit: "mmHg" }));
  expect((await hold()).readings).toHaveLength(1);
  const step = await a.read.step.findUniqueOrThrow({ where: { id: job.steps[1] ?? 0 } });
  expect(
    await passStep(a, { stepId: step.id, version: step.version, readings: [], checks: [], signatures: [] }),
  ).toBe("passed");
});

it("is refused for one gauge alone, another bike's job, a single, and a vacuum or a band that cannot be", async () => {
  await expect(recordBalance(a, typed("24", "21", { values: { 1: "24" } }))).rejects.toMatchObject({
    message: expect.stringContaining("right is missing"),
    fields: { "values.2": expect.any(String) },
  });
  const other = await makeJob(a);
  await expect(recordBalance(a, typed("24", "21", { jobId: String(other.id) }))).rejects.toMatchObject({
    message: expect.stringContaining("another bike"),
  });
  await expect(
    recordBalance(a, typed("24", "21", { ...onStep(), stepId: String(other.steps[0]) })),
  ).rejects.toMatchObject({ kind: "missing" });
  await expect(recordBalance(a, typed("24", "21", { bikeId: String(other.bikeId) }))).rejects.toMatchObject({
    message: expect.stringContaining("one carburettor"),
  });
  expect(await a.read.vacuumBalance.count()).toBe(0);
  const wrong = (form: object) =>
    BalanceSchema.safeParse({ bikeId: "1", unit: "kPa", values: { 1: "24", 2: "21" }, ...form }).error
      ?.issues;
  expect(wrong({ bandFrom: "practice", values: { 1: "240", 2: "" } })?.map((one) => one.path)).toEqual([
    ["values", "1"],
    ["values", "2"],
  ]);
  expect(wrong({ bandFrom: "practice", band: "2" })?.[0]?.path).toEqual(["bandFrom"]);
  expect(wrong({ bandFrom: "maker" })?.[0]?.path).toEqual(["band"]);
  expect(wrong({ bandFrom: "maker", band: "2" })).toBeUndefined();
});

it("only grows, and keeps its bike from being removed", async () => {
  await recordBalance(a, typed("24", "21"));
  await expect(a.write((tx) => tx.vacuumReading.updateMany({ data: { value: 22 } }))).rejects.toThrow(
    "only grows",
  );
  await expect(a.write((tx) => tx.vacuumBalance.updateMany({ data: { band: 9 } }))).rejects.toThrow(
    "only grows",
  );
  const { version } = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
  await expect(removeBike(a, { id: job.bikeId, version })).rejects.toMatchObject({
    message: expect.stringContaining("1 vacuum balance"),
  });
});
