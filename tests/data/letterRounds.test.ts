import { beforeEach, describe, expect, it } from "vitest";
import { book, moveBooking } from "@/lib/data/bookings/book";
import { dayBeforeRound } from "@/lib/data/bookings/dayBefore";
import { howRunsRound } from "@/lib/data/followUps/howRuns";
import { switchLetter } from "@/lib/data/mail/letterTexts";
import type { ShopHandle } from "@/lib/db/shop";
import type { LetterKind } from "@/lib/domain/letters/kinds";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { letterRound, wantsLetters } from "@/lib/server/letterRound";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { oneJob } from "../support/oneJob";
import { ORIGIN } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const ZONE = "Australia/Sydney";
const at = (day: string, time: string) => new Date(instantOf(day, time, ZONE));
let a: ShopHandle;
let b: ShopHandle;

// Wednesday 25 November 2026, 11:30 on the shops' clock.
beforeEach(async () => {
  ({ a, b } = await twoShops(at("2026-11-25", "11:30")));
  for (const shop of [a, b]) {
    await nameShop(shop);
    await shop.write((tx) => tx.settings.update({ where: { id: 1 }, data: { zone: ZONE, locale: "en-AU" } }));
  }
});

const on = (shop: ShopHandle, kind: LetterKind, days: number | null = null) =>
  switchLetter(shop, { kind, on: true, days, version: 0 });
const written = (shop: ShopHandle, letter: LetterKind) =>
  shop.read.mail.findMany({ where: { letter }, orderBy: { id: "asc" } });
const days = (shop: ShopHandle, count: number) =>
  as(shop, { now: new Date(shop.now.getTime() + count * 86_400_000) });

describe("the letter of the day before", () => {
  const wanted = async (shop: ShopHandle, jobId: number, startsAt: Date, more: object = {}) => ({
    jobId,
    bayId: (await shop.read.bay.findFirstOrThrow()).id,
    staffId: (await shop.read.staff.findFirstOrThrow()).id,
    startsAt,
    ...more,
  });
  const round = (shop: ShopHandle, day: string, time = "09:00") =>
    dayBeforeRound(as(shop, { now: at(day, time) }), ZONE);

  it("goes once to those whose bike is brought tomorrow, with its time, where the shop wants it", async () => {
    const job = await oneJob(a, { email: "oda@example.test" });
    await book(
      a,
      await wanted(a, job.jobId, at("2026-11-30", "08:00"), { dropOffAt: at("2026-11-27", "16:00") }),
    );
    const theirs = await oneJob(b, { email: "per@example.test" });
    await book(b, await wanted(b, theirs.jobId, at("2026-11-27", "08:00")));
    expect(await round(a, "2026-11-26")).toBe(0);
    await on(a, "dayBefore");
    // It is brought on Friday, not on the Monday on which the work begins.
    expect(await round(a, "2026-11-25")).toBe(0);
    expect(await round(a, "2026-11-26")).toBe(1);
    expect(await round(a, "2026-11-26", "10:00")).toBe(0);
    expect(await round(a, "2026-11-29")).toBe(0);
    const [mail, ...more] = await written(a, "dayBefore");
    expect(more).toEqual([]);
    expect(mail).toMatchObject({ to: "oda@example.test", subject: expect.stringContaining("Friday") });
    expect(mail?.text).toContain("16:00");
    expect(await round(b, "2026-11-26")).toBe(0);
  });

  it("does not follow another letter of the same day, nor go for a bike that is here", async () => {
    await on(a, "dayBefore");
    const job = await oneJob(a, { email: "oda@example.test" });
    const id = await book(a, await wanted(a, job.jobId, at("2026-11-27", "08:00")));
    const today = as(a, { now: at("2026-11-26", "08:30") });
    await moveBooking(today, { id, version: 1, ...(await wanted(a, job.jobId, at("2026-11-27", "10:00"))) });
    expect(await round(a, "2026-11-26")).toBe(0);
    const here = await oneJob(a, { email: "eli@example.test" });
    await book(a, await wanted(a, here.jobId, at("2026-12-01", "08:00")));
    await a.write((tx) => tx.job.update({ where: { id: here.jobId }, data: { arrivedAt: a.now } }));
    expect(await round(a, "2026-11-30")).toBe(0);
    await a.write((tx) => tx.job.update({ where: { id: here.jobId }, data: { arrivedAt: null } }));
    expect(await round(a, "2026-11-30")).toBe(1);
  });
});

describe("the letter that asks how a bike runs", () => {
  it("goes once, so many days after the work was finished, and not long after, where the shop wants it", async () => {
    const { jobId } = await readyJob(a);
    await issuedInvoice(a, jobId);
    await issuedInvoice(b, (await readyJob(b)).jobId);
    expect(await howRunsRound(days(a, 15), ORIGIN)).toBe(0);
    await on(a, "howRuns", 14);
    expect(await howRunsRound(days(a, 13), ORIGIN)).toBe(0);
    expect(await howRunsRound(days(a, 29), ORIGIN)).toBe(0);
    expect(await howRunsRound(days(a, 14), ORIGIN)).toBe(1);
    expect(await howRunsRound(days(a, 15), ORIGIN)).toBe(0);
    const [mail] = await written(a, "howRuns");
    expect(mail).toMatchObject({
      noun: "job",
      nounId: jobId,
      subject: expect.stringContaining("Drover 580"),
    });
    expect(await written(b, "howRuns")).toEqual([]);
  });
});

describe("a round of letters", () => {
  it("is asked for only where a shop has switched such a letter on, and writes by day", async () => {
    expect(await wantsLetters(a)).toBe(false);
    await on(a, "paymentReminder");
    expect(await wantsLetters(a)).toBe(false);
    await on(a, "howRuns", 14);
    expect(await wantsLetters(a)).toBe(true);
    expect(await wantsLetters(b)).toBe(false);
    await issuedInvoice(a, (await readyJob(a)).jobId);
    const night = as(a, { now: at("2026-12-10", "22:00") });
    expect(await letterRound(night, ORIGIN)).toEqual({ dayBefore: 0, payments: 0, howRuns: 0 });
    const noon = as(a, { now: at("2026-12-10", "12:00") });
    expect(await letterRound(noon, ORIGIN)).toEqual({ dayBefore: 0, payments: 0, howRuns: 1 });
  });
});
