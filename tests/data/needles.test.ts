import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { workRecommendation } from "@/lib/data/bench/recommend";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { needlesOf, recordNeedle } from "@/lib/data/bikes/needles";
import { storedQuote } from "@/lib/data/documents/quote";
import { getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { getJob } from "@/lib/data/jobs/get";
import { passStep } from "@/lib/data/jobs/pass";
import { arriveJob } from "@/lib/data/jobs/states";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import { handoverForPaper } from "@/lib/data/papers/handover";
import { quoteFacts } from "@/lib/data/quotes/facts";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { getRides } from "@/lib/data/rides/get";
import { recordRide } from "@/lib/data/rides/record";
import { triedOn } from "@/lib/data/rides/tried";
import { recordMove } from "@/lib/data/stock/moves";
import { measurePartNeedle, needleOfPart, needlesOnHand } from "@/lib/data/stock/needles";
import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { Refusal } from "@/lib/domain/refusal";
import { diameterAt } from "@/lib/domain/tuning/needleRecord";
import { benchSchema } from "@/lib/schemas/bench";
import { FittedNeedleSchema, PartNeedleSchema } from "@/lib/schemas/needles";
import { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";
import { jobNow } from "../support/jobs";
import { BREATHING, makeBike, ORIGIN, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const RECIPE: Recipe = {
  ...BREATHING,
  options: BREATHING.options.flatMap((option) =>
    option.key === "needle"
      ? [
          {
            ...option,
            preset: true,
            changes: [{ setting: "clipPosition", change: "computed" as const }],
            needle: { kind: "reduce" as const, fromMm: 26, toMm: 46, byMm: 0.04, gaugeMm: 2.05 },
          },
        ]
      : [],
  ),
  rules: [],
};

const STATIONS = {
  "1": { at: "10", diameter: "2,50" },
  "2": { at: "26", diameter: "2.50" },
  "3": { at: "36", diameter: "2.20" },
  "4": { at: "46", diameter: "1.90" },
  "5": { at: "56", diameter: "1.60" },
};

const form = (bikeId: number, more: Record<string, unknown> = {}) =>
  FittedNeedleSchema.parse({
    bikeId: String(bikeId),
    carburettor: "1",
    state: "found",
    origin: "delivered",
    marks: "T7",
    micrometerMm: "0.01",
    grooves: "0",
    planeMm: "20",
    stations: STATIONS,
    needleShimBelowMm: "0.5",
    ...more,
  });

async function ready(shop: ShopHandle) {
  const { bikeId } = await makeBike(shop, "Ines Valdborg");
  const packageId = await createPackage(shop, { code: "NDL", name: "Needle work", summary: "" });
  const revision = await addPackageRevision(shop, { packageId, recipe: RECIPE });
  await publishRevision(shop, { revisionId: revision.id, version: 1 });
  const shim = await shop.write((tx) =>
    tx.part.create({
      data: {
        code: "SHIM-25",
        name: "Needle shim",
        kind: "other",
        family: "Needle shims",
        sizeMilli: 250,
        bin: "C4",
        createdAt: shop.now,
        searchKey: "shim",
      },
      select: { id: true },
    }),
  );
  await recordMove(shop, { partId: shim.id, kind: "opening", quantityMilli: 8000, unitCostE4: 3500 });
  return { bikeId, packageId };
}

async function accepted(shop: ShopHandle, bikeId: number, packageId: number) {
  const id = await createQuote(shop, { bikeId, packageId });
  const sent = await sendQuote(shop, { id, version: 1, origin: ORIGIN });
  const { hash, frozen } = await shop.read.quoteRevision.findUniqueOrThrow({
    where: { id: sent.revisionId },
  });
  const { jobId } = await acceptQuote(
    shop,
    yes({ id, revisionId: sent.revisionId, hash: hash ?? "", token: "" }),
  );
  return { jobId, frozen: storedQuote(frozen) };
}

/** Passes every step but the ride, as the card asks for it. */
async function workThrough(shop: ShopHandle, jobId: number, arrives = true): Promise<void> {
  const { version } = await jobNow(shop, jobId);
  if (arrives) await arriveJob(shop, { jobId, version, odometerKm: null });
  for (;;) {
    const card = await getCard(shop, jobId);
    const step = card?.steps.find((one) => one.state === "todo");
    if (!step || step.kind === "ride") return;
    await passStep(shop, {
      stepId: step.id,
      version: step.version,
      readings: step.holdPoints
        .filter((h) => h.kind === "reading")
        .map((h) => ({ holdPointId: h.id, value: ((h.low ?? 0) + (h.high ?? h.low ?? 0)) / 2 })),
      checks: step.holdPoints.filter((h) => h.kind === "check").map((h) => h.id),
      signatures: step.holdPoints.filter((h) => h.kind === "signature").map((h) => h.id),
    });
  }
}

describe("a needle on a bike", () => {
  it("is kept as measured, with where it sits on a sheet of its own, and only in its shop", async () => {
    const { a, b } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const once = { ...form(bikeId), key: "k1" };
    expect(await recordNeedle(a, once)).toBe(await recordNeedle(a, once));
    const [needle, ...rest] = await needlesOf(a.read, bikeId);
    expect(rest).toEqual([]);
    expect(needle?.record).toMatchObject({ marks: "T7", grooves: 0, planeMm: 20, grooveStepMm: null });
    expect(needle?.record.stations[0]).toEqual({ atMm: 10, diameterMm: 2.5 });
    const sheet = await a.read.settingSheet.findUniqueOrThrow({
      where: { id: needle?.sheetId ?? 0 },
      include: { values: true },
    });
    expect(sheet.values.map((v) => [v.setting, v.value, v.how])).toEqual([
      ["needleShimBelowMm", 0.5, "measured"],
    ]);
    expect(await b.read.fittedPart.count()).toBe(0);
    await expect(
      a.write((tx) => tx.fittedPart.update({ where: { id: needle?.id ?? 0 }, data: { how: "read" } })),
    ).rejects.toThrow("only grows");
    await expect(a.write((tx) => tx.fittedPart.deleteMany({}))).rejects.toThrow("only grows");
  });
  it("is refused with nothing said, with a clip and no grooves, and on a carburettor that the bike has not", async () => {
    const { a } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const bad = [
      { stations: {}, marks: "", grooves: "" },
      { clipPosition: "3" },
      { grooves: "3", clipPosition: "4" },
      { carburettor: "2" },
      { state: "made" },
      { jobId: "99" },
    ];
    for (const more of bad) await expect(recordNeedle(a, form(bikeId, more))).rejects.toThrow(Refusal);
    const wrong = FittedNeedleSchema.safeParse({
      ...{ bikeId: "1", carburettor: "1", state: "found", origin: "bought" },
      stations: { "1": { at: "10", diameter: "2.5" }, "2": { at: "9", diameter: "9" } },
    });
    expect(wrong.error?.issues.map((i) => i.path.join("."))).toEqual([
      "stations.2.at",
      "stations.2.diameter",
    ]);
    expect(await a.read.fittedPart.count()).toBe(0);
  });
  it("is measured in the drawer by the same facts, and only where the part is a needle", async () => {
    const { a } = await twoShops();
    const part = (kind: "needle" | "other") =>
      a.write((tx) =>
        tx.part.create({
          data: { code: kind, name: kind, kind, createdAt: a.now, searchKey: kind },
          select: { id: true },
        }),
      );
    const [needle, other] = [await part("needle"), await part("other")];
    const input = (id: number) =>
      PartNeedleSchema.parse({
        id: String(id),
        origin: "bought",
        grooves: "5",
        grooveStepMm: "1",
        stations: STATIONS,
      });
    await measurePartNeedle(a, input(needle.id));
    expect(await needleOfPart(a, needle.id)).toMatchObject({ origin: "bought", grooves: 5, marks: "" });
    await expect(measurePartNeedle(a, input(other.id))).rejects.toThrow("no needle");
    expect(await needleOfPart(a, other.id)).toBeNull();
  });
  it("is ranked beside the fitted one in a bike's recommendation once it is measured and free", async () => {
    const { a, b } = await twoShops();
    const { bikeId } = await ready(a);
    const bike = await benchBike(a, bikeId);
    if (!bike) throw new Error("no bike");
    const { id } = await a.write((tx) =>
      tx.part.create({
        data: { code: "N-5", name: "Needle, slim", kind: "needle", createdAt: a.now, searchKey: "n-5" },
        select: { id: true },
      }),
    );
    await recordMove(a, { partId: id, kind: "opening", quantityMilli: 1000, unitCostE4: 90_000 });
    expect(await needlesOnHand(a)).toEqual([]);
    const measured = { id: String(id), origin: "bought", grooves: "5", grooveStepMm: "1", planeMm: "20" };
    await measurePartNeedle(a, PartNeedleSchema.parse({ ...measured, stations: STATIONS }));
    const onHand = await needlesOnHand(a);
    expect(onHand.map((one) => one.name)).toEqual(["N-5, Needle, slim"]);
    const values = benchSchema(RECOMMEND_FIELDS, "metric").parse({ altitude: "410", month: "11" });
    const ranked = (needles: typeof onHand) =>
      workRecommendation(values, bike, [], { latitude: -35 }, [], needles).sheet.carburettors[0]?.needles ??
      [];
    expect(
      ranked(onHand)
        .map((one) => one.name)
        .sort(),
    ).toEqual(["N-5, Needle, slim", "as fitted"]);
    expect(ranked([])).toEqual([]);
    await a.write((tx) => tx.part.update({ where: { id }, data: { reservedMilli: 1000 } }));
    expect(await needlesOnHand(a)).toEqual([]);
    expect(await needlesOnHand(b)).toEqual([]);
  });
});

describe("a needle job", () => {
  it("has the same needle in the quote, on the card, as left and at the bike's next visit", async () => {
    const { a } = await twoShops();
    const { bikeId, packageId } = await ready(a);
    await recordNeedle(a, form(bikeId));
    const { jobId, frozen } = await accepted(a, bikeId, packageId);
    const promised = frozen.needles?.[0]?.record;
    if (!promised) throw new Error("no needle in the quote");
    expect(promised.origin).toBe("reshaped");
    for (const at of [26, 36, 46])
      expect(diameterAt(promised, at)).toBeCloseTo(2.5 - 0.03 * (at - 26) - 0.04, 6);
    expect(diameterAt(promised, 56)).toBeCloseTo(1.6, 6);
    expect(frozen.settings.some((s) => s.setting === "clipPosition" && s.value !== s.from)).toBe(false);
    const shims = frozen.settings.find((s) => s.setting === "needleShimBelowMm");
    expect(shims).toMatchObject({ from: 0.5 });
    expect(((shims?.value ?? 0.1) * 4) % 1).toBeCloseTo(0, 9);

    const step = (await getCard(a, jobId))?.steps.find((one) => one.makes && one.needles.length > 0);
    expect(step?.needles[0]?.target?.record).toEqual(promised);
    const below = step?.settings.find((s) => s.def.key === "needleShimBelowMm");
    expect(below).toMatchObject({ from: 0.5, to: shims?.value });
    expect(step?.settings.some((s) => s.def.key === "clipPosition")).toBe(false);
    if (below && below.to !== below.from) expect(below.how[0]).toContain("mm");

    await workThrough(a, jobId);
    const measured = Object.fromEntries(
      Object.entries(STATIONS).map(([row, { at }]) => [
        row,
        { at, diameter: String(Number((diameterAt(promised, Number(at)) ?? 0).toFixed(2))) },
      ]),
    );
    await recordNeedle(
      a,
      form(bikeId, { state: "made", jobId: String(jobId), origin: "reshaped", stations: measured }),
    );
    const { version } = await jobNow(a, jobId);
    await recordRide(a, {
      jobId,
      version,
      good: "yes",
      odometerKm: null,
      note: "",
      observations: [],
    } as never);
    const job = await getJob(a, jobId);
    if (!job) throw new Error("no job");
    const values = Object.fromEntries(job.sheets.fitted.map((v) => [v.setting, v.value]));
    expect(values.needleShimBelowMm).toBe(shims?.value);
    await finishJob(a, {
      jobId,
      version: job.version,
      values: { "1": { ...values, idleSpeedRpm: 1300 } },
      hows: {},
      rest: "measured",
      odometerKm: null,
      note: "",
      cautions: "on",
    });

    const paper = await handoverForPaper(a, jobId);
    const at36 = paper?.needles.find((one) => one.atMm === 36);
    expect(at36).toEqual({ carburettor: 1, atMm: 36, found: 2.2, left: 2.16, how: "measured" });
    const history = await needlesOf(a.read, bikeId);
    expect(history.map((n) => n.state)).toEqual(["left", "made", "target", "found"]);
    expect(history[0]?.record).toEqual(history[1]?.record);
    expect(history[0]?.how).toBe("measured");
    const next = await quoteFacts(a.read, {
      bikeId,
      works: [{ key: "", kind: "package", name: "Needle", recipe: RECIPE }],
      choices: [],
      conditions: frozen.conditions,
      now: a.now,
    });
    expect(next.carburettors[0]?.needle?.value.tapers).toHaveLength(4);
    expect(next.carburettors[0]?.settings.needleShimBelowMm?.value).toBe(shims?.value);
    const again = computeQuote({ ...next, choices: ["needle"] });
    expect(again.target.sheet?.carburettors[0]?.needle?.before).toEqual(next.carburettors[0]?.needle?.value);
  });
  it("is corrected by a shim and the screw as one change, and remembers what was taken back", async () => {
    const { a, b } = await twoShops();
    const { bikeId, packageId } = await ready(a);
    await recordNeedle(a, form(bikeId));
    const { jobId } = await accepted(a, bikeId, packageId);
    await workThrough(a, jobId);
    const felt = (throttle: "eighth" | "quarter", sign: "lean" | "rich") =>
      ({ throttle, condition: "steady", engine: "hot", sign, note: "" }) as const;
    const ride = async (sign: "lean" | "rich") => {
      const { version } = await jobNow(a, jobId);
      const observations = [felt("eighth", sign), felt("quarter", sign)];
      await recordRide(a, { jobId, version, good: "no", odometerKm: null, note: "", observations });
      return (await getRides(a, jobId))?.rides[0]?.corrections ?? [];
    };
    const offered = await ride("lean");
    expect(offered.map((one) => one.setting)).not.toContain("clipPosition");
    const both = offered.find((one) => one.also.length > 0);
    expect(both?.setting).toBe("needleShimBelowMm");
    expect(both?.also).toEqual(["mixture screw 2.000 → 2.250 turns out"]);
    const { version } = await jobNow(a, jobId);
    await acceptCorrection(a, { correctionId: both?.id ?? 0, version, lambda: null });
    const card = await getCard(a, jobId);
    const todo = card?.steps.filter((step) => step.state === "todo").map((step) => step.name) ?? [];
    expect(todo.some((name) => name.startsWith("Shims below the needle's shoulder"))).toBe(true);
    expect(todo.some((name) => name.startsWith("Mixture screw 2.000 to 2.250"))).toBe(true);
    expect(card?.steps.at(-1)?.instruction).toContain("look at the mixture screw and set the idle again");
    const target = (await getRides(a, jobId))?.target;
    expect(target?.values.find((v) => v.setting === "mixtureScrewTurns")?.value).toBe(2.25);
    expect(target?.values.find((v) => v.setting === "needleShimBelowMm")?.value).toBe(both?.toValue);

    await workThrough(a, jobId, false);
    const back = (await ride("rich")).find((one) => one.setting === "needleShimBelowMm");
    expect(back?.toValue).toBe(both?.fromValue);
    const again = await jobNow(a, jobId);
    await acceptCorrection(a, { correctionId: back?.id ?? 0, version: again.version, lambda: 0.9 });
    const [second, first] = await triedOn(a.read, bikeId);
    expect(second).toMatchObject({ kept: true, result: "not ridden yet" });
    expect(first).toMatchObject({ kept: false, result: "rich at an eighth, rich at a quarter" });
    expect(await triedOn(b.read, bikeId)).toEqual([]);
  });
  it("asks for what is missing on a bike of which nothing is measured, and leaves the needle out of the curve", async () => {
    const { a } = await twoShops();
    const { bikeId, packageId } = await ready(a);
    const { frozen } = await accepted(a, bikeId, packageId);
    expect(frozen.needles).toBeUndefined();
    const sheet = frozen.calculation;
    expect(sheet?.warnings.map((w) => w.rule)).toContain("needle not known");
    expect(sheet?.carburettors[0]?.before.needle).toBeUndefined();
  });
});
