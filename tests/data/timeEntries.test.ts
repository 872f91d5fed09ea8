import { describe, expect, it } from "vitest";
import { getDay } from "@/lib/data/bookings/list";
import { hoursOfWeek } from "@/lib/data/figures/hours";
import { previewInvoice } from "@/lib/data/invoices/get";
import { getCard } from "@/lib/data/jobs/card";
import { getJob } from "@/lib/data/jobs/get";
import { listJobs } from "@/lib/data/jobs/list";
import { passStep } from "@/lib/data/jobs/pass";
import { endBreak, jobsToSwitchTo, openBreaks, takeBreak } from "@/lib/data/jobs/time/breaks";
import { correctTime } from "@/lib/data/jobs/time/correct";
import { getTimeEntry, listRunning } from "@/lib/data/jobs/time/list";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { askedFirst } from "@/lib/data/jobs/time/running";
import type { ShopHandle } from "@/lib/db/shop";
import { jobNow, makeJob } from "../support/jobs";
import { as, twoShops } from "../support/shops";

// Wednesday morning on shop a's clock; the usual shift of its people ends at 16:30.
const later = (shop: ShopHandle, minutes: number) =>
  as(shop, { now: new Date(shop.now.getTime() + minutes * 60_000) });

describe("time on a job", () => {
  it("runs once per person, however many starts arrive at the same moment", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    const starts = job.steps.map((stepId) => startTime(a, { jobId: job.id, stepId }));
    await Promise.all([...starts, startTime(a, { jobId: job.id })]);
    expect(await a.read.timeEntry.count({ where: { endedAt: null } })).toBe(1);
    expect(await a.read.timeEntry.count()).toBe(5);
    expect(await b.read.timeEntry.count()).toBe(0);
    expect((await jobNow(a, job.id)).state).toBe("inWork");
  });

  it("pressed again on the same step keeps running as it was", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const one = await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    const two = await startTime(later(a, 5), { jobId: job.id, stepId: job.steps[0] });
    expect(two).toEqual(one);
    const key = "start-with-key";
    const [three, four] = await Promise.all([
      startTime(later(a, 9), { jobId: job.id, stepId: job.steps[1], key }),
      startTime(later(a, 9), { jobId: job.id, stepId: job.steps[1], key }),
    ]);
    expect(three).toEqual(four);
    expect(await a.read.timeEntry.count()).toBe(2);
  });

  it("switches without a gap, stops once, and adds up against the plan", async () => {
    const { a } = await twoShops();
    const [job, other] = [await makeJob(a), await makeJob(a)];
    await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    const second = await startTime(later(a, 12), { jobId: other.id, stepId: other.steps[0] });
    await stopTime(later(a, 20), second);
    await stopTime(later(a, 40), second);
    const view = await getJob(later(a, 60), other.id);
    expect(view?.time.steps[0]).toMatchObject({
      plannedMinutes: 10,
      spentMinutes: 8,
      running: false,
    });
    expect((await getJob(a, job.id))?.time.spentMinutes).toBe(12);
  });

  it("goes on with the next step when the one it ran on is passed", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const [open, seat] = job.steps as [number, number];
    await startTime(a, { jobId: job.id, stepId: open });
    await passStep(later(a, 7), { stepId: open, version: 1, readings: [], checks: [], signatures: [] });
    expect(await listRunning(later(a, 7))).toMatchObject([{ stepId: seat, own: true, forgotten: null }]);
    expect((await getJob(later(a, 7), job.id))?.time.steps[0]?.spentMinutes).toBe(7);
    expect((await getCard(later(a, 9), job.id))?.ownMs).toBe(7 * 60_000);
  });

  it("of a ride, which has no grade, is rounded with the work of its grade, on the job's page as on the invoice", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b]) {
      const job = await makeJob(shop);
      await shop.write(async (tx) => {
        await tx.settings.update({ where: { id: 1 }, data: { billingUnit: "tenths" } });
        await tx.step.updateMany({
          where: { jobId: job.id, kind: { not: "ride" } },
          data: { grade: "workshop" },
        });
        const at = (minutes: number) => new Date(shop.now.getTime() - minutes * 60_000);
        const entry = { staffId: shop.by.staffId ?? 0, jobId: job.id };
        for (const stepId of [job.steps[1] ?? 0, job.steps[3] ?? 0])
          await tx.timeEntry.create({ data: { ...entry, stepId, startedAt: at(5), endedAt: at(3) } });
      });
      // Twice 2 min are one tenth of an hour.
      expect((await getJob(shop, job.id))?.time.billedMinutes).toBe(6);
      const { doc } = (await previewInvoice(shop, job.id))?.asWorked ?? {};
      expect(doc?.lines.map((line) => [line.key, line.quantityMilli])).toEqual([["worked-workshop", 100]]);
    }
  });

  it("is nobody else's to stop, and not for people who are not of the shop", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const entry = await startTime(a, { jobId: job.id });
    const mate = await a.write((tx) =>
      tx.staff.create({
        data: { personId: "mate", name: "Lio Marr", role: "tuner", hours: {} },
        select: { id: true },
      }),
    );
    const asMate = as(a, { by: { personId: "mate", name: "Lio Marr", role: "tuner", staffId: mate.id } });
    await expect(stopTime(asMate, entry)).rejects.toMatchObject({ kind: "forbidden" });
    await startTime(asMate, { jobId: job.id });
    expect(await a.read.timeEntry.count({ where: { endedAt: null } })).toBe(2);
    const stranger = as(a, { by: { ...a.by, staffId: null } });
    await expect(startTime(stranger, { jobId: job.id })).rejects.toMatchObject({ kind: "forbidden" });
  });
});

describe("late work and breaks", () => {
  it("asks, and takes the person's word that they worked until now, also to go on with another job", async () => {
    const { a, b } = await twoShops();
    const [job, other] = [await makeJob(a), await makeJob(a)];
    const { entryId } = await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    expect(await askedFirst(later(a, 60))).toBeNull();
    const late = later(a, 6 * 60 + 30);
    expect(await askedFirst(late)).toBe(entryId);
    expect(await askedFirst(late, { jobId: job.id, stepId: job.steps[0] })).toBeNull();
    expect(await askedFirst(b)).toBeNull();
    const second = await startTime(late, { jobId: other.id, worked: true });
    expect((await a.read.timeEntry.findUniqueOrThrow({ where: { id: entryId } })).endedAt).toEqual(late.now);
    await stopTime(later(a, 11 * 60), { ...second, worked: true });
    expect(await a.read.timeEntry.count({ where: { endedAt: null } })).toBe(0);
  });

  it("a break stops the time and goes on where it was; starting anything else ends it; a double tap is one", async () => {
    const { a, b } = await twoShops();
    const [job, other] = [await makeJob(a), await makeJob(a)];
    const { entryId } = await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    const breakId = await takeBreak(later(a, 10), { entryId, key: "break-key-1" });
    expect(await takeBreak(later(a, 11), { entryId, key: "break-key-1" })).toBe(breakId);
    await expect(takeBreak(later(a, 12), { entryId })).rejects.toThrow(/does not run any more/);
    expect(await listRunning(later(a, 12))).toEqual([]);
    expect(await openBreaks(later(a, 12))).toMatchObject([{ id: breakId, own: true, jobId: job.id }]);
    expect(await openBreaks(b)).toEqual([]);
    expect((await getCard(later(a, 12), job.id))?.onBreak?.id).toBe(breakId);
    expect(await endBreak(later(a, 40), { breakId, key: "on-key-1" })).toEqual({ started: true });
    expect(await endBreak(later(a, 41), { breakId, key: "on-key-1" })).toEqual({ started: true });
    const [running] = await listRunning(later(a, 41));
    expect(running).toMatchObject({ jobId: job.id, stepId: job.steps[0] });
    await takeBreak(later(a, 50), { entryId: running?.id ?? 0 });
    await startTime(later(a, 55), { jobId: other.id });
    expect(await openBreaks(later(a, 55))).toEqual([]);
    expect((await jobsToSwitchTo(later(a, 55))).map((one) => one.id)).toEqual([job.id]);
    const [week] = await hoursOfWeek(later(a, 60), "2026-11-25");
    expect(week).toMatchObject({ minutes: 10 + 10 + 5, breakMinutes: 30 + 5, running: true });
    expect(await hoursOfWeek(b, "2026-11-25")).toEqual([]);
    expect(await hoursOfWeek(later(a, 60), "2026-12-02")).toEqual([]);
  });

  it("a break is seen by everybody wherever it says who is on the job: its card, its page, the list and the day's bookings", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    const lio = await a.write((tx) =>
      tx.staff.create({ data: { personId: "lio", name: "Lio Marr", role: "tuner", hours: {} } }),
    );
    const asLio = as(a, { by: { personId: "lio", name: "Lio Marr", role: "tuner", staffId: lio.id } });
    const bay = await a.read.bay.findFirstOrThrow();
    const times = { startsAt: a.now, endsAt: later(a, 120).now };
    await a.write((tx) =>
      tx.booking.create({ data: { jobId: job.id, bayId: bay.id, staffId: lio.id, ...times } }),
    );
    const seen = async (shop: ShopHandle) => ({
      card: (await getCard(shop, job.id))?.others,
      page: (await getJob(shop, job.id))?.onNow,
      list: (await listJobs(shop)).jobs[0]?.on,
      day: (await getDay(shop, undefined, {})).on,
    });
    const everywhere = (on: readonly object[]) => ({ card: on, page: on, list: on, day: on });
    const { entryId } = await startTime(asLio, { jobId: job.id });
    const lios = { jobId: job.id, name: "Lio Marr" };
    expect(await seen(later(a, 5))).toMatchObject(everywhere([{ ...lios, onBreak: false, since: a.now }]));
    await takeBreak(later(asLio, 10), { entryId });
    const rests = { ...lios, onBreak: true, since: later(a, 10).now };
    expect(await seen(later(a, 12))).toMatchObject(everywhere([rests]));
    // One's own is on the card's own clock.
    expect((await getCard(later(asLio, 12), job.id))?.others).toEqual([]);
    await startTime(later(a, 15), { jobId: job.id });
    expect((await getJob(later(a, 16), job.id))?.onNow).toMatchObject([
      { name: "Test Owner", onBreak: false },
      rests,
    ]);
    // A break of half a day was going home.
    expect((await getJob(later(a, 13 * 60), job.id))?.onNow).toMatchObject([{ name: "Test Owner" }]);
    await expect(getCard(b, job.id)).resolves.toBeNull();
    expect((await getDay(b, undefined, {})).on).toEqual([]);
    expect((await listJobs(b)).jobs).toEqual([]);
  });

  it("a break is over with its job: then no time starts", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const { entryId } = await startTime(a, { jobId: job.id });
    const breakId = await takeBreak(later(a, 5), { entryId });
    await a.write((tx) => tx.job.update({ where: { id: job.id }, data: { state: "ready" } }));
    expect(await endBreak(later(a, 9), { breakId })).toEqual({ started: false });
    expect(await listRunning(later(a, 9))).toEqual([]);
    await expect(endBreak(later(a, 9), { breakId: 999 })).rejects.toThrow(/no such break/);
  });
});

describe("a forgotten time entry", () => {
  it("is noticed past the shift, is not ended by guessing, and is put right with a reason", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const { entryId } = await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    const nextDay = later(a, 22 * 60);
    const [running] = await listRunning(nextDay);
    expect(running?.forgotten?.endField).toMatch(/^2026-11-25T16:30/);
    await expect(stopTime(nextDay, { entryId })).rejects.toThrow(
      /past the end of the shift at 25 Nov 2026, 16:30/,
    );
    await expect(startTime(nextDay, { jobId: job.id })).rejects.toThrow(/past the end of the shift/);
    const right = {
      entryId,
      version: 1,
      startedAt: running?.forgotten?.startedField ?? "",
      endedAt: running?.forgotten?.endField ?? "",
      reason: "Went home without stopping",
    };
    await expect(correctTime(nextDay, { ...right, endedAt: "2026-11-27T09:00" })).rejects.toThrow(/future/);
    await expect(correctTime(nextDay, { ...right, version: 7 })).rejects.toMatchObject({ kind: "conflict" });
    await correctTime(nextDay, right);
    const row = await a.read.timeEntry.findUniqueOrThrow({ where: { id: entryId } });
    expect(row).toMatchObject({ reason: "Went home without stopping", version: 2, startedAt: a.now });
    expect(row.endedAt).not.toBeNull();
    expect(await listRunning(nextDay)).toEqual([]);
    // What stood there stays.
    expect((await getTimeEntry(nextDay, entryId))?.corrections).toMatchObject([
      { fromStarted: a.now, fromEnded: null, reason: "Went home without stopping" },
    ]);
    await expect(a.write((tx) => tx.timeCorrection.deleteMany())).rejects.toThrow();
  });

  it("is corrected by its own person or by an owner, and never over other time of theirs", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const first = await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    const second = await startTime(later(a, 10), { jobId: job.id, stepId: job.steps[1] });
    await stopTime(later(a, 20), second);
    const times = { startedAt: "2026-11-25T11:02", endedAt: "2026-11-25T11:18", reason: "mistyped" };
    const tuner = as(later(a, 60), { by: { personId: "x", name: "Lio Marr", role: "tuner", staffId: 999 } });
    await expect(correctTime(tuner, { ...times, entryId: first.entryId, version: 2 })).rejects.toMatchObject({
      kind: "forbidden",
    });
    const zone = (await a.read.settings.findUniqueOrThrow({ where: { id: 1 } })).zone;
    const clock = (minutes: number) =>
      new Intl.DateTimeFormat("sv-SE", { timeZone: zone, dateStyle: "short", timeStyle: "short" })
        .format(new Date(a.now.getTime() + minutes * 60_000))
        .replace(" ", "T");
    const over = {
      entryId: first.entryId,
      version: 2,
      startedAt: clock(0),
      endedAt: clock(15),
      reason: "mistyped",
    };
    await expect(correctTime(later(a, 60), over)).rejects.toThrow(/already on something else/);
    await correctTime(later(a, 60), { ...over, endedAt: clock(9) });
    const row = await a.read.timeEntry.findUniqueOrThrow({ where: { id: first.entryId } });
    expect(row.endedAt?.getTime()).toBe(a.now.getTime() + 9 * 60_000);
  });
});
