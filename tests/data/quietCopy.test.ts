import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { feedSince, makeFeed, makeShopFeed, shopFeedSince } from "@/lib/data/bookings/feed";
import { listMail } from "@/lib/data/mail/list";
import { hasMailDue, releaseAllHeld, releaseHeld } from "@/lib/data/mail/queue";
import { closeDirectory, directory } from "@/lib/db/directory";
import { dataFolder } from "@/lib/db/folders";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { wantsLetters } from "@/lib/server/letterRound";
import { bringIn } from "@/lib/server/moving/bringIn";
import { exportShop } from "@/lib/server/moving/exportShop";
import { importShop } from "@/lib/server/moving/importShop";
import { openArchive } from "@/lib/server/moving/zipIn";
import { twoWorkedShops, type WorkedShop } from "../support/workedShops";

let a: WorkedShop;
let b: WorkedShop;
let file: string;
let waiting: number;

/** All by which a shop speaks to people without being asked. */
async function speaks(shop: ShopHandle) {
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  return {
    mail: await hasMailDue(shop),
    waiting: await shop.read.mail.count({ where: { state: { in: ["waiting", "sending"] } } }),
    links: (await shop.read.customerLink.count({ where: { revokedAt: null } })) > 0,
    calendars: [await feedSince(shop), await shopFeedSince(shop)].filter((at) => at !== null).length,
    letters: await wantsLetters(shop),
    quotes: [settings.remindAfterDays, settings.remindBeforeDays],
  };
}

beforeAll(async () => {
  ({ a, b } = await twoWorkedShops());
  for (const shop of [a, b]) {
    await makeFeed(shop);
    await makeShopFeed(shop);
    await shop.write(async (tx) => {
      await tx.settings.updateMany({ data: { remindAfterDays: 5 } });
      for (const kind of ["dayBefore", "howRuns"])
        await tx.letter.create({ data: { kind, on: true, days: 3 } });
      await tx.reminderTerms.create({
        data: {
          id: 1,
          days1: 7,
          days2: 14,
          days3: 21,
          fee1Minor: 0,
          fee2Minor: 0,
          fee3Minor: 0,
          automatic1: true,
        },
      });
    });
  }
  ({ waiting } = await speaks(a));
  file = join(dataFolder(), "copied.zip");
  await exportShop(a, file, a.now);
});
afterAll(closeDirectory);

const LOUD = { mail: true, links: true, calendars: 2, letters: true, quotes: [5, null] };

describe("a shop that is opened from another one's file", () => {
  it("speaks to nobody, says why, and leaves the other shop as it was", async () => {
    expect(waiting).toBeGreaterThan(0);
    const made = await importShop(file, { slug: "copied", owner: a.ownerEmail }, a.now);
    expect(made.quiet).toMatchObject({ mails: waiting, calendars: 2, letters: true });
    const copy = handleFor(made, a.by, a.now);
    expect(await speaks(copy)).toEqual({
      mail: false,
      waiting: 0,
      links: false,
      calendars: 0,
      letters: false,
      quotes: [null, null],
    });
    const { held, rows } = await listMail(copy);
    expect(held).toBe(waiting);
    expect(rows.find((row) => row.state === "held")?.failure).toMatch(/copied from sends it/);
    expect(await copy.read.auditEntry.count({ where: { act: "was opened as a copy" } })).toBe(1);
    for (const shop of [a, b]) expect(await speaks(shop)).toMatchObject(LOUD);
  });

  it("lets a mail go that its owner lets go, then all, each once", async () => {
    const { database, slug } = await directory().read.shop.findUniqueOrThrow({ where: { slug: "copied" } });
    const copy = handleFor({ database, slug, server: "" }, a.by, a.now);
    const { id } = await copy.read.mail.findFirstOrThrow({ where: { state: "held" } });
    await releaseHeld(copy, id);
    expect(await hasMailDue(copy)).toBe(true);
    await expect(releaseHeld(copy, id)).rejects.toThrow(/not held back any more/);
    expect([await releaseAllHeld(copy), await releaseAllHeld(copy)]).toEqual([waiting - 1, 0]);
    expect((await speaks(copy)).waiting).toBe(waiting);
    expect(await releaseAllHeld(b)).toBe(0);
  });

  it("speaks on where the same shop moved", async () => {
    const archive = await openArchive(file);
    const { shop } = await bringIn(archive, { slug: a.slug, database: "moved_in", server: "" }, a.now);
    archive.close();
    expect(await speaks({ ...shop, by: a.by })).toEqual({ ...LOUD, waiting });
  });
});
