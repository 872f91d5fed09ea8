import { expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { describedParts, describePart, fittedParts } from "@/lib/data/bikes/describedParts";
import { storedQuote } from "@/lib/data/documents/quote";
import { getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { getJob } from "@/lib/data/jobs/get";
import { passStep } from "@/lib/data/jobs/pass";
import { arriveJob } from "@/lib/data/jobs/states";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import { handoverForPaper } from "@/lib/data/papers/handover";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { recordRide } from "@/lib/data/rides/record";
import type { ShopHandle } from "@/lib/db/shop";
import { partSaid } from "@/lib/documents/describedPart";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import { type DescribePartInput, DescribePartSchema } from "@/lib/schemas/describedParts";
import { jobNow } from "../support/jobs";
import { BREATHING, makeBike, ORIGIN, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const EXCHANGED = {
  kind: "spring",
  change: "exchanged",
  freeMm: 104,
  wireMm: 1,
  coils: 18,
  rateNPerM: 125,
} as const;
const FILTER = { kind: "filter", name: "Oiled foam", flowLMin: 2400, atPa: 2500 } as const;

function recipe(more: Partial<Option>): Recipe {
  const [option] = BREATHING.options;
  if (!option) throw new Error("no option");
  const only: Option = { ...option, preset: true, changes: [], parts: [], ...more };
  return { ...BREATHING, options: [only], rules: [] };
}

async function accepted(shop: ShopHandle, bikeId: number, content: Recipe) {
  const packageId = await createPackage(shop, { code: "SLIDE", name: "Slide work", summary: "" });
  const revision = await addPackageRevision(shop, { packageId, recipe: content });
  await publishRevision(shop, { revisionId: revision.id, version: 1 });
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

/** Every step and the ride, then the bike as left with these settings other than its card says. */
async function finished(shop: ShopHandle, jobId: number, other: Record<string, number> = {}) {
  await arriveJob(shop, { jobId, version: (await jobNow(shop, jobId)).version, odometerKm: null });
  for (;;) {
    const step = (await getCard(shop, jobId))?.steps.find((one) => one.state === "todo");
    if (!step || step.kind === "ride") break;
    await passStep(shop, {
      stepId: step.id,
      version: step.version,
      readings: step.holdPoints
        .filter((hold) => hold.kind === "reading")
        .map((hold) => ({
          holdPointId: hold.id,
          value: ((hold.low ?? 0) + (hold.high ?? hold.low ?? 0)) / 2,
        })),
      checks: step.holdPoints.filter((hold) => hold.kind === "check").map((hold) => hold.id),
      signatures: step.holdPoints.filter((hold) => hold.kind === "signature").map((hold) => hold.id),
    });
  }
  const ride = { good: "yes", odometerKm: null, note: "", observations: [] } as never;
  await recordRide(shop, {
    ...(ride as object),
    jobId,
    version: (await jobNow(shop, jobId)).version,
  } as never);
  const job = await getJob(shop, jobId);
  if (!job) throw new Error("no job");
  const fitted = Object.fromEntries(job.sheets.fitted.map((value) => [value.setting, value.value]));
  await finishJob(shop, {
    jobId,
    version: job.version,
    values: { "1": { ...fitted, idleSpeedRpm: 1300, ...other } },
    hows: {},
    rest: "measured",
    odometerKm: null,
    odometerRight: false,
    note: "",
    cautions: "on",
  });
  return fitted;
}

const described = (bikeId: number, fields: Record<string, string>): DescribePartInput =>
  DescribePartSchema.parse({ bikeId: String(bikeId), carburettor: "1", ...fields });

it("an exchanged spring and a filter are one thing in quote, card, sheet, handover and at the next visit", async () => {
  const { a, b } = await twoShops();
  const { bikeId } = await makeBike(a, "Ines Valdborg");
  await describePart(
    a,
    described(bikeId, { kind: "spring", change: "delivered", freeMm: "112", coils: "20", rateNPerM: "100" }),
  );
  const { jobId, frozen } = await accepted(a, bikeId, recipe({ leaves: [EXCHANGED, FILTER] }));
  expect(frozen.described).toMatchObject([
    { carburettor: 1, before: { freeMm: 112, rateNPerM: 100 }, after: EXCHANGED },
    { carburettor: 1, before: null, after: FILTER },
  ]);
  expect(frozen.settings.find((one) => one.setting === "springLengthMm")).toMatchObject({
    from: 112,
    value: 104,
  });
  expect(frozen.calculation?.carburettors[0]?.springRate?.value).toBeCloseTo(1.25, 9);

  const step = (await getCard(a, jobId))?.steps.find((one) => one.described.length > 0);
  expect(step?.described.map((one) => [one.kind, one.found?.part ?? null, one.target?.part])).toMatchObject([
    ["spring", { freeMm: 112 }, EXCHANGED],
    ["filter", null, FILTER],
  ]);

  const draft = await finished(a, jobId);
  expect(draft).toMatchObject({ springLengthMm: 104, springCoils: 18 });
  const paper = await handoverForPaper(a, jobId);
  expect(
    paper?.described.map((one) => [one.kind, partSaid(one.found, "en-AU"), partSaid(one.left, "nb-NO")]),
  ).toEqual([
    [
      "spring",
      "delivered, 112\u00a0mm free, 20 coils, 100\u00a0N/m",
      "byttet, 104\u00a0mm uten last, tråd 1\u00a0mm, 18 vindinger, 125\u00a0N/m",
    ],
    ["filter", "", "Oiled foam: 2\u00a0400 l/min ved 2\u00a0500 Pa"],
  ]);
  const sheetId = (await a.read.settingSheet.findFirstOrThrow({ where: { jobId, kind: "asLeft" } })).id;
  expect((await describedParts(a.read, bikeId, { sheetId })).map((one) => one.part)).toEqual([
    FILTER,
    EXCHANGED,
  ]);
  expect((await fittedParts(a.read, bikeId)).get(1)).toEqual([FILTER, EXCHANGED]);
  expect((await benchBike(a, bikeId))?.carburettors[0]?.parts).toEqual([FILTER, EXCHANGED]);
  expect(await b.read.fittedPart.count()).toBe(0);
});

it("plain setting changes reach described holes and openings, and what is left is what the sheet says", async () => {
  const { a } = await twoShops();
  const { bikeId } = await makeBike(a, "Ines Valdborg");
  await describePart(a, described(bikeId, { kind: "liftHoles", holes: "2.3" }));
  await describePart(a, described(bikeId, { kind: "openings", openings: "30 60" }));
  const { jobId, frozen } = await accepted(
    a,
    bikeId,
    recipe({
      changes: [
        { setting: "liftHoleMm", change: "set", value: 2.8 },
        { setting: "airboxOpeningMm", change: "set", value: 48 },
      ],
    }),
  );
  expect(frozen.described?.map((one) => one.after)).toEqual([
    { kind: "liftHoles", holesMm: [2.8] },
    { kind: "openings", openings: [{ diameterMm: 48, breatherMm: 60 }] },
  ]);
  // The drill ran wide: the sheet says so, and so does the part.
  await finished(a, jobId, { liftHoleMm: 3 });
  expect(
    (await handoverForPaper(a, jobId))?.described.map((one) => [
      partSaid(one.found, "en-AU"),
      partSaid(one.left, "en-AU"),
    ]),
  ).toEqual([
    ["2.3\u00a0mm", "3\u00a0mm"],
    ["30\u00a0mm, 60\u00a0mm from the breather", "48\u00a0mm, 60\u00a0mm from the breather"],
  ]);
});
