import { describe, expect, it } from "vitest";
import { addFinding } from "@/lib/data/jobs/findings";
import { passStep } from "@/lib/data/jobs/pass";
import { markBookedIn } from "@/lib/data/jobs/states";
import { startTime } from "@/lib/data/jobs/time/run";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn } from "@/lib/data/stock/reservations";
import { getToday } from "@/lib/data/today/today";
import { makeJob } from "../support/jobs";
import { as, twoShops } from "../support/shops";

const ALL = { quotes: true, invoices: true, stock: true };

describe("Today", () => {
  it("in an empty shop asks for nothing, and still says the day and its air", async () => {
    const { a } = await twoShops();
    const today = await getToday(a, ALL);
    expect(today.day).toBe("2026-11-25");
    expect(today.bays).toHaveLength(1);
    expect(today.shift).toEqual({ from: 480, to: 1020 });
    for (const list of [
      "arrivals",
      "stopped",
      "ready",
      "unbooked",
      "short",
      "running",
      "quotes",
      "invoices",
      "parts",
    ] as const)
      expect(today[list]).toEqual([]);
    expect(today.drawer).toBeNull();
    expect(today.air.ratio).toBeGreaterThan(0.85);
    expect(today.air.ratio).toBeLessThan(1.15);
    expect(today.air.because.some((reason) => /assumed/.test(reason.from))).toBe(true);
  });

  it("tells of letters to customers that could not be sent, for a fortnight, to those who send them", async () => {
    const { a, b } = await twoShops();
    const at = (days: number) => new Date(a.now.getTime() + days * 86_400_000);
    await a.write(async (tx) => {
      const mail = {
        to: "oda@example.test",
        subject: "Quote 640",
        text: "",
        letter: "quote",
        state: "failed",
      };
      await tx.mail.create({ data: { ...mail, failure: "no such mailbox", createdAt: at(-1) } });
      await tx.mail.create({ data: { ...mail, createdAt: at(-20) } });
      await tx.mail.create({ data: { ...mail, letter: "", createdAt: at(-1) } });
      await tx.mail.create({ data: { ...mail, state: "sent", createdAt: at(-1) } });
    });
    expect((await getToday(a, ALL)).failed).toMatchObject([
      { subject: "Quote 640", failure: "no such mailbox" },
    ]);
    expect((await getToday(a, { ...ALL, quotes: false })).failed).toEqual([]);
    expect((await getToday(b, ALL)).failed).toEqual([]);
  });

  it("draws today's bookings on the shop's clock and tells who is still to arrive", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a, false);
    const bay = await a.read.bay.findFirstOrThrow();
    const { zone } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    const clock = new Intl.DateTimeFormat("en-GB", { timeZone: zone, hour: "2-digit", minute: "2-digit" });
    const minute = (at: Date) => {
      const [hour, min] = clock.format(at).split(":").map(Number) as [number, number];
      return hour * 60 + min;
    };
    const startsAt = new Date("2026-11-25T01:00:00Z");
    const endsAt = new Date("2026-11-25T03:30:00Z");
    const booking = { jobId: job.id, bayId: bay.id, staffId: a.by.staffId ?? 0 };
    await a.write(async (tx) => {
      await tx.booking.create({ data: { ...booking, startsAt, endsAt } });
      await tx.booking.create({
        data: {
          ...booking,
          startsAt: new Date("2026-11-27T01:00:00Z"),
          endsAt: new Date("2026-11-27T02:00:00Z"),
        },
      });
      await markBookedIn(tx, a, job.id);
    });
    const today = await getToday(a, ALL);
    expect(today.bookings.map((one) => [one.from, one.to])).toEqual([[minute(startsAt), minute(endsAt)]]);
    expect(today.arrivals).toMatchObject([{ id: job.id, customer: "Oda Fenn", at: startsAt.toISOString() }]);
    await a.write((tx) => tx.job.update({ where: { id: job.id }, data: { arrivedAt: a.now } }));
    expect((await getToday(a, ALL)).arrivals).toEqual([]);
    expect((await getToday(b, ALL)).bookings).toEqual([]);
  });

  it("gathers stopped jobs, short parts, findings and forgotten time", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    const [open, seat] = job.steps as [number, number];
    const plain = { version: 1, readings: [], checks: [], signatures: [] };
    await startTime(a, { jobId: job.id, stepId: open });
    await passStep(a, { ...plain, stepId: open });
    await passStep(a, { ...plain, stepId: seat, readings: [{ holdPointId: job.reading, value: 2.5 }] });
    await addFinding(a, { jobId: job.id, text: "Slide guide worn" });
    const part = await a.write((tx) =>
      tx.part.create({
        data: {
          code: "MJ1425",
          name: "Main jet",
          kind: "jet",
          family: "Main, large round",
          sizeMilli: 142_500,
          pointMilli: 3000,
          searchKey: "m",
          createdAt: a.now,
        },
      }),
    );
    await recordMove(a, { partId: part.id, kind: "opening", quantityMilli: 1000 });
    await a.write((tx) => reserveIn(tx, a, { jobId: job.id, partId: part.id, wantedMilli: 2000 }));
    const today = await getToday(as(a, { now: new Date(a.now.getTime() + 20 * 3_600_000) }), ALL);
    expect(today.stopped).toMatchObject([{ id: job.id, stopped: "Seat height 2.5 mm, not 3 to 3.3" }]);
    expect(today.findings).toMatchObject([{ text: "Slide guide worn" }]);
    expect(today.short).toMatchObject([{ id: job.id, parts: [{ code: "MJ1425", shortMilli: 1000 }] }]);
    expect(today.running[0]?.forgotten).not.toBeNull();
    expect(today.parts.map((one) => one.code)).toEqual(["MJ1425"]);
    expect(today.drawer).toMatchObject({
      family: "Main, large round",
      sizes: [{ onHandMilli: 1000, reservedMilli: 1000 }],
    });
  });

  it("does not ask for what the one who looks may not see", async () => {
    const { a } = await twoShops();
    const job = await makeJob(a);
    await a.write(async (tx) => {
      await tx.quote.updateMany({
        data: { state: "sent", sentAt: new Date(a.now.getTime() - 6 * 86_400_000), validUntil: "2026-11-27" },
      });
      await tx.job.update({ where: { id: job.id }, data: { state: "invoiced" } });
      await tx.invoice.create({
        data: {
          jobId: job.id,
          customerId: job.customerId,
          state: "issued",
          number: 1,
          issuedOn: "2026-11-10",
          dueOn: "2026-11-17",
          grossMinor: 38_762,
          prepaidMinor: 10_000,
          createdAt: a.now,
        },
      });
    });
    const seen = await getToday(a, ALL);
    expect(seen.quotes).toMatchObject([{ sentDays: 6, endsInDays: 2 }]);
    expect(seen.invoices).toMatchObject([{ openMinor: 28_762, lateDays: 8 }]);
    const hidden = await getToday(a, { quotes: false, invoices: false, stock: false });
    expect([hidden.quotes, hidden.invoices, hidden.parts, hidden.drawer]).toEqual([[], [], [], null]);
  });
});
