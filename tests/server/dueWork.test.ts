import { renameSync, writeFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { book } from "@/lib/data/bookings/book";
import { saveReminderTerms } from "@/lib/data/chasing/terms";
import { switchLetter } from "@/lib/data/mail/letterTexts";
import { hasMailDue, mailQueueOf, nextMail } from "@/lib/data/mail/queue";
import { CHECKS } from "@/lib/data/packages/checked";
import { changeRole } from "@/lib/data/people/members";
import { quoteRound } from "@/lib/data/quotes/rounds";
import { noteChange, tellChanges } from "@/lib/db/changes";
import { closeDirectory, directory } from "@/lib/db/directory";
import { earliest } from "@/lib/db/due";
import { checkShops } from "@/lib/db/migrate";
import { closeShops, type ShopHandle, shopFile } from "@/lib/db/shop";
import { handleFor, roundHandle, SYSTEM } from "@/lib/gate/handle";
import { eachShop, type ShopWork } from "@/lib/server/eachShop";
import { letterRound } from "@/lib/server/letterRound";
import { lookAgain } from "@/lib/server/lookAgain";
import { KEYS, LETTERS, PACKAGES, PHOTOS, QUOTES, SEARCH, STAFF } from "@/lib/server/work";
import { putInDirectory } from "../support/directoryShops";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { oneJob } from "../support/oneJob";
import { ORIGIN, readyToQuote, sentQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const later = (ms: number) => new Date(NOW.getTime() + ms);
const onFiles = !process.env.DATABASE_URL;

/** A work like sending: what waits is taken and noted, with when. */
const posted: string[] = [];
const posting: ShopWork<number> = {
  name: "posting",
  inSamples: false,
  wanted: hasMailDue,
  run: async (shop) => {
    const queue = mailQueueOf(shop);
    let count = 0;
    for (let mail = await queue.take(); mail; mail = await queue.take(), count++) {
      posted.push(`${shop.slug} ${mail.subject}`);
      await queue.sent(mail);
    }
    return count;
  },
  next: nextMail,
};
const queueMail = (shop: ShopHandle, subject: string) =>
  shop.write((tx) =>
    tx.mail.create({ data: { to: "oda@example.test", subject, text: "", createdAt: shop.now } }),
  );

let a: ShopHandle;
let b: ShopHandle;
let often: ShopHandle;
let seldom: ShopHandle;

/** One that has something of every kind before it: a quote out, a booking, an invoice to be paid, work to be asked about. */
async function busy(shop: ShopHandle): Promise<ShopHandle> {
  await nameShop(shop);
  await shop.write((tx) =>
    tx.settings.update({ where: { id: 1 }, data: { name: "Orme Tuning", remindAfterDays: 5 } }),
  );
  for (const [kind, days] of [
    ["dayBefore", null],
    ["howRuns", 14],
  ] as const)
    await switchLetter(shop, { kind, on: true, days, version: 0 });
  const levels = ([1, 2, 3] as const).map((level) => ({
    level,
    days: [3, 9, 15][level - 1] ?? null,
    feeMinor: 0,
    automatic: true,
  }));
  await saveReminderTerms(shop, { levels, feeTaxMark: "", version: 0 });
  const ready = await readyToQuote(shop);
  await sentQuote(shop, ready);
  const job = await readyJob(shop, ready);
  await issuedInvoice(shop, job.jobId);
  const booked = await oneJob(shop, { email: "oda@example.test", number: 900 });
  await shop.write((tx) => tx.packageRevision.updateMany({ data: { checkedBy: CHECKS } }));
  await book(shop, {
    jobId: booked.jobId,
    bayId: (await shop.read.bay.findFirstOrThrow()).id,
    staffId: (await shop.read.staff.findFirstOrThrow()).id,
    startsAt: later(8 * DAY),
  });
  return shop;
}

beforeAll(async () => {
  const [one, two] = [await twoShops(NOW), await twoShops(NOW)];
  ({ a, b } = one);
  often = await busy(two.a);
  seldom = await busy((await twoShops(NOW)).a);
  await putInDirectory([a, b, seldom]);
  await tellChanges();
});
afterAll(closeDirectory);

const round = <T>(work: ShopWork<T>, now: Date) => eachShop(work, () => now);
const everything = async (now: Date) => {
  let shops = 0;
  for (const work of [QUOTES, LETTERS, PACKAGES, PHOTOS, STAFF, KEYS, SEARCH, posting])
    shops += (await round<unknown>(work, now))?.shops ?? 0;
  return shops;
};

describe("work that is due", () => {
  it("is looked for once in a shop that nobody has looked at, and then no more: no file is opened", async () => {
    expect(await everything(NOW)).toBe(3 * 8);
    await closeShops();
    const away = [a, b].map(({ database }) => shopFile(database));
    if (onFiles) for (const file of away) renameSync(file, `${file}-away`);
    const idle = (await directory().read.dueWork.findMany({
      where: { shop: { database: { in: [a.database, b.database] } }, NOT: { work: "keys" } },
      orderBy: { work: "asc" },
    })) as { dueAt: Date | null }[];
    expect(idle.filter(({ dueAt }) => dueAt !== null)).toEqual([]);
    expect(await everything(NOW)).toBe(0);
    if (onFiles) for (const file of away) renameSync(`${file}-away`, file);
  });

  it("is done at its date, as rounds through every hour would do it, by far fewer looks", async () => {
    const letters = (shop: ShopHandle) =>
      shop.read.mail.findMany({
        where: { letter: { not: "" }, createdAt: { gt: NOW } },
        select: { letter: true, subject: true, createdAt: true },
        orderBy: { id: "asc" },
      });
    let looks = 0;
    let rounds = 0;
    for (let at = HOUR; at < 34 * DAY; at += 6 * HOUR) {
      const now = later(at);
      rounds += 2;
      await quoteRound(as(often, { now }), ORIGIN);
      await letterRound(as(often, { now }), ORIGIN);
      for (const work of [QUOTES, LETTERS]) looks += (await round<unknown>(work, now))?.shops ?? 0;
    }
    const written = await letters(seldom);
    expect(written).toEqual(await letters(often));
    expect([...new Set(written.map(({ letter }) => letter))].sort()).toEqual([
      "dayBefore",
      "howRuns",
      "paymentReminder",
      "paymentReminder2",
      "paymentReminder3",
      "reminder",
    ]);
    for (const shop of [often, seldom])
      expect(await shop.read.quote.count({ where: { state: "expired" } })).toBe(1);
    expect(looks).toBeLessThan(rounds / 6);
  });

  it("comes up with a change: at once what may be urgent, a day later what sweeps, and in that shop alone", async () => {
    const now = later(60 * DAY);
    await everything(now);
    posted.length = 0;
    await queueMail(as(handleFor(a, a.by, now), { now }), "A change");
    await tellChanges();
    expect(await round(QUOTES, now)).toMatchObject({ shops: 1 });
    expect(await round(posting, now)).toMatchObject({ shops: 1, done: [1] });
    expect(posted).toEqual([`${a.slug} A change`]);
    expect(await round(SEARCH, now)).toMatchObject({ shops: 0 });
    expect(await round(SEARCH, new Date(now.getTime() + DAY))).toMatchObject({ shops: 1 });
    expect(await round(posting, now)).toMatchObject({ shops: 0 });
  });

  it("is not put off by a look that a change came after", async () => {
    const now = later(61 * DAY);
    await everything(now);
    const changed = { database: a.database, at: now };
    noteChange(changed.database, changed.at);
    await tellChanges();
    const late: ShopWork<number> = {
      ...posting,
      // It has looked already when somebody writes and the directory is told.
      next: async (shop) => {
        const found = await nextMail(shop);
        await queueMail(as(handleFor(a, a.by, now), { now }), "Just after");
        await tellChanges();
        return found;
      },
    };
    posted.length = 0;
    expect(await round(late, now)).toMatchObject({ shops: 1, done: [] });
    expect(await round(posting, now)).toMatchObject({ shops: 1, done: [1] });
    expect(posted).toEqual([`${a.slug} Just after`]);
  });

  it("is found by the daily look where a stop came between the commit and the directory being told", async () => {
    const now = later(70 * DAY);
    const works = [QUOTES, posting] as const;
    expect(await lookAgain(works, () => now, 10)).toBe(3);
    // This handle tells nobody: as if the process had been killed before it could.
    await queueMail(roundHandle(b, SYSTEM, now), "Told to nobody");
    posted.length = 0;
    const minuteBefore = new Date(now.getTime() + DAY - 60_000);
    await round(posting, minuteBefore);
    expect(await lookAgain(works, () => minuteBefore, 10)).toBe(0);
    expect(posted).toEqual([]);
    const next = new Date(now.getTime() + DAY);
    expect([
      await lookAgain(works, () => next, 2),
      await lookAgain(works, () => next, 2),
      await lookAgain(works, () => next, 2),
    ]).toEqual([2, 1, 0]);
    expect(posted).toEqual([`${b.slug} Told to nobody`]);
  });

  it.runIf(onFiles)(
    "is found by the next start in a shop that was open when the process was killed",
    async () => {
      const now = later(75 * DAY);
      await everything(now);
      await queueMail(roundHandle(b, SYSTEM, now), "Queued as it was killed");
      await closeShops();
      posted.length = 0;
      expect(await round(posting, now)).toMatchObject({ shops: 0 });
      // What a killed process leaves beside a file that it had open.
      writeFileSync(`${shopFile(b.database)}-wal`, "");
      await checkShops();
      await tellChanges();
      expect(await round(posting, now)).toMatchObject({ done: [1] });
      expect(posted).toEqual([`${b.slug} Queued as it was killed`]);
    },
  );

  it("looks at a shop anew in an hour where the daily look failed, and at the others at their time", async () => {
    const now = later(80 * DAY);
    const failing: ShopWork<number> = {
      ...posting,
      wanted: async (shop) => {
        if (shop.slug === a.slug) throw new Error("broken");
        return false;
      },
    };
    expect(await lookAgain([failing], () => now, 10)).toBe(3);
    expect(await lookAgain([posting], () => new Date(now.getTime() + HOUR - 1), 10)).toBe(0);
    expect(await lookAgain([posting], () => new Date(now.getTime() + HOUR), 10)).toBe(1);
  });

  it("is looked for in every shop anew once the work comes to other answers", async () => {
    const now = later(90 * DAY);
    await round(posting, now);
    expect(await round(posting, now)).toMatchObject({ shops: 0 });
    expect(await round({ ...posting, basis: 2 }, now)).toMatchObject({ shops: 3 });
    expect(await round({ ...posting, basis: 2 }, now)).toMatchObject({ shops: 0 });
  });

  it("comes up with the directory's own change of a shop's people, in the same commit", async () => {
    const now = later(91 * DAY);
    await everything(now);
    const person = { id: "ada", email: "ada@example.test", name: "Ada", passwordHash: "", createdAt: NOW };
    await directory().write(async (tx) => {
      await tx.person.create({ data: person });
      await tx.person.create({ data: { ...person, id: "bo", email: "bo@example.test" } });
      for (const personId of ["ada", "bo"])
        await tx.membership.create({ data: { personId, shopId: a.slug, role: "owner", createdAt: NOW } });
    });
    await changeRole(roundHandle(a, a.by, now), { personId: "bo", role: "tuner" }, async () => {});
    expect(await round(STAFF, now)).toMatchObject({ shops: 1 });
    expect(await round(STAFF, now)).toMatchObject({ shops: 0 });
  });
});

describe("the earliest of some dates", () => {
  it("is the first that is one; never where none is", () => {
    expect(earliest([null, later(5), later(3), null])).toEqual(later(3));
    expect(earliest([null, null])).toBeNull();
    expect(earliest([])).toBeNull();
  });
});
