import { existsSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createShop } from "@/lib/data/people/createShop";
import { askToEraseShop, erasureOf, takeBackErasure } from "@/lib/data/people/eraseShop";
import { askForExport } from "@/lib/data/people/exports";
import { addStaff, invite } from "@/lib/data/people/members";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory, directory } from "@/lib/db/directory";
import { filesFolder, postgresUrl } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { inPostgres } from "@/lib/db/postgres";
import type { ShopPlace } from "@/lib/db/servers";
import { type ShopHandle, shopFile } from "@/lib/db/shop";
import { hasTables } from "@/lib/db/shopFaults";
import { handleFor } from "@/lib/gate/handle";
import { folderStore } from "@/lib/outside/fileStore";
import { eraseRound } from "@/lib/server/moving/eraseRound";
import { runCommand } from "../support/commands";
import { allRows } from "../support/moved";
import { twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const DAY = 86_400_000;
const later = (days: number) => () => new Date(NOW.getTime() + days * DAY);

type Shop = ShopHandle & { shopId: string; name: string };

async function opened(name: string): Promise<Shop> {
  const owner = { id: `owner-of-${name}`, name: "Test Owner", role: "owner" as const };
  await directory().write((tx) =>
    tx.person.create({
      data: {
        id: owner.id,
        email: `${owner.id}@example.com`,
        name: owner.name,
        passwordHash: "-",
        createdAt: NOW,
      },
    }),
  );
  const by = { personId: owner.id, name: owner.name, role: owner.role, staffId: null };
  const handle = (made: ShopPlace) => handleFor(made, by, NOW);
  const made = await createShop(
    {
      name,
      owner,
      prepare: async (place) => {
        const shop = handle({ ...place, slug: name });
        await prepareShop(shop, { name, country: "AU" });
        await addStaff(shop, owner);
      },
    },
    NOW,
  );
  const shop = { ...handle(made), shopId: made.id, name };
  await invite(shop, { email: `new-at-${name}@example.com`, role: "desk" });
  await folderStore(shop.files).put(`${"a".repeat(32)}.jpg`, Buffer.from("picture"));
  await askForExport(shop, made.id);
  return shop;
}

async function isThere({ database, shopId }: Shop) {
  const url = postgresUrl();
  return {
    records: url
      ? await inPostgres(url, (client) => hasTables(client, database))
      : existsSync(shopFile(database)),
    pictures: existsSync(filesFolder(database)),
    shop: await directory().read.shop.count({ where: { id: shopId } }),
    members: await directory().read.membership.count({ where: { shopId } }),
    invitations: await directory().read.invitation.count({ where: { shopId } }),
    export: await directory().read.shopExport.count({ where: { shopId } }),
    erasure: await directory().read.shopErasure.count({ where: { shopId } }),
    making: await directory().read.shopInMaking.count({ where: { database } }),
  };
}

const THERE = {
  records: true,
  pictures: true,
  shop: 1,
  members: 1,
  invitations: 1,
  export: 1,
  erasure: 0,
  making: 0,
};
const GONE = {
  records: false,
  pictures: false,
  shop: 0,
  members: 0,
  invitations: 0,
  export: 0,
  erasure: 0,
  making: 0,
};

let one: Shop;
let other: Shop;

beforeAll(async () => {
  await twoShops();
  await migrateAll();
  one = await opened("kettle-works");
  other = await opened("lantern-works");
});
afterAll(closeDirectory);

describe("the erasure of a whole shop", () => {
  it("wants the name typed as it is, waits some days, and can be taken back meanwhile", async () => {
    await expect(askToEraseShop(one, "Kettle-Works")).rejects.toThrow(/not the name/);
    expect(await erasureOf(one.shopId)).toBeNull();
    await askToEraseShop(one, "kettle-works");
    await askToEraseShop({ ...one, now: later(3)() }, "kettle-works");
    expect(await erasureOf(one.shopId)).toEqual({ askedAt: NOW, dueAt: later(7)() });
    expect(await eraseRound(later(6.9))).toBe(0);
    await takeBackErasure(one, one.shopId);
    expect(await eraseRound(later(8))).toBe(0);
    expect(await isThere(one)).toEqual(THERE);
    await expect(takeBackErasure(one, one.shopId)).rejects.toThrow(/Nobody asked/);
  });

  it("then takes its records, pictures and place in the directory, and nothing of another shop", async () => {
    const before = await allRows(other.database);
    await askToEraseShop(one, one.name);
    expect(await eraseRound(later(7))).toBe(1);
    expect(await isThere(one)).toEqual(GONE);
    expect(await isThere(other)).toEqual(THERE);
    expect(await allRows(other.database)).toEqual(before);
    expect(await directory().read.person.count({ where: { id: one.by.personId } })).toBe(1);
    expect(await eraseRound(later(8))).toBe(0);
  });

  it("is done at once by the command, which wants the name too", async () => {
    const script = "lib/server/eraseShop.ts";
    const without = await runCommand(script, [other.slug]);
    expect(without).toMatchObject({ code: 1, text: expect.stringContaining('--name "lantern-works"') });
    expect(await isThere(other)).toEqual(THERE);
    expect(await runCommand(script, [other.slug, "--name", other.name])).toMatchObject({
      code: 0,
      text: expect.stringContaining("is erased"),
    });
    expect(await isThere(other)).toEqual(GONE);
  });
});
