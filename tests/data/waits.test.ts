import { describe, expect, it } from "vitest";
import { getCard } from "@/lib/data/jobs/card";
import { getJob } from "@/lib/data/jobs/get";
import { handOver, othersWhoWork } from "@/lib/data/jobs/handOvers";
import { listJobs } from "@/lib/data/jobs/list";
import { passStep } from "@/lib/data/jobs/pass";
import { markBookedIn } from "@/lib/data/jobs/states";
import { addStepNote } from "@/lib/data/jobs/stepNotes";
import { takeBreak } from "@/lib/data/jobs/time/breaks";
import { startTime } from "@/lib/data/jobs/time/run";
import { endWait, setWait } from "@/lib/data/jobs/waits";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn } from "@/lib/data/stock/reservations";
import { myNextJob } from "@/lib/data/today/mine";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { dueText } from "@/lib/schemas/dueWords";
import { makeJob } from "../support/jobs";
import { as, twoShops } from "../support/shops";

const ALL = { quotes: true, invoices: true, stock: true };
const PLAIN = { version: 1, readings: [], checks: [], signatures: [] };

/** Another person of the shop, and the shop as they see it. */
async function other(shop: ShopHandle, name: string, role = "tuner"): Promise<ShopHandle> {
  const personId = `${name}-${shop.by.personId}`;
  const { id } = await shop.write((tx) =>
    tx.staff.create({ data: { personId, name, role, hours: {} }, select: { id: true } }),
  );
  return as(shop, { by: { personId, name, role: "tuner", staffId: id } });
}

describe("a job that cannot go on", () => {
  it("says for what and until when on Today, on its page and on its card, and no longer once work begins", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    await startTime(a, { jobId: job.id });
    await setWait(a, {
      jobId: job.id,
      reason: "customer",
      untilOn: "2026-11-27",
      note: "Rang twice.",
      key: "wait-once-1",
    });
    await setWait(a, {
      jobId: job.id,
      reason: "customer",
      untilOn: "2026-11-27",
      note: "Rang twice.",
      key: "wait-once-1",
    });
    const said = { reason: "customer", untilOn: "2026-11-27", note: "Rang twice." };
    expect((await getToday(a, ALL)).waits).toMatchObject([{ ...said, late: false, job: { id: job.id } }]);
    expect((await getToday(b, ALL)).waits).toEqual([]);
    expect((await getJob(a, job.id))?.waits).toMatchObject([said]);
    expect((await listJobs(a)).jobs).toMatchObject([{ id: job.id, wait: said }]);
    expect((await getCard(a, job.id))?.wait).toMatchObject(said);
    // Nobody's time runs on a job that waits.
    expect(await a.read.timeEntry.count({ where: { endedAt: null } })).toBe(0);
    const later = as(a, { now: new Date("2026-11-29T00:30:00Z") });
    expect((await getToday(later, ALL)).waits).toMatchObject([{ late: true }]);
    await passStep(later, { ...PLAIN, stepId: job.steps[0] ?? 0 });
    expect((await getToday(later, ALL)).waits).toEqual([]);
    expect((await getCard(later, job.id))?.wait).toBeNull();
  });

  it("waits for one thing at a time; what is over cannot end twice, a day gone by is refused", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await setWait(a, { jobId: job.id, reason: "parts", untilOn: null, note: "" });
    await setWait(a, { jobId: job.id, reason: "outside", untilOn: "2026-11-25", note: "Chrome." });
    const open = await a.read.jobWait.findMany({ where: { endedAt: null } });
    expect(open).toMatchObject([{ reason: "outside" }]);
    await endWait(a, { waitId: open[0]?.id ?? 0 });
    await expect(endWait(a, { waitId: open[0]?.id ?? 0 })).rejects.toThrow("over already");
    await expect(
      setWait(a, { jobId: job.id, reason: "ride", untilOn: "2026-11-24", note: "" }),
    ).rejects.toMatchObject({ fields: { untilOn: expect.stringContaining("later day") } });
    await a.write((tx) => tx.job.update({ where: { id: job.id }, data: { state: "closed" } }));
    await expect(setWait(a, { jobId: job.id, reason: "ride", untilOn: null, note: "" })).rejects.toThrow(
      "is over",
    );
  });
});

describe("a job handed over", () => {
  it("is the next job of its receiver, with the giver's word, until they have begun", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    const ilse = await other(a, "Ilse");
    const desk = await other(a, "Desk", "desk");
    expect(await othersWhoWork(a)).toEqual([{ id: ilse.by.staffId, name: "Ilse" }]);
    await startTime(a, { jobId: job.id });
    await handOver(a, { jobId: job.id, toId: ilse.by.staffId ?? 0, note: "Bowl is off, screws in the tin." });
    expect(await a.read.timeEntry.count({ where: { endedAt: null } })).toBe(0);
    expect((await getToday(ilse, ALL)).handed).toMatchObject([
      { from: "Test Owner", note: "Bowl is off, screws in the tin.", job: { id: job.id } },
    ]);
    expect((await getToday(a, ALL)).handed).toEqual([]);
    expect((await getToday(b, ALL)).handed).toEqual([]);
    expect(await myNextJob(ilse)).toMatchObject({ id: job.id, why: "handed" });
    expect((await getCard(a, job.id))?.handedOver).toMatchObject({ from: "Test Owner", to: "Ilse" });
    await startTime(ilse, { jobId: job.id });
    expect((await getToday(ilse, ALL)).handed).toEqual([]);
    expect((await getCard(a, job.id))?.handedOver).toBeNull();
    await expect(
      handOver(ilse, { jobId: job.id, toId: ilse.by.staffId ?? 0, note: "To myself" }),
    ).rejects.toThrow("cannot go on");
    await expect(
      handOver(ilse, { jobId: job.id, toId: desk.by.staffId ?? 0, note: "To the desk" }),
    ).rejects.toThrow("cannot go on");
  });
});

describe("the next job of whoever looks", () => {
  it("is what their time runs on, else their next booking that neither waits nor went to somebody else", async () => {
    const { a, b } = await twoShops();
    expect(await myNextJob(a)).toBeNull();
    const [late, early] = [await makeJob(a), await makeJob(a)];
    const bay = await a.read.bay.findFirstOrThrow();
    const ilse = await other(a, "Ilse");
    await a.write(async (tx) => {
      for (const [job, hour] of [
        [late, 3],
        [early, 1],
      ] as const) {
        const at = (plus: number) => new Date(Date.UTC(2026, 10, 25, hour + plus));
        await tx.booking.create({
          data: { jobId: job.id, bayId: bay.id, staffId: a.by.staffId ?? 0, startsAt: at(0), endsAt: at(1) },
        });
        await markBookedIn(tx, a, job.id);
      }
    });
    expect(await myNextJob(a)).toMatchObject({ id: early.id, why: "booked" });
    expect(await myNextJob(ilse)).toBeNull();
    expect(await myNextJob(b)).toBeNull();
    await setWait(a, { jobId: early.id, reason: "parts", untilOn: null, note: "" });
    expect(await myNextJob(a)).toMatchObject({ id: late.id });
    await handOver(a, { jobId: late.id, toId: ilse.by.staffId ?? 0, note: "Yours from here." });
    expect(await myNextJob(a)).toBeNull();
    await startTime(a, { jobId: early.id });
    expect(await myNextJob(a)).toMatchObject({ id: early.id, why: "running" });
    // On a break it is still the same, and no longer the day after.
    const { id: entryId } = await a.read.timeEntry.findFirstOrThrow({ where: { endedAt: null } });
    await takeBreak(a, { entryId });
    expect(await myNextJob(a)).toMatchObject({ id: early.id, why: "break", startsAt: null });
    const tomorrow = as(a, { now: new Date(a.now.getTime() + 86_400_000) });
    expect(await myNextJob(tomorrow)).toMatchObject({ id: early.id, why: "booked" });
  });
});

describe("what the card says of a step", () => {
  it("shows its notes, each with who wrote it; they only grow", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    const stepId = job.steps[1] ?? 0;
    for (const text of ["Seat is pitted.", "Turned the seat."])
      await addStepNote(a, { stepId, text, key: `note-${text}` });
    await addStepNote(a, { stepId, text: "Turned the seat.", key: "note-Turned the seat." });
    const notes = (await getCard(a, job.id))?.steps.find((step) => step.id === stepId)?.notes;
    expect(notes).toMatchObject([
      { text: "Seat is pitted.", by: "Test Owner" },
      { text: "Turned the seat.", by: "Test Owner" },
    ]);
    await expect(a.write((tx) => tx.stepNote.deleteMany({ where: { stepId } }))).rejects.toThrow();
    expect(await b.read.stepNote.count()).toBe(0);
  });

  it("says beside a missing part when it comes: a day, on order without one, or not on order", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const partIds = await a.write(async (tx) => {
      const supplier = await tx.supplier.create({
        data: { name: "Coast Brass", searchKey: "c", createdAt: a.now },
      });
      const order = await tx.purchaseOrder.create({
        data: { number: "1", sequence: 1, supplierId: supplier.id, state: "ordered", createdAt: a.now },
      });
      const made: number[] = [];
      for (const [code, dueOn, ordered] of [
        ["DUE", "2026-11-26", true],
        ["OPEN", null, true],
        ["NONE", null, false],
      ] as const) {
        const part = await tx.part.create({
          data: { code, name: code, kind: "jet", searchKey: code, createdAt: a.now },
        });
        made.push(part.id);
        if (ordered)
          await tx.orderLine.create({
            data: { orderId: order.id, partId: part.id, quantityMilli: 1000, dueOn },
          });
      }
      return made;
    });
    for (const partId of partIds) {
      await recordMove(a, { partId, kind: "opening", quantityMilli: 1000 });
      await a.write((tx) => reserveIn(tx, a, { jobId: job.id, partId, wantedMilli: 2000 }));
    }
    const card = await getCard(a, job.id);
    expect(card?.looseParts.map((one) => [one.part.code, one.shortMilli, one.dueOn])).toEqual([
      ["DUE", 1000, "2026-11-26"],
      ["OPEN", 1000, "unknown"],
      ["NONE", 1000, null],
    ]);
    expect(dueText("2026-11-26", card?.today ?? "", "en-AU")).toBe("due Thursday");
    expect(dueText("2026-11-25", card?.today ?? "", "en-AU")).toBe("due today");
    expect(dueText("2026-12-12", card?.today ?? "", "en-AU")).toBe("due 12 Dec");
  });
});
