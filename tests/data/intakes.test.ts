import { beforeEach, describe, expect, it } from "vitest";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { listLessons } from "@/lib/data/bikes/lessons";
import { speakTo } from "@/lib/data/customers/language";
import { storedQuote } from "@/lib/data/documents/quote";
import { getIntake, listIntakes, openIntake } from "@/lib/data/intakes/get";
import { recordIntake, withdrawIntake } from "@/lib/data/intakes/record";
import { getQuote } from "@/lib/data/quotes/get";
import { createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { may } from "@/lib/domain/access/permissions";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { IntakeSchema } from "@/lib/schemas/intakes";
import { makeJob } from "../support/jobs";
import { type Ready, readyToQuote, sentQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const lean = (throttle: string) => ({ throttle, condition: "steady", engine: "hot", sign: "lean" });
const typed = (bikeId: number, more: object = {}) =>
  IntakeSchema.parse({
    bikeId: String(bikeId),
    complaint: "Flat from a quarter",
    observations: { 0: lean("quarter"), 1: lean("full") },
    cylinders: { 1: { plug: "white", intakeClearanceMm: "0.08" } },
    ...more,
  });

/** Lambda as found at an opening, as the bench computes it now. */
async function asFoundAt(shop: ShopHandle, bikeId: number, throttle: number): Promise<number> {
  const bike = await benchBike(shop, bikeId);
  if (!bike) throw new Error("no bike");
  const settings = bike.carburettors[0]?.settings ?? {};
  const state = {
    card: bike.card,
    carburettors: 1,
    settings: Object.fromEntries(Object.entries(settings).map(([key, known]) => [key, known.value])),
    reference: {
      settings: Object.fromEntries(Object.entries(settings).map(([key, known]) => [key, known.value])),
      air: bike.baseline,
    },
    ...(bike.calibration ? { calibration: bike.calibration.regions } : {}),
  };
  const curve = fuelCurve(state, bike.baseline, 41);
  const point = curve.points.find((p) => Math.abs(p.throttle - throttle) < 0.02);
  return point?.lambda ?? Number.NaN;
}

let a: ShopHandle;
let b: ShopHandle;
let ready: Ready;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  ready = await readyToQuote(a);
  await readyToQuote(b);
});

describe("an intake", () => {
  it("keeps what was said, felt and looked at, in this shop alone, once per key", async () => {
    const key = "4f7d8c52-93b8-4a74-9f0e-1f54c0a7a001";
    const id = await recordIntake(a, {
      ...typed(ready.bikeId, { odometerKm: "24180", fuelUse: "6,1" }),
      key,
    });
    expect(
      await recordIntake(a, { ...typed(ready.bikeId, { odometerKm: "24180", fuelUse: "6,1" }), key }),
    ).toBe(id);
    expect(await getIntake(a, ready.bikeId, id)).toMatchObject({
      complaint: "Flat from a quarter",
      fuelUse: 6.1,
      odometerKm: 24_180,
      observations: [{ throttle: "quarter", sign: "lean" }, { throttle: "full" }],
      cylinders: [{ position: 1, plug: "white", intakeClearanceMm: 0.08 }],
      marks: [
        { throttle: 0.25, sign: "lean" },
        { throttle: 1, sign: "lean" },
      ],
    });
    expect((await getIntake(a, ready.bikeId, id))?.ruleOut[0]?.check).toContain("Air leak");
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: ready.bikeId } })).odometerKm).toBe(24_180);
    expect((await listIntakes(a, ready.bikeId)).rows.map((row) => row.id)).toEqual([id]);
    expect(await a.read.auditEntry.count({ where: { noun: "intake", nounId: id } })).toBe(1);
    // The same ids in the other shop.
    expect(await getIntake(b, ready.bikeId, id)).toBeNull();
    expect(await openIntake(b.read, ready.bikeId)).toBeNull();
    expect((await listIntakes(b, ready.bikeId)).rows).toEqual([]);
    expect(await b.read.calibration.count()).toBe(0);
  });

  it("is refused for a cylinder that the model has not, another bike's job, and a bike that is none", async () => {
    const more = { cylinders: { 2: { plug: "tan" } } };
    await expect(recordIntake(a, typed(ready.bikeId, more))).rejects.toMatchObject({
      message: expect.stringContaining("cylinder 2"),
    });
    const job = await makeJob(a);
    await expect(recordIntake(a, typed(ready.bikeId, { jobId: String(job.id) }))).rejects.toMatchObject({
      message: expect.stringContaining("another bike"),
    });
    await expect(recordIntake(a, typed(9999))).rejects.toMatchObject({ kind: "missing" });
    expect(await a.read.intake.count()).toBe(0);
    const own = await recordIntake(a, typed(job.bikeId, { jobId: String(job.id) }));
    expect((await getIntake(a, job.bikeId, own))?.job?.id).toBe(job.id);
  });

  it("is for owner, desk and tuner to record", () => {
    expect((["owner", "desk", "tuner", "books"] as const).map((role) => may(role, "intake.write"))).toEqual([
      true,
      true,
      true,
      false,
    ]);
  });
});

describe("what was felt before the quote", () => {
  it("moves the curve as found at its openings, and a withdrawn one does not", async () => {
    const before = await asFoundAt(a, ready.bikeId, 0.25);
    const full = await asFoundAt(a, ready.bikeId, 1);
    const id = await recordIntake(a, typed(ready.bikeId));
    expect(await asFoundAt(a, ready.bikeId, 0.25)).toBeGreaterThan(before + 0.001);
    expect(await asFoundAt(a, ready.bikeId, 1)).toBeGreaterThan(full + 0.001);
    const { modelCardId } = await a.read.bike.findUniqueOrThrow({ where: { id: ready.bikeId } });
    expect((await listLessons(a, modelCardId))[0]).toMatchObject({ source: "felt", state: "teaches" });

    await withdrawIntake(a, { intakeId: id, version: 1, why: "It was the other bike" });
    expect(await asFoundAt(a, ready.bikeId, 0.25)).toBeCloseTo(before, 9);
    expect((await getIntake(a, ready.bikeId, id))?.withdrawnWhy).toBe("It was the other bike");
    expect(await openIntake(a.read, ready.bikeId)).toBeNull();
    await expect(withdrawIntake(a, { intakeId: id, version: 1, why: "Once more" })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect((await listLessons(a, modelCardId))[0]?.state).toBe("taken out");
  });

  it("moves nothing where only a cold engine or a snap was felt", async () => {
    const before = await asFoundAt(a, ready.bikeId, 0.25);
    await recordIntake(
      a,
      typed(ready.bikeId, {
        observations: {
          0: { ...lean("quarter"), engine: "cold" },
          1: { ...lean("quarter"), condition: "snap" },
        },
      }),
    );
    expect(await asFoundAt(a, ready.bikeId, 0.25)).toBe(before);
    expect(await a.read.calibration.count()).toBe(0);
  });
});

describe("a quote for a bike with an intake", () => {
  it("says which complaint each option answers, and the sent quote says it to the customer", async () => {
    await recordIntake(a, typed(ready.bikeId));
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    const quote = await getQuote(a, id, { margin: true });
    expect(quote?.intake?.complaint).toBe("Flat from a quarter");
    const options = quote?.draft?.groups.flatMap((group) => group.options) ?? [];
    const answers = (key: string) => options.find((one) => one.key === key)?.answers;
    expect(answers("main")).toEqual(["Full throttle, steady, hot: lean"]);
    expect(answers("breather")).toEqual([]);

    const sent = await sentQuote(a, ready);
    const { frozen } = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    const printed = storedQuote(frozen).options;
    // The customer reads it in plain words.
    expect(printed.find((one) => one.key === "main")?.answers).toEqual([
      "full throttle, steady, engine hot: too lean",
    ]);
    expect(printed.find((one) => one.key === "breather")).not.toHaveProperty("answers");

    await speakTo(a, { id: ready.customerId, language: "nb" });
    const theirs = await sentQuote(a, ready);
    const row = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: theirs.revisionId } });
    expect(storedQuote(row.frozen).options.find((one) => one.key === "main")?.answers).toEqual([
      "full gass, jevn gass, varm motor: for mager",
    ]);
  });

  it("counts no intake from before the bike's last finished job", async () => {
    await recordIntake(a, typed(ready.bikeId));
    const job = await makeJob(a);
    const later = as(a, { now: new Date(a.now.getTime() + 3_600_000) });
    await a.write((tx) =>
      tx.job.update({ where: { id: job.id }, data: { bikeId: ready.bikeId, finishedAt: later.now } }),
    );
    expect(await openIntake(a.read, ready.bikeId)).toBeNull();
    const after = as(a, { now: new Date(a.now.getTime() + 7_200_000) });
    const id = await recordIntake(after, typed(ready.bikeId));
    expect((await openIntake(a.read, ready.bikeId))?.id).toBe(id);
  });
});
