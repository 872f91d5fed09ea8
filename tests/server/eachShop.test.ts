import { type ChildProcess, spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { closeDirectory, directory } from "@/lib/db/directory";
import { closeShops, isShopOpen, type ShopHandle, shopFile } from "@/lib/db/shop";
import { inTurn } from "@/lib/db/turns";
import { eachShop, type ShopWork } from "@/lib/server/eachShop";
import { nodeArgs } from "../support/compiled";
import { putInDirectory } from "../support/directoryShops";
import { twoShops } from "../support/shops";

const onFiles = !process.env.DATABASE_URL;
const NOW = new Date("2026-11-25T00:30:00Z");
const clock = () => NOW;
let shops: ShopHandle[];

beforeAll(async () => {
  const [one, two] = [await twoShops(), await twoShops()];
  shops = [one.a, one.b, two.a, two.b];
  await putInDirectory(shops);
});
afterAll(closeDirectory);

/** A work that notes where it was. */
function noting(more: Partial<ShopWork<string>> = {}) {
  const seen: string[] = [];
  const work: ShopWork<string> = {
    name: "noting",
    wanted: async () => true,
    next: async ({ now }) => now,
    run: async (shop) => {
      seen.push(shop.slug);
      return shop.slug;
    },
    ...more,
  };
  return { seen, work };
}
const slugs = () => shops.map(({ slug }) => slug).sort();

describe("a round through the shops", () => {
  it("walks the directory, whether a shop is open or not, and leaves open what it found open", async () => {
    await closeShops();
    const [kept] = shops as [ShopHandle];
    const { shopStore } = await import("@/lib/db/shop");
    await shopStore(kept).read.counter.findMany({ orderBy: { name: "asc" } });
    const { work } = noting();
    expect(await eachShop(work, clock)).toEqual({ shops: 4, failed: 0, done: slugs() });
    expect(shops.map(({ database }) => isShopOpen(database))).toEqual([true, false, false, false]);
  });

  it("passes over closed shops and those without anything to do", async () => {
    const [gone, idle] = shops as [ShopHandle, ShopHandle];
    const closedAt = (at: Date | null) =>
      directory().write((tx) => tx.shop.update({ where: { id: gone.slug }, data: { closedAt: at } }));
    await closedAt(NOW);
    const { seen, work } = noting({ wanted: async (shop) => shop.slug !== idle.slug });
    expect(await eachShop(work, clock)).toMatchObject({ shops: 3, failed: 0 });
    expect(seen).toEqual(slugs().filter((slug) => slug !== gone.slug && slug !== idle.slug));
    await closedAt(null);
  });

  it("goes on after a shop that fails, and after one whose database cannot be opened", async () => {
    const [bad] = shops as [ShopHandle];
    const { seen, work } = noting({
      run: async (shop) => {
        if (shop.slug === bad.slug) throw new Error("broken");
        await shop.read.settings.count();
        seen.push(shop.slug);
        return shop.slug;
      },
    });
    expect(await eachShop(work, clock)).toMatchObject({ shops: 4, failed: 1 });
    if (onFiles) {
      const broken = { slug: "broken", database: "broken" };
      await putInDirectory([broken]);
      writeFileSync(shopFile("broken"), "This is no database, however long one makes it.".repeat(200));
      expect(await eachShop(work, clock)).toMatchObject({ shops: 5, failed: 2 });
      await directory().write((tx) => tx.shop.delete({ where: { id: "broken" } }));
    }
    const fine = slugs().filter((slug) => slug !== bad.slug);
    expect(seen).toEqual(onFiles ? [...fine, ...fine] : fine);
    expect(await directory().read.turn.count()).toBe(0);
  });

  it("is one at a time in a process", async () => {
    const { seen, work } = noting();
    const [one, other] = await Promise.all([eachShop(work, clock), eachShop(work, clock)]);
    expect([one === null, other === null].sort()).toEqual([false, true]);
    expect(seen).toEqual(slugs());
  });

  it("passes over a shop that another process is at, until that one's turn is over or its process is long gone", async () => {
    const [busy] = shops as [ShopHandle];
    const { seen, work } = noting();
    await inTurn(busy.slug, "noting", NOW, async () => {
      await eachShop(work, clock);
    });
    expect(seen).toEqual(slugs().filter((slug) => slug !== busy.slug));
    await eachShop(work, clock);
    expect(seen).toContain(busy.slug);
    const until = new Date(NOW.getTime() + 60_000);
    await directory().write((tx) =>
      tx.turn.create({ data: { shopId: busy.slug, work: "noting", holder: "killed", until } }),
    );
    seen.length = 0;
    await eachShop(work, clock);
    expect(seen).not.toContain(busy.slug);
    await eachShop(work, () => new Date(until.getTime() + 1));
    expect(seen.filter((slug) => slug === busy.slug)).toHaveLength(1);
  });

  it("is in a shop once at a time with several processes at it, and nobody is left out", async () => {
    const starts = await Promise.all([atStart(), atStart(), atStart()]);
    const visits = (await Promise.all(starts.map((go) => go()))).flat();
    expect([...new Set(visits.map(({ shop }) => shop))].sort()).toEqual(slugs());
    const overlaps = visits.filter((one) =>
      visits.some(
        (other) => other !== one && other.shop === one.shop && other.from < one.to && one.from < other.to,
      ),
    );
    expect(overlaps).toEqual([]);
  });
});

interface Visit {
  readonly shop: string;
  readonly from: number;
  readonly to: number;
}

/** A process of its own at the start line of its rounds. */
async function atStart(): Promise<() => Promise<Visit[]>> {
  const child: ChildProcess = spawn(process.execPath, [...nodeArgs("tests/support/roundsAtOnce.ts"), "6"], {
    env: process.env,
    stdio: ["pipe", "pipe", "inherit"],
  });
  let said = "";
  const ended = new Promise<void>((done) => child.on("close", () => done()));
  await new Promise<void>((there, failed) => {
    child.stdout?.on("data", (chunk) => {
      said += chunk;
      if (said.includes("ready")) there();
    });
    child.on("close", () => failed(new Error("It ended early.")));
  });
  return async () => {
    child.stdin?.write("go\n");
    await ended;
    return said
      .split("\n")
      .filter((line) => line.startsWith('{"shop"'))
      .map((line) => JSON.parse(line) as Visit);
  };
}
