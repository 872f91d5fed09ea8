import { beforeEach, describe, expect, it } from "vitest";
import { book, cancelBooking, moveBooking, restoreBooking } from "@/lib/data/bookings/book";
import { bookIn, bookingToJob } from "@/lib/data/bookings/bookIn";
import { fedBookings } from "@/lib/data/bookings/feed";
import { getBooking, getDay } from "@/lib/data/bookings/list";
import { firstTimesFor, jobsToGive, shopPeople } from "@/lib/data/bookings/times";
import { removeCustomer } from "@/lib/data/customers/remove";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { BookInSchema } from "@/lib/schemas/bookings";
import { oneJob } from "../support/oneJob";
import { readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
});

const ALL = { invoices: true, quotes: true, stock: true };
const GUEST = { guestName: "Halvard Moe", guestPhone: "555 0199", words: "runs hot, maybe the jets" };

/** The first time that works for an hour, as a wish. */
async function slot(shop: ShopHandle) {
  const [time] = await firstTimesFor(shop, 60);
  if (!time) throw new Error("No time works.");
  return { bayId: time.bayId, staffId: time.staffId, startsAt: new Date(time.startsAt), minutes: 60 };
}
const guest = async (shop: ShopHandle, more: object = {}) =>
  bookIn(shop, { ...(await slot(shop)), ...GUEST, ...more });
const rowOf = (shop: ShopHandle, id: number) => shop.read.booking.findUniqueOrThrow({ where: { id } });

describe("a bike booked in before there is a job", () => {
  it("holds its bay and person, and says who comes with what, in the shop it was made in", async () => {
    const id = await guest(a);
    expect(await getBooking(a, id)).toMatchObject({
      job: null,
      minutes: 60,
      of: { name: "No job yet", customer: "Halvard Moe", phone: "555 0199", bike: "bike not known yet" },
    });
    expect(await a.read.auditEntry.findFirst({ where: { noun: "booking" } })).toMatchObject({
      act: "booked",
      detail: { customer: "Halvard Moe", words: GUEST.words },
    });
    expect(await a.read.mail.count()).toBe(0);
    expect(await getBooking(b, id)).toBeNull();
  });

  it("is in the way of others like any booking, and says whose it is", async () => {
    const time = await slot(a);
    await bookIn(a, { ...time, ...GUEST });
    await expect(bookIn(a, { ...time, ...GUEST })).rejects.toThrow(/the bike of Halvard Moe/);
    const { jobId } = await oneJob(a);
    await expect(book(a, { jobId, ...time })).rejects.toMatchObject({ kind: "conflict" });
    const [next] = await firstTimesFor(a, 60);
    const taken = (at: { startsAt: number; bayId: number; staffId: number }) =>
      at.startsAt < time.startsAt.getTime() + 3_600_000 &&
      (at.bayId === time.bayId || at.staffId === time.staffId);
    expect(next && taken(next)).toBe(false);
  });

  it("is made once for two who book the same hour at once", async () => {
    const time = await slot(a);
    const tried = await Promise.allSettled([1, 2].map(() => bookIn(a, { ...time, ...GUEST })));
    expect(tried.filter((one) => one.status === "fulfilled")).toHaveLength(1);
    expect(await a.read.booking.count()).toBe(1);
    const again = { ...(await slot(a)), ...GUEST, key: "book-a-bike-in" };
    const ids = await Promise.all([bookIn(a, again), bookIn(a, again)]);
    expect(ids[0]).toBe(ids[1]);
  });

  it("stands in the day, its person's calendar and on Today", async () => {
    const id = await guest(a);
    const { startsAt, staffId } = await rowOf(a, id);
    const day = new Intl.DateTimeFormat("en-CA", { timeZone: "Australia/Adelaide" }).format(startsAt);
    expect((await getDay(a, day, {})).bookings).toMatchObject([{ id, job: null }]);
    expect(await fedBookings(a, staffId)).toMatchObject([
      { id, jobId: null, of: { customer: "Halvard Moe", title: GUEST.words } },
    ]);
    const today = await getToday({ ...a, now: new Date(startsAt.getTime() - 60_000) }, ALL);
    expect(today.bookedIn).toMatchObject([{ id, of: { customer: "Halvard Moe" } }]);
    expect(today.bookings).toMatchObject([{ id, job: null }]);
    expect(today.arrivals).toEqual([]);
  });

  it("of a known bike is its owner's, who is told by mail with an entry for their calendar", async () => {
    const { bikeId, customerId } = await readyToQuote(a);
    await a.write((tx) =>
      tx.customer.update({ where: { id: customerId }, data: { email: "oda@example.com" } }),
    );
    const id = await guest(a, { bikeId, guestName: "" });
    expect(await rowOf(a, id)).toMatchObject({ bikeId, customerId, guestName: "" });
    const mail = await a.read.mail.findFirstOrThrow();
    expect(mail.to).toBe("oda@example.com");
    expect(mail.text).toContain(GUEST.words);
    expect(mail.text).not.toContain("Job");
    expect(await a.read.mailAttachment.findFirst()).toMatchObject({
      noun: "booking",
      name: `booking-${id}.ics`,
    });
    await expect(guest(b, { bikeId: 9999 })).rejects.toMatchObject({ kind: "missing" });
  });

  it("is moved, cancelled and taken up again without a job", async () => {
    const id = await guest(a);
    const before = await rowOf(a, id);
    await moveBooking(a, {
      id,
      version: 1,
      bayId: before.bayId,
      staffId: before.staffId,
      startsAt: new Date(before.startsAt.getTime() + 86_400_000),
    });
    expect(await getBooking(a, id)).toMatchObject({ minutes: 60, version: 2 });
    await cancelBooking(a, { id, version: 2 });
    await restoreBooking(a, { id, version: 3 });
    expect(await rowOf(a, id)).toMatchObject({ state: "held", version: 4, jobId: null });
  });

  it("keeps its bike and its customer from being removed", async () => {
    const { customerId } = await oneJob(a);
    const id = await guest(a, { customerId, guestName: "" });
    const { version } = await a.read.customer.findUniqueOrThrow({ where: { id: customerId } });
    await expect(removeCustomer(a, { id: customerId, version })).rejects.toThrow(/1 booking/);
    expect(await rowOf(a, id)).toMatchObject({ customerId });
  });

  it("needs a bike, a customer or a name, and what for", () => {
    const form = { minutes: "60", choice: "1700000000000.1.1", words: "a look", guestName: "Halvard Moe" };
    expect(BookInSchema.safeParse(form).success).toBe(true);
    expect(BookInSchema.safeParse({ ...form, guestName: "" }).success).toBe(false);
    expect(BookInSchema.safeParse({ ...form, words: "" }).success).toBe(false);
    expect(BookInSchema.safeParse({ ...form, guestName: "", customerId: "4" }).success).toBe(true);
    expect(BookInSchema.safeParse({ ...form, minutes: "0" }).success).toBe(false);
  });
});

describe("a booking that gets its job later", () => {
  it("becomes the job's booking at its own time, and the job is booked", async () => {
    const id = await guest(a);
    const { jobId } = await oneJob(a);
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { state: "waiting" } }));
    const { startsAt } = await rowOf(a, id);
    expect((await jobsToGive(a, null)).map((job) => job.id)).toContain(jobId);
    await bookingToJob(a, { id, version: 1, jobId });
    expect(await rowOf(a, id)).toMatchObject({ jobId, startsAt, version: 2, state: "held" });
    expect((await a.read.job.findUniqueOrThrow({ where: { id: jobId } })).state).toBe("booked");
    await expect(bookingToJob(a, { id, version: 2, jobId })).rejects.toThrow(/has a job already/);
    await expect(bookingToJob(b, { id, version: 2, jobId })).rejects.toMatchObject({ kind: "missing" });
  });

  it("is given to no job of another customer", async () => {
    const { bikeId } = await readyToQuote(a);
    const id = await guest(a, { bikeId });
    const { customerId } = await rowOf(a, id);
    const { jobId } = await oneJob(a);
    const other = await a.write(async (tx) => {
      const made = await tx.customer.create({
        data: { name: "Ylva Strand", searchKey: "ylva strand", createdAt: a.now },
      });
      await tx.job.update({ where: { id: jobId }, data: { customerId: made.id, state: "waiting" } });
      return made.id;
    });
    expect(customerId).not.toBe(other);
    await expect(bookingToJob(a, { id, version: 1, jobId })).rejects.toThrow(/another customer's/);
    expect((await jobsToGive(a, customerId)).map((job) => job.id)).not.toContain(jobId);
    expect((await shopPeople(a)).bays.length).toBeGreaterThan(0);
  });
});
