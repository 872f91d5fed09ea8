import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { openShopFor } from "@/lib/gate/openShop";
import { twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const onDay = (day: number) => new Date(NOW.getTime() + day * 86_400_000 + day);
const PASSWORD = "float and needle, seated";
let one = "";
let two = "";
const open = (id: string, name: string, at: Date) =>
  openShopFor({ id, name: "Owner" }, name, at, (shop) => prepareShop(shop, { name, country: "AU" }));

beforeAll(async () => {
  await twoShops(NOW);
  await migrateAll();
  one = await createPerson({ name: "One", email: "one@saltpan.example", password: PASSWORD }, NOW);
  two = await createPerson({ name: "Two", email: "two@fjellrev.example", password: PASSWORD }, NOW);
});
afterAll(closeDirectory);

describe("opening shops", () => {
  it("is limited by person and day, at once too, and another person is not held up", async () => {
    const opened = await Promise.allSettled(Array.from({ length: 6 }, (_, n) => open(one, `Shop ${n}`, NOW)));
    expect(opened.filter((each) => each.status === "fulfilled")).toHaveLength(3);
    await expect(open(one, "One more", NOW)).rejects.toMatchObject({ kind: "tooOften" });
    await open(two, "Fjellrev Motor", NOW);
    await open(one, "The next day", onDay(1));
  });

  it("is limited by person at all: more wants a word of the server's owner", async () => {
    reconfigure({ SHOPS_PER_PERSON: "5" });
    await open(one, "The fifth", onDay(2));
    await expect(open(one, "The sixth", onDay(3))).rejects.toThrow(/5 shops, as many as one person may/);
    // Handing a shop to somebody else makes no room: who opened it counts.
    await directory().write((tx) => tx.membership.deleteMany({ where: { personId: one } }));
    await expect(open(one, "The sixth", onDay(4))).rejects.toMatchObject({
      remedy: expect.stringContaining("SHOPS_PER_PERSON"),
    });
    reconfigure({ SHOPS_PER_PERSON: "6" });
    await open(one, "The sixth", onDay(5));
    reconfigure({ SHOPS_PER_PERSON: undefined });
  });
});
