import { beforeEach, describe, expect, it } from "vitest";
import { recordArrival } from "@/lib/data/arrivals/record";
import { book } from "@/lib/data/bookings/book";
import { bookIn } from "@/lib/data/bookings/bookIn";
import { cameAfterAll, comesLater, didNotCome, listLate, noShowsOf } from "@/lib/data/bookings/late";
import { firstTimesFor } from "@/lib/data/bookings/times";
import { speakTo } from "@/lib/data/customers/language";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { ArrivalSchema } from "@/lib/schemas/arrivals";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
const ALL = { invoices: true, quotes: true, stock: true };
const MINUTE = 60_000;

/** The shop so many minutes after the drop-off of a booking. */
const past = (shop: ShopHandle, at: Date, minutes: number) =>
  as(shop, { now: new Date(at.getTime() + minutes * MINUTE) });

/** A job booked for the first time that works, the bike to come an hour before. */
async function booked(shop: ShopHandle, email = "") {
  const job = await oneJob(shop, { email, minutes: 120 });
  const [time] = (await firstTimesFor(shop, 120)).filter(
    ({ startsAt }) => startsAt > shop.now.getTime() + 3_600_000,
  );
  if (!time) throw new Error("No time works.");
  const startsAt = new Date(time.startsAt);
  const dropOffAt = new Date(time.startsAt - 3_600_000);
  const { bayId, staffId } = time;
  const id = await book(shop, { jobId: job.jobId, bayId, staffId, startsAt, dropOffAt });
  return { ...job, id, bayId, staffId, startsAt, dropOffAt };
}
const rowOf = (shop: ShopHandle, id: number) => shop.read.booking.findUniqueOrThrow({ where: { id } });

beforeEach(async () => {
  ({ a, b } = await twoShops());
});

describe("a bike that was to be here", () => {
  it("is asked about once its drop-off has passed, and no more among those that come; each shop of its own", async () => {
    const one = await booked(a);
    await booked(b);
    const before = past(a, one.dropOffAt, -1);
    expect(await listLate(before)).toEqual([]);
    expect((await getToday(before, ALL)).arrivals).toMatchObject([{ id: one.jobId }]);
    const late = past(a, one.dropOffAt, 1);
    expect(await listLate(late)).toMatchObject([{ id: one.id, job: { number: one.number }, called: false }]);
    expect((await getToday(late, ALL)).arrivals).toEqual([]);
    await recordArrival(late, ArrivalSchema.parse({ bookingId: String(one.id) }));
    expect(await listLate(late)).toEqual([]);
    expect((await rowOf(a, one.id)).arrivedAt).toEqual(late.now);
    expect((await a.read.job.findUniqueOrThrow({ where: { id: one.jobId } })).arrivedAt).toEqual(late.now);
  });

  it("is let be until the moment that they called about, and asked about again then", async () => {
    const one = await booked(a);
    const late = past(a, one.dropOffAt, 10);
    const at = new Date(one.startsAt.getTime() + 30 * MINUTE);
    await expect(comesLater(late, { id: one.id, version: 1, at: one.dropOffAt })).rejects.toThrow(
      /has passed/,
    );
    await expect(
      comesLater(late, { id: one.id, version: 1, at: new Date(at.getTime() + 86_400_000 * 3) }),
    ).rejects.toMatchObject({ fields: { comes: expect.anything() } });
    await comesLater(late, { id: one.id, version: 1, at });
    expect(await listLate(late)).toEqual([]);
    expect((await getToday(late, ALL)).arrivals).toMatchObject([{ id: one.jobId, at: at.toISOString() }]);
    expect(await listLate(past(a, at, 1))).toMatchObject([{ id: one.id, called: true, comesAt: at }]);
    await expect(didNotCome(late, { id: one.id, version: 2 })).rejects.toThrow(/not due yet/);
  });
});

describe("a bike that did not come", () => {
  it("frees its bay, lets its job wait again, and is kept on the customer of this shop", async () => {
    const one = await booked(a);
    const late = past(a, one.dropOffAt, 90);
    const key = "4f7d8c52-93b8-4a74-9f0e-1f54c0a7c001";
    const free = await didNotCome(late, { id: one.id, version: 1, key });
    expect(await didNotCome(late, { id: one.id, version: 1, key })).toEqual(free);
    expect(free[0]).toBeGreaterThanOrEqual(late.now.getTime());
    expect(await rowOf(a, one.id)).toMatchObject({ state: "cancelled", noShowAt: late.now });
    expect((await a.read.job.findUniqueOrThrow({ where: { id: one.jobId } })).state).toBe("waiting");
    expect(await noShowsOf(a, one.customerId)).toEqual({ count: 1, last: one.startsAt });
    expect(await noShowsOf(b, one.customerId)).toBeNull();
    const guest = { guestName: "Halvard Moe", guestPhone: "", words: "runs hot" };
    const { bayId, staffId } = one;
    await bookIn(late, { bayId, staffId, startsAt: late.now, minutes: 15, ...guest });
    await expect(didNotCome(late, { id: one.id, version: 2 })).rejects.toMatchObject({ kind: "conflict" });
  });

  it("is written to in the customer's language with the next free times, and its entry leaves their calendar", async () => {
    const one = await booked(a, "oda@example.com");
    await speakTo(a, { id: one.customerId, language: "nb" });
    const late = past(a, one.dropOffAt, 90);
    const free = await didNotCome(late, { id: one.id, version: 1 });
    const mail = await a.read.mail.findFirstOrThrow({ where: { letter: "missed" } });
    expect(mail).toMatchObject({ to: "oda@example.com", language: "nb", noun: "booking", nounId: one.id });
    expect(mail.text).toContain("den kom ikke");
    expect(mail.text).toMatch(/De neste ledige tidene: .+, \d\d:\d\d/u);
    expect(free).toHaveLength(3);
    expect(await a.read.mailAttachment.findFirstOrThrow({ where: { mailId: mail.id } })).toMatchObject({
      form: "ics",
      printed: { cancelled: true },
    });
    expect(await b.read.mail.count()).toBe(0);
  });

  it("came after all where nothing was booked in its place, and counts no more", async () => {
    const one = await booked(a);
    const late = past(a, one.dropOffAt, 90);
    await didNotCome(late, { id: one.id, version: 1 });
    await cameAfterAll(late, { id: one.id, version: 2 });
    expect(await rowOf(a, one.id)).toMatchObject({ state: "held", noShowAt: null });
    expect((await a.read.job.findUniqueOrThrow({ where: { id: one.jobId } })).state).toBe("booked");
    expect(await noShowsOf(a, one.customerId)).toBeNull();
    await didNotCome(late, { id: one.id, version: 3 });
    const { bayId, staffId, startsAt } = one;
    const guest = { guestName: "Halvard Moe", guestPhone: "", words: "runs hot" };
    await bookIn(past(a, startsAt, 5), { bayId, staffId, startsAt, minutes: 60, ...guest });
    await expect(cameAfterAll(late, { id: one.id, version: 4 })).rejects.toThrow(
      /went to the bike of Halvard Moe/,
    );
  });
});
