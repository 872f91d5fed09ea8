import { describe, expect, it } from "vitest";
import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { getCard, stepToShow } from "@/lib/data/jobs/card";
import { overrideHoldPoint, skipStep, unskipStep } from "@/lib/data/jobs/exceptions";
import { addFinding, noteFinding } from "@/lib/data/jobs/findings";
import { getJob } from "@/lib/data/jobs/get";
import { listJobs } from "@/lib/data/jobs/list";
import { type PassStepInput, passStep } from "@/lib/data/jobs/pass";
import { arriveJob, closeJobIn, markBookedIn, markInvoicedIn } from "@/lib/data/jobs/states";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { FinishSchema, PassSchema } from "@/lib/schemas/jobs";
import { jobNow, makeJob } from "../support/jobs";
import { as, twoShops } from "../support/shops";

const pass = (shop: ShopHandle, stepId: number, more: Partial<PassStepInput> = {}) =>
  passStep(shop, { stepId, version: 1, readings: [], checks: [], signatures: [], ...more });

describe("a job's card", () => {
  it("is passed step by step, and what is left decides the job's state", async () => {
    const { a, b } = await twoShops();
    const [job, theirs] = [await makeJob(a), await makeJob(b)];
    const [open, seat, close] = job.steps as [number, number, number];
    expect(await pass(a, open)).toBe("passed");
    expect((await jobNow(a, job.id)).state).toBe("inWork");
    expect(await pass(a, seat, { readings: [{ holdPointId: job.reading, value: 3.15 }] })).toBe("passed");
    expect(await pass(a, close, { checks: [job.check] })).toBe("passed");
    expect((await jobNow(a, job.id)).state).toBe("ride");
    expect((await jobNow(b, theirs.id)).state).toBe("waiting");
    expect(await b.read.reading.count()).toBe(0);
  });

  it("cannot begin before the bike has arrived", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a, false);
    await expect(pass(a, job.steps[0] as number)).rejects.toThrow(/has not arrived/);
    await arriveJob(a, { jobId: job.id, version: 1, odometerKm: 24_180 });
    // The card's paper has a line for it.
    expect((await getCard(a, job.id))?.odometerKm).toBe(24_180);
    expect(await pass(a, job.steps[0] as number)).toBe("passed");
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(24_180);
  });

  it("keeps its order: a later step waits for the one before, or for a reason to skip that", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const [open, seat] = job.steps as [number, number];
    const reading = { readings: [{ holdPointId: job.reading, value: 3.1 }] };
    await expect(pass(a, seat, reading)).rejects.toThrow(/Step 1, “Take off: bowl”, comes first/);
    expect(await a.read.reading.count()).toBe(0);
    await skipStep(a, { stepId: open, version: 1, reason: "was off already" });
    expect(await pass(a, seat, reading)).toBe("passed");
    await unskipStep(a, { stepId: open, version: 2 });
    expect((await jobNow(a, job.id)).steps[0]?.state).toBe("todo");
  });

  it("does not let a step with a reading be skipped", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await expect(
      skipStep(a, { stepId: job.steps[1] as number, version: 1, reason: "no gauge" }),
    ).rejects.toThrow(/hold point/);
  });

  it("refuses a held step without its reading or its tick, naming the field", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const [open, seat, close] = job.steps as [number, number, number];
    await pass(a, open);
    await expect(pass(a, seat)).rejects.toMatchObject({
      fields: { [`readings.${job.reading}`]: "Seat height needs a reading." },
    });
    await pass(a, seat, { readings: [{ holdPointId: job.reading, value: 3 }] });
    await expect(pass(a, close)).rejects.toThrow(/O-ring seated is not ticked/);
    await expect(pass(a, close, { checks: [job.reading] })).rejects.toThrow();
  });

  it("keeps a reading outside its limits, stops the job, and goes on once measured inside", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const [open, seat] = job.steps as [number, number];
    await pass(a, open);
    expect(await pass(a, seat, { readings: [{ holdPointId: job.reading, value: 3.4 }] })).toBe("stopped");
    const stopped = await jobNow(a, job.id);
    expect(stopped.stopped).toBe("Seat height 3.4 mm, not 3 to 3.3");
    expect(stopped.steps[1]).toMatchObject({ state: "todo", version: 2 });
    expect(await pass(a, seat, { version: 2, readings: [{ holdPointId: job.reading, value: 3.25 }] })).toBe(
      "passed",
    );
    expect((await jobNow(a, job.id)).stopped).toBe("");
    const readings = await a.read.reading.findMany({ orderBy: { id: "asc" } });
    expect(readings.map((r) => [r.value, r.inside])).toEqual([
      [3.4, false],
      [3.25, true],
    ]);
    await expect(a.write((tx) => tx.reading.deleteMany({}))).rejects.toThrow();
  });

  it("goes on past a failed hold point only by an owner's word, which stays written", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const [open, seat] = job.steps as [number, number];
    await pass(a, open);
    await pass(a, seat, { readings: [{ holdPointId: job.reading, value: 3.4 }] });
    const tuner = as(a, { by: { ...a.by, role: "tuner" } });
    const input = { holdPointId: job.reading, version: 2, reason: "New needle seats deeper" };
    await expect(overrideHoldPoint(tuner, input)).rejects.toThrow(/Only an owner/);
    await overrideHoldPoint(a, input);
    expect((await jobNow(a, job.id)).stopped).toBe("");
    expect(await pass(a, seat, { version: 3 })).toBe("passed");
    const hold = await a.read.holdPoint.findUniqueOrThrow({ where: { id: job.reading } });
    expect(hold).toMatchObject({
      passed: false,
      overrideReason: "New needle seats deeper",
      overriddenBy: a.by.staffId,
    });
    const told = await a.read.auditEntry.findMany({ where: { act: "overrode" } });
    expect(told).toHaveLength(1);
  });

  it("tells the second of two people who passed the step, and saves nothing of theirs", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const open = job.steps[0] as number;
    const both = await Promise.allSettled([pass(a, open), pass(a, open)]);
    expect(both.map((one) => one.status).sort()).toEqual(["fulfilled", "rejected"]);
    const lost = both.find((one) => one.status === "rejected") as PromiseRejectedResult;
    expect(lost.reason).toMatchObject({ kind: "conflict" });
    expect(lost.reason.message).toMatch(/passed by Test Owner while you had it open/);
  });

  it("passes once for one key, however often it is sent", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await pass(a, job.steps[0] as number);
    const reading = { readings: [{ holdPointId: job.reading, value: 3.2 }], key: "pass-step-2-key" };
    const answers = await Promise.all([
      pass(a, job.steps[1] as number, reading),
      pass(a, job.steps[1] as number, reading),
    ]);
    expect(answers).toEqual(["passed", "passed"]);
    expect(await a.read.reading.count()).toBe(1);
  });

  it("shows the step asked for, else the first to do, with its parts", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await pass(a, job.steps[0] as number);
    const card = await getCard(a, job.id);
    if (!card) throw new Error("no card");
    expect(stepToShow(card, null)?.name).toBe("Needle seat height");
    expect(stepToShow(card, 1)?.doneByName).toBe("Test Owner");
    expect(stepToShow(card, 99)?.position).toBe(2);
    expect(await getCard(a, 9_999)).toBeNull();
  });
});

describe("a job's state", () => {
  it("goes to booked once, and to invoiced and closed only from where it may", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await a.write((tx) => markBookedIn(tx, a, job.id));
    await a.write((tx) => markBookedIn(tx, a, job.id));
    expect(await jobNow(a, job.id)).toMatchObject({ state: "booked", version: 2 });
    await expect(a.write((tx) => markInvoicedIn(tx, a, job.id))).rejects.toThrow(/is booked/);
    await a.write((tx) => tx.job.update({ where: { id: job.id }, data: { state: "ready" } }));
    await a.write((tx) => markInvoicedIn(tx, a, job.id));
    await a.write((tx) => closeJobIn(tx, a, job.id));
    expect((await jobNow(a, job.id)).state).toBe("closed");
    await expect(a.write((tx) => markBookedIn(tx, a, job.id))).rejects.toThrow(/closed/);
  });

  it("when cancelled gives its reserved parts back, and refuses a form drawn before a change", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    const part = await a.write((tx) =>
      tx.part.create({
        data: { code: "MJ-1425", name: "Main jet", kind: "jet", searchKey: "mj", createdAt: a.now },
      }),
    );
    await recordMove(a, { partId: part.id, kind: "opening", quantityMilli: 2000 });
    await a.write((tx) => reserveIn(tx, a, { jobId: job.id, partId: part.id, wantedMilli: 3000 }));
    expect((await listJobs(a)).jobs[0]).toMatchObject({ shortParts: 1, customer: "Oda Fenn" });
    await a.write((tx) => markBookedIn(tx, a, job.id));
    await expect(cancelJob(a, { jobId: job.id, version: 1, reason: "sold" })).rejects.toMatchObject({
      kind: "conflict",
    });
    await cancelJob(a, { jobId: job.id, version: 2, reason: "Bike was sold" });
    const after = await a.read.part.findUniqueOrThrow({ where: { id: part.id } });
    expect([after.onHandMilli, after.reservedMilli]).toEqual([2000, 0]);
    expect((await a.read.job.findUniqueOrThrow({ where: { id: job.id } })).notes).toContain("Bike was sold");
    expect(await b.read.job.count()).toBe(0);
  });
});

describe("what is found", () => {
  it("waits on the job until it is noted, once", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const { findingId } = await addFinding(a, {
      jobId: job.id,
      stepId: job.steps[0],
      text: "Slide guide worn",
      key: "found-1-key",
    });
    await addFinding(a, {
      jobId: job.id,
      stepId: job.steps[0],
      text: "Slide guide worn",
      key: "found-1-key",
    });
    expect((await getJob(a, job.id))?.findings).toHaveLength(1);
    await noteFinding(a, { findingId, version: 1 });
    await expect(noteFinding(a, { findingId, version: 1 })).rejects.toMatchObject({ kind: "conflict" });
  });
});

describe("the list of jobs", () => {
  it("pages by the last job seen, narrows by state and text, and stays in its shop", async () => {
    const { a, b } = await twoShops();
    const made = [await makeJob(a), await makeJob(a), await makeJob(a)];
    await makeJob(b);
    const first = await listJobs(a, { take: 2 });
    expect(first.jobs.map((job) => job.id)).toEqual([made[2]?.id, made[1]?.id]);
    const rest = await listJobs(a, { take: 2, after: first.next ?? 0 });
    expect(rest.jobs.map((job) => job.id)).toEqual([made[0]?.id]);
    expect(rest.next).toBeNull();
    await a.write((tx) => markBookedIn(tx, a, made[0]?.id ?? 0));
    expect((await listJobs(a, { state: "booked" })).jobs).toHaveLength(1);
    expect((await listJobs(a, { q: "Fenn" })).jobs).toHaveLength(3);
    expect((await listJobs(a, { q: "nobody" })).jobs).toHaveLength(0);
  });
});

describe("what a form sends", () => {
  it("takes a decimal comma, leaves blank readings out and refuses words", () => {
    const parsed = PassSchema.parse({
      stepId: "4",
      version: "1",
      readings: { "7": "3,15", "8": "", "9": "48 mm" },
      checks: ["2"],
    });
    expect(parsed.readings).toEqual([
      { holdPointId: 7, value: 3.15, unit: "" },
      { holdPointId: 9, value: 48, unit: "mm" },
    ]);
    expect(parsed.checks).toEqual([2]);
    expect(PassSchema.safeParse({ stepId: "4", version: "1", readings: { "7": "wide" } }).success).toBe(
      false,
    );
  });

  it("reads whether the cautions were acknowledged", () => {
    const typed = {
      jobId: "1",
      version: "1",
      values: { "1": { mainJet: "142,5" } },
      hows: { "1": { mainJet: "read" } },
    };
    expect(FinishSchema.parse(typed).cautions).toBe(undefined);
    expect(FinishSchema.parse({ ...typed, cautions: "on" }).values["1"]?.mainJet).toBe(142.5);
  });
});
