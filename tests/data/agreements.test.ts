import { describe, expect, it } from "vitest";
import { addToJob, anotherYes } from "@/lib/data/acceptance/addToJob";
import { openJob } from "@/lib/data/acceptance/openJob";
import { problemsOf } from "@/lib/data/books/invariants";
import { comebackFigures } from "@/lib/data/figures/comebacks";
import { nearTheirAmount, spentByWord } from "@/lib/data/invoices/byWord";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { closeFree } from "@/lib/data/jobs/closeFree";
import { finishJob } from "@/lib/data/jobs/finish";
import { getJob } from "@/lib/data/jobs/get";
import { passStep } from "@/lib/data/jobs/pass";
import { arriveJob } from "@/lib/data/jobs/states";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { useReserved } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { type AddToJob, AddToJobSchema, type OpenJob, OpenJobSchema } from "@/lib/schemas/agreements";
import { stockChain } from "../support/chain";
import { makeBike } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const asked = (fields: Record<string, unknown>): OpenJob => OpenJobSchema.parse(fields);
const more = (fields: Record<string, unknown>): AddToJob => AddToJobSchema.parse(fields);
const LOOK = { kind: "word", title: "Have a look: stalls when hot", minutes: "60", grade: "workshop" };

const jobOf = async (shop: ShopHandle, id: number) => {
  const job = await getJob(shop, id);
  if (!job) throw new Error("The job is there.");
  return job;
};

/** So many minutes on the job's first open step, then every open step passed. */
async function work(shop: ShopHandle, jobId: number, minutes: number): Promise<ShopHandle> {
  const before = await jobOf(shop, jobId);
  if (!before.arrivedAt) await arriveJob(shop, { jobId, version: before.version, odometerKm: null });
  const stepId = before.steps.find((step) => step.state === "todo")?.id;
  await startTime(shop, { jobId, ...(stepId === undefined ? {} : { stepId }) });
  const later = as(shop, { now: new Date(shop.now.getTime() + minutes * 60_000) });
  const entry = await shop.read.timeEntry.findFirstOrThrow({ where: { jobId, endedAt: null } });
  await stopTime(later, { entryId: entry.id });
  return later;
}

async function finish(shop: ShopHandle, jobId: number): Promise<void> {
  for (const step of (await jobOf(shop, jobId)).steps.filter((one) => one.state === "todo"))
    await passStep(shop, {
      stepId: step.id,
      version: step.version,
      readings: [],
      checks: [],
      signatures: [],
    });
  const { version } = await jobOf(shop, jobId);
  const plain = { values: {}, hows: {}, note: "Runs again.", odometerKm: null, cautions: "on" as const };
  await finishJob(shop, { jobId, version, ...plain });
}

const identify = (shop: ShopHandle) =>
  shop.write((tx) =>
    tx.settings.update({
      where: { id: 1 },
      data: { legalName: "Saltpan Pty Ltd", taxNumber: "51 824 753 556", address: "1 Salt Road" },
    }),
  );

async function invoice(shop: ShopHandle, jobId: number): Promise<number> {
  await identify(shop);
  const id = await draftInvoice(shop, { jobId, basis: "asWorked" });
  await issueInvoice(shop, { id, version: 1 });
  return (await shop.read.invoice.findUniqueOrThrow({ where: { id } })).grossMinor;
}

describe("a job agreed by word", () => {
  it("goes from the phone to its invoice: an hour's look, billed as the 45 minutes it took", async () => {
    const { a, b } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const jobId = await openJob(
      a,
      asked({ ...LOOK, bikeId: String(bikeId), saidBy: "Ines Valdborg", how: "phone", upTo: "150" }),
    );
    const job = await jobOf(a, jobId);
    expect(job.title).toBe("Have a look: stalls when hot");
    expect(job.agreement).toMatchObject({ kind: "word", chargedBp: 10_000 });
    expect(job.yeses).toMatchObject([{ saidBy: "Ines Valdborg", how: "phone", upToMinor: 15_000 }]);
    expect(job.steps.map((step) => [step.kind, step.name, step.minutes])).toEqual([
      ["operation", "Have a look: stalls when hot", 60],
    ]);
    expect(await a.read.acceptance.findFirst()).toMatchObject({
      typedName: "Ines Valdborg",
      agent: "told to Test Owner: on the phone",
    });
    const later = await work(a, jobId, 45);
    expect(await spentByWord(later, jobId)).toMatchObject({ spentMinor: 7_500, state: "inside" });
    await finish(later, jobId);
    // 45 minutes at 100.00 an hour, tax in it.
    expect(await invoice(later, jobId)).toBe(7_500);
    expect((await jobOf(later, jobId)).state).toBe("invoiced");
    expect(await problemsOf(later)).toEqual([]);
    expect([await b.read.job.count(), await b.read.jobYes.count()]).toEqual([0, 0]);
  });

  it("is near from four fifths on, and is not billed past its amount without another yes, which is kept beside the first", async () => {
    const { a } = await twoShops();
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const open = asked({ ...LOOK, bikeId: String(bikeId), saidBy: "Ines", how: "counter", upTo: "100.00" });
    const jobId = await openJob(a, open);
    const at48 = await work(a, jobId, 48);
    expect(await spentByWord(at48, jobId)).toMatchObject({ spentMinor: 8_000, state: "near" });
    expect(await nearTheirAmount(at48, 8)).toMatchObject([{ id: jobId, state: "near", spentMinor: 8_000 }]);
    const at61 = await work(at48, jobId, 13);
    expect(await spentByWord(at61, jobId)).toMatchObject({ state: "over" });
    await finish(at61, jobId);
    await identify(at61);
    const id = await draftInvoice(at61, { jobId, basis: "asWorked" });
    await expect(issueInvoice(at61, { id, version: 1 })).rejects.toThrow("Ines agreed up to");
    const { version } = await jobOf(at61, jobId);
    await anotherYes(at61, { jobId, version, saidBy: "Ines", how: "phone", upTo: "120", note: "" });
    await issueInvoice(at61, { id, version: 1 });
    expect((await jobOf(at61, jobId)).yeses.map((yes) => yes.upToMinor)).toEqual([12_000, 10_000]);
    await expect(a.write((tx) => tx.jobYes.updateMany({ data: { upToMinor: 99_999 } }))).rejects.toThrow(
      /only grows|trigger|constraint/i,
    );
  });

  it("takes more work and parts inside the amount, and nothing past it", async () => {
    const { a } = await twoShops();
    const chain = await stockChain(a, 1);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const open = { ...LOOK, bikeId: String(bikeId), saidBy: "Ines", how: "phone", upTo: "300" };
    const jobId = await openJob(a, asked(open));
    const parts = { 0: { kind: "part", what: "CH-520", quantity: "2" } };
    const add = (fields: object) => addToJob(a, more({ jobId: String(jobId), grade: "workshop", ...fields }));
    // Two chains at 89.10 and half an hour: 228.20, with the hour planned 328.20.
    await expect(add({ title: "Chains", minutes: "30", parts })).rejects.toThrow(
      /comes to .*328\.20.*300\.00/,
    );
    expect((await jobOf(a, jobId)).steps).toHaveLength(1);
    const short = await add({ title: "Chains", minutes: "", parts });
    expect(short).toMatchObject([{ code: "CH-520", shortMilli: 1000 }]);
    const job = await jobOf(a, jobId);
    expect(job.steps.map((step) => step.name)).toEqual(["Have a look: stalls when hot", "Chains"]);
    expect(job.reservations).toMatchObject([{ part: { id: chain }, reservedMilli: 1000, shortMilli: 1000 }]);
  });
});

describe("a comeback", () => {
  const earlier = async (shop: ShopHandle) => {
    const { bikeId } = await makeBike(shop, "Ines Valdborg");
    const of = await openJob(
      shop,
      asked({ ...LOOK, bikeId: String(bikeId), saidBy: "Ines", how: "phone", upTo: "500" }),
    );
    const later = await work(shop, of, 30);
    await finish(later, of);
    await invoice(later, of);
    return { bikeId, of, later };
  };
  const back = (bikeId: number, of: number, fields: object) =>
    asked({
      kind: "comeback",
      bikeId: String(bikeId),
      comebackOfId: String(of),
      title: "Still stalls",
      minutes: "30",
      grade: "workshop",
      why: "We overlooked the vent hose",
      ...fields,
    });

  it("that is charged nothing closes without an invoice, and is counted by who had done the work", async () => {
    const { a, b } = await twoShops();
    const { bikeId, of, later } = await earlier(a);
    const jobId = await openJob(later, back(bikeId, of, { charged: "nothing" }));
    const then = await work(later, jobId, 20);
    await finish(then, jobId);
    await expect(draftInvoice(then, { jobId, basis: "asWorked" })).rejects.toThrow("charged nothing");
    const { version } = await jobOf(then, jobId);
    await closeFree(then, { jobId, version });
    expect((await jobOf(then, jobId)).state).toBe("closed");
    expect(await comebackFigures(then)).toMatchObject({
      whole: 1,
      packages: [{ name: "No package", comebacks: 1 }],
      people: [{ name: "Test Owner", comebacks: 1 }],
      jobs: [{ why: "We overlooked the vent hose", chargedBp: 0 }],
    });
    expect(await problemsOf(then)).toEqual([]);
    expect((await comebackFigures(b)).whole).toBe(0);
  });

  it("that is charged in part is invoiced with the reason for what is not", async () => {
    const { a } = await twoShops();
    const { bikeId, of, later } = await earlier(a);
    const jobId = await openJob(later, back(bikeId, of, { charged: "part", percent: "40" }));
    const then = await work(later, jobId, 30);
    await finish(then, jobId);
    await expect(closeFree(then, { jobId, version: (await jobOf(then, jobId)).version })).rejects.toThrow(
      "is to be paid for",
    );
    // Half an hour is 50.00, of which 40 % is charged.
    expect(await invoice(then, jobId)).toBe(2_000);
  });

  it("names a finished job of the same bike, and a reason", async () => {
    const { a } = await twoShops();
    const { bikeId, of, later } = await earlier(a);
    const other = await makeBike(a, "Someone Else");
    await expect(openJob(later, back(other.bikeId, of, { charged: "full" }))).rejects.toThrow(
      "not one that was finished on this bike",
    );
    const wanting = OpenJobSchema.safeParse({
      ...back(bikeId, of, {}),
      bikeId: "1",
      comebackOfId: "1",
      minutes: "30",
      why: "",
    });
    expect(wanting.error?.issues.map((issue) => issue.path.join())).toEqual(["why"]);
  });
});

describe("a job on the shop's own bike", () => {
  it("takes time and parts, and nobody is invoiced", async () => {
    const { a } = await twoShops();
    await stockChain(a, 1);
    const { bikeId } = await makeBike(a, "Shop");
    const open = { kind: "ownBike", bikeId: String(bikeId), title: "Loan bike: chain", minutes: "40" };
    const jobId = await openJob(a, asked({ ...open, grade: "workshop" }));
    const parts = { 0: { kind: "part", what: "CH-520", quantity: "1" } };
    await addToJob(a, more({ jobId: String(jobId), title: "Chain", minutes: "", grade: "", parts }));
    const later = await work(a, jobId, 40);
    const [held] = (await jobOf(later, jobId)).reservations;
    await useReserved(later, { reservationId: held?.id ?? 0, quantityMilli: 1000 });
    await finish(later, jobId);
    await expect(draftInvoice(later, { jobId, basis: "fixed" })).rejects.toThrow("nobody is invoiced");
    await closeFree(later, { jobId, version: (await jobOf(later, jobId)).version });
    expect(await jobOf(later, jobId)).toMatchObject({ state: "closed" });
    expect(await later.read.move.count({ where: { jobId, kind: "use" } })).toBe(1);
    expect(await problemsOf(later)).toEqual([]);
  });
});
