import { describe, expect, it } from "vitest";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { jobLabour } from "@/lib/data/figures/jobLabour";
import { usualMinutes } from "@/lib/data/figures/packageMinutes";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { endBreak, takeBreak } from "@/lib/data/jobs/time/breaks";
import { correctTime } from "@/lib/data/jobs/time/correct";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { setWait } from "@/lib/data/jobs/waits";
import { storedRecipe } from "@/lib/data/packages/stored";
import type { ShopHandle } from "@/lib/db/shop";
import { nameShop, readyJob } from "../support/invoices";
import { as, twoShops } from "../support/shops";

const later = (shop: ShopHandle, minutes: number) =>
  as(shop, { now: new Date(shop.now.getTime() + minutes * 60_000) });

/** A finished job on whose operations somebody took `minutes` each. */
async function workedJob(shop: ShopHandle, minutes: number) {
  const made = await readyJob(shop);
  const steps = await shop.read.step.findMany({
    where: { jobId: made.jobId, kind: "operation" },
    orderBy: { position: "asc" },
  });
  await shop.write((tx) => tx.job.update({ where: { id: made.jobId }, data: { state: "inWork" } }));
  const entries: number[] = [];
  for (const [at, step] of steps.entries()) {
    const { entryId } = await startTime(later(shop, at * minutes), { jobId: made.jobId, stepId: step.id });
    await stopTime(later(shop, (at + 1) * minutes), { entryId });
    entries.push(entryId);
  }
  await shop.write(async (tx) => {
    await tx.step.updateMany({ where: { jobId: made.jobId }, data: { state: "done" } });
    await tx.job.update({ where: { id: made.jobId }, data: { state: "ready" } });
  });
  return { ...made, steps, entries };
}

describe("planned, spent and billed on a job", () => {
  it("come to the same by step, operation, person and package, after a correction and after the invoice", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b]) await nameShop(shop);
    const { jobId, steps, entries } = await workedJob(a, 11);
    const day = later(a, 300);
    const { startedAt, version } = await a.read.timeEntry.findUniqueOrThrow({
      where: { id: entries.at(-1) ?? 0 },
    });
    const field = (at: Date) => new Date(at.getTime()).toISOString().slice(0, 16);
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { zone: "UTC" } }));
    await correctTime(day, {
      entryId: entries.at(-1) ?? 0,
      version,
      startedAt: field(startedAt),
      endedAt: field(new Date(startedAt.getTime() + 30 * 60_000)),
      reason: "Forgot to stop",
    });
    const sums = async () => {
      const found = await jobLabour(day, jobId);
      if (!found) throw new Error("no job");
      const total = (
        rows: typeof found.steps,
        of: "plannedMinutes" | "spentMinutes" | "billedMinutes" | "spentMinor" | "billedMinor",
      ) => rows.reduce((all, row) => all + (row[of] ?? 0), 0);
      for (const rows of [found.steps, found.operations, found.people, found.packages])
        for (const of of [
          "plannedMinutes",
          "spentMinutes",
          "billedMinutes",
          "spentMinor",
          "billedMinor",
        ] as const)
          expect(total(rows, of)).toBe(found.all[of] ?? 0);
      return found;
    };
    const before = await sums();
    expect(before.all).toMatchObject({ spentMinutes: (steps.length - 1) * 11 + 30, billedMinutes: null });
    const rides = await a.read.step.findMany({ where: { jobId, kind: "ride" } });
    expect(before.rides).toMatchObject({
      count: await a.read.testRide.count({ where: { jobId } }),
      plannedMinutes: rides.reduce((all, step) => all + step.minutes, 0),
      spentMinutes: 0,
    });
    expect(before.packages.some((row) => row.packageId !== undefined && row.spentMinutes > 0)).toBe(true);
    expect(await jobLabour(b, jobId)).toBeNull();
    const id = await draftInvoice(a, { jobId, basis: "fixed" });
    const draft = await a.read.invoice.findUniqueOrThrow({ where: { id } });
    await issueInvoice(a, { id, version: draft.version });
    const after = await sums();
    expect(after.all.billedMinutes).toBeGreaterThan(0);
    expect(after.all.billedMinor).toBeGreaterThan(0);
    // A credit note of a part takes what it credits off what was billed, and leaves the rest.
    const issued = await a.read.invoice.findUniqueOrThrow({ where: { id } });
    const labour = storedInvoice(issued.frozen).lines.find((line) => line.kind === "labour");
    const tenMinutes = Math.round(10_000 / 60);
    await creditPart(a, {
      id,
      version: issued.version,
      reason: "Agreed on the phone",
      ask: { lines: [{ key: labour?.key ?? "", quantityMilli: tenMinutes }] },
      fates: {},
      corrected: false,
    });
    const credited = await sums();
    expect(credited.all.billedMinutes).toBe((after.all.billedMinutes ?? 0) - 10);
    expect(credited.all.billedMinor).toBeLessThan(after.all.billedMinor ?? 0);
  });

  it("are true to the minute by package after a break, a forgotten stop and a correction, also in what its work usually takes", async () => {
    const { a, b } = await twoShops(new Date("2026-11-25T00:30:00Z"));
    await nameShop(a);
    await nameShop(b);
    const { jobId } = await readyJob(a);
    const [step, ...others] = await a.read.step.findMany({
      where: { jobId, kind: "operation" },
      orderBy: { position: "asc" },
    });
    if (!step) throw new Error("no operation");
    await a.write(async (tx) => {
      await tx.job.update({ where: { id: jobId }, data: { state: "inWork" } });
      await tx.step.updateMany({ where: { jobId }, data: { state: "todo" } });
      await tx.settings.update({ where: { id: 1 }, data: { zone: "UTC" } });
      // Wednesday, 00:00 to 02:00: an hour and a half from where the test begins.
      await tx.staff.updateMany({ data: { hours: { "3": [{ from: "00:00", to: "02:00" }] } } });
    });
    const spent = async (at: ShopHandle) => {
      const found = await jobLabour(at, jobId);
      const of = found?.packages.find((row) => row.packageId !== undefined);
      return of && { planned: of.plannedMinutes, spent: of.spentMinutes };
    };
    const planned = (await spent(a))?.planned ?? 0;
    expect(planned).toBe(
      (await a.read.step.findMany({ where: { jobId, kind: { not: "ride" } } })).reduce(
        (sum, one) => sum + one.minutes,
        0,
      ),
    );
    // 13 minutes, a break of 17, then on until somebody notices: the shift ended 60 minutes after the break.
    const { entryId } = await startTime(a, { jobId, stepId: step.id });
    const breakId = await takeBreak(later(a, 13), { entryId });
    expect(await spent(later(a, 25))).toEqual({ planned, spent: 13 });
    await endBreak(later(a, 30), { breakId });
    const on = await a.read.timeEntry.findFirstOrThrow({ where: { endedAt: null } });
    expect(on).toMatchObject({ jobId, stepId: step.id });
    await setWait(later(a, 300), {
      jobId,
      reason: "parts",
      untilOn: null,
      note: "",
      late: { [on.id]: "shift" },
    });
    expect(await spent(later(a, 300))).toEqual({ planned, spent: 13 + 60 });
    // It was 41 minutes after all.
    const field = (minutes: number) => later(a, minutes).now.toISOString().slice(0, 16);
    const { version } = await a.read.timeEntry.findUniqueOrThrow({ where: { id: on.id } });
    const right = { entryId: on.id, version, startedAt: field(30), reason: "Went for parts" };
    await correctTime(later(a, 310), { ...right, endedAt: field(71) });
    expect(await spent(later(a, 310))).toEqual({ planned, spent: 13 + 41 });
    await a.write(async (tx) => {
      await tx.step.updateMany({ where: { jobId }, data: { state: "done" } });
      await tx.job.update({ where: { id: jobId }, data: { state: "ready" } });
    });
    const { packageRevision } = await a.read.quoteWork.findFirstOrThrow({
      where: { packageRevisionId: { not: null } },
      select: { packageRevision: { select: { packageId: true, recipe: true } } },
    });
    const recipe = storedRecipe(packageRevision?.recipe);
    const usual = await usualMinutes(a, packageRevision?.packageId ?? 0, recipe);
    expect(usual.filter((row) => row.usual !== null)).toMatchObject([
      { key: step.key, usual: { jobs: 1, median: 13 + 41 } },
    ]);
    expect(others.every((one) => usual.find((row) => row.key === one.key)?.usual === null)).toBe(true);
    expect(await b.read.timeEntry.count()).toBe(0);
    expect(await jobLabour(b, jobId)).toBeNull();
  });

  it("teach what an operation usually takes here, and nothing to another shop", async () => {
    const { a, b } = await twoShops();
    await nameShop(a);
    const { steps } = await workedJob(a, 14);
    const work = await a.read.quoteWork.findFirstOrThrow({
      where: { packageRevisionId: { not: null } },
      include: { packageRevision: true },
    });
    const packageId = work.packageRevision?.packageId ?? 0;
    const recipe = storedRecipe(work.packageRevision?.recipe);
    const rows = await usualMinutes(a, packageId, recipe);
    const timed = rows.filter((row) => row.usual !== null);
    expect(timed.map((row) => row.key).sort()).toEqual(steps.map((step) => step.key).sort());
    expect(timed[0]).toMatchObject({ kind: "operation", usual: { jobs: 1, median: 14, middleHalf: null } });
    expect((await usualMinutes(b, packageId, recipe)).every((row) => row.usual === null)).toBe(true);
    await a.write((tx) => tx.job.updateMany({ data: { state: "inWork" } }));
    expect((await usualMinutes(a, packageId, recipe)).every((row) => row.usual === null)).toBe(true);
  });
});
