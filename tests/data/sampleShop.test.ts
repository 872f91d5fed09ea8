import { existsSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { openSample } from "@/demo/sample";
import { problemsOf } from "@/lib/data/books/invariants";
import { createShop } from "@/lib/data/people/createShop";
import {
  askForSample,
  noteSampleFailed,
  removeSample,
  sampleOf,
  takeSampleToMake,
} from "@/lib/data/people/sampleShop";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { shopFile } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { eachShop } from "@/lib/server/eachShop";
import { twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const later = (minutes: number) => new Date(NOW.getTime() + minutes * 60_000);
let [ada, bo] = ["", ""];

beforeAll(async () => {
  await twoShops();
  await migrateAll();
  ada = await createPerson(
    { email: "ada@example.org", name: "Ada Quill", password: "three drawers of jets" },
    NOW,
  );
  bo = await createPerson(
    { email: "bo@example.org", name: "Bo Reyes", password: "three drawers of jets" },
    NOW,
  );
}, 60_000);

const shopsOf = (personId: string) =>
  directory().read.shop.findMany({
    where: { memberships: { some: { personId } } },
    select: { id: true, slug: true, database: true, sample: true, name: true },
    orderBy: { createdAt: "asc" },
  });

describe("a sample shop", () => {
  it("is asked for once, made by one, and tried again where that failed or was cut off", async () => {
    expect(await sampleOf(ada)).toEqual({ state: "none" });
    await askForSample(ada, NOW);
    await askForSample(ada, later(1));
    expect(await directory().read.sampleShop.count()).toBe(1);
    expect(await sampleOf(ada)).toEqual({ state: "waiting" });
    expect(await takeSampleToMake("one", later(1))).toBe(ada);
    expect(await takeSampleToMake("two", later(2))).toBeNull();
    await expect(removeSample(ada, later(2))).rejects.toThrow("just being made");
    expect(await takeSampleToMake("two", later(20))).toBe(ada);
    await noteSampleFailed(ada, "It could not be made.");
    expect(await sampleOf(ada)).toMatchObject({ state: "failed" });
    await askForSample(ada, later(30));
    expect(await sampleOf(ada)).toEqual({ state: "waiting" });
    expect(await sampleOf(bo)).toEqual({ state: "none" });
  });

  it("nobody asked for is not opened", async () => {
    await expect(
      createShop({ name: "Sample", owner: { id: bo }, sample: true, prepare: async () => undefined }, NOW),
    ).rejects.toThrow("Nobody waits");
    expect(await shopsOf(bo)).toEqual([]);
  });

  it("holds a week of work whose books add up, is its owner's alone, and goes in one act; a real shop stays", {
    timeout: 180_000,
  }, async () => {
    const real = await createShop(
      {
        name: "Ada's own",
        owner: { id: ada },
        prepare: (place) => {
          const by = { personId: ada, name: "Ada Quill", role: "owner" as const, staffId: null };
          return prepareShop(handleFor({ ...place, slug: "own" }, by, NOW), {
            name: "Ada's own",
            country: "NO",
          });
        },
      },
      NOW,
    );
    await takeSampleToMake("one", later(60));
    const made = await openSample(ada, NOW);
    expect(await sampleOf(ada)).toMatchObject({ state: "made", slug: made.slug });
    expect((await shopsOf(ada)).map((shop) => shop.sample)).toEqual([false, true]);
    const by = { personId: ada, name: "Ada Quill", role: "owner" as const, staffId: null };
    const shop = handleFor(made, by, NOW);
    expect(await problemsOf(shop)).toEqual([]);
    const counts = [shop.read.customer, shop.read.job, shop.read.quote, shop.read.package, shop.read.booking];
    for (const noun of counts) expect(await (noun.count as () => Promise<number>)()).toBeGreaterThan(2);
    const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    expect(settings.name).toContain("Sample shop");

    // No mail leaves it: the round that sends passes it over.
    const seen: string[] = [];
    const work = {
      name: "tried",
      wanted: async (one: { slug: string }) => seen.push(one.slug) < 0,
      run: async () => 0,
      next: async () => NOW,
    };
    await eachShop({ ...work, inSamples: false }, () => NOW);
    expect(seen).toContain(real.slug);
    expect(seen).not.toContain(made.slug);
    await eachShop(work, () => NOW);
    expect(seen).toContain(made.slug);

    await askForSample(ada, NOW);
    expect((await shopsOf(ada)).length).toBe(2);
    await removeSample(bo, NOW);
    expect((await shopsOf(ada)).length).toBe(2);
    await removeSample(ada, NOW);
    expect((await shopsOf(ada)).map((one) => one.id)).toEqual([real.id]);
    expect(await sampleOf(ada)).toEqual({ state: "none" });
    expect(await directory().read.shopInMaking.count()).toBe(0);
    if (!postgresUrl()) {
      expect(existsSync(shopFile(made.database))).toBe(false);
      expect(existsSync(shopFile(real.database))).toBe(true);
    }
  });
});
