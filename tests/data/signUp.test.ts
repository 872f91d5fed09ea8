import { readdirSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { createShop, sweepUnfinished } from "@/lib/data/people/createShop";
import { authenticate } from "@/lib/data/people/sessions";
import { shopsOf } from "@/lib/data/people/shops";
import { readyPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { directory } from "@/lib/db/directory";
import { dataFolder, postgresUrl } from "@/lib/db/folders";
import * as migrate from "@/lib/db/migrate";
import { inPostgres } from "@/lib/db/postgres";
import { handleFor } from "@/lib/gate/handle";
import { openShopFor, signUpWithShop } from "@/lib/gate/openShop";
import { twoShops } from "../support/shops";
import { workThenKill } from "../support/workThenKill";

const NOW = new Date("2026-11-25T00:30:00Z");
const PASSWORD = "float and needle, seated";

vi.mock("@/lib/db/migrate", async (original) => {
  const real = await original<typeof migrate>();
  return { ...real, createShopDatabase: vi.fn(real.createShopDatabase) };
});

beforeAll(async () => {
  await twoShops(NOW);
  await migrate.migrateAll();
});
afterEach(() => vi.restoreAllMocks());

/** Databases of shops that lie there: files, or schemas on PostgreSQL. */
async function databases(): Promise<string[]> {
  const ours = /^shop_[0-9a-f]{16}/;
  const url = postgresUrl();
  if (!url)
    return readdirSync(join(dataFolder(), "shops"))
      .filter((name) => ours.test(name))
      .map(plain);
  const { rows } = await inPostgres(url, (client) =>
    client.query<{ name: string }>("SELECT schema_name AS name FROM information_schema.schemata"),
  );
  return rows.map((row) => row.name).filter((name) => ours.test(name));
}
const plain = (file: string) => file.replace(/\.sqlite.*$/, "");

const filled = (shop: Parameters<typeof prepareShop>[0]) =>
  prepareShop(shop, { name: "Saltpan Carburettor Works", country: "AU" });

async function signUp(
  email: string,
  prepare = filled as (shop: Parameters<typeof prepareShop>[0]) => Promise<unknown>,
) {
  const person = await readyPerson({ name: "Maren Tolliver", email, password: PASSWORD });
  return signUpWithShop(person, "Saltpan Carburettor Works", NOW, prepare);
}

/** No person without a shop that opens, no shop without its settings and owner, no database of nobody's. */
async function demandNothingHalf(): Promise<void> {
  const { read } = directory();
  const shops = await read.shop.findMany({
    include: { memberships: { include: { person: true } } },
    orderBy: { id: "asc" },
  });
  for (const shop of shops) {
    const owner = shop.memberships.find((one) => one.role === "owner");
    expect(owner, shop.slug).toBeDefined();
    const by = { personId: owner?.personId ?? "", name: "", role: "owner" as const, staffId: null };
    const handle = handleFor(shop, by, NOW);
    expect(await handle.read.settings.findUnique({ where: { id: 1 } }), shop.slug).not.toBeNull();
    expect(
      await handle.read.staff.findUnique({ where: { personId: by.personId } }),
      shop.slug,
    ).not.toBeNull();
  }
  const owners = new Set(shops.flatMap((shop) => shop.memberships.map((one) => one.personId)));
  for (const person of await read.person.findMany({ orderBy: { id: "asc" } }))
    expect(owners.has(person.id), person.email).toBe(true);
  const known = new Set(shops.map((shop) => shop.database));
  for (const { database } of await read.shopInMaking.findMany({ orderBy: { database: "asc" } }))
    known.add(database);
  expect((await databases()).filter((name) => !known.has(name))).toEqual([]);
}

describe("signing up with a shop", () => {
  it("fails as a whole where the database cannot be made, filled or entered, and can be done again", async () => {
    const { createShopDatabase } = migrate;
    const real = vi.mocked(createShopDatabase).getMockImplementation();
    const { write } = directory();
    const steps: Record<string, () => Promise<unknown>> = {
      "before the database": () => {
        vi.mocked(createShopDatabase).mockImplementationOnce(async () => {
          throw new Error("stopped");
        });
        return signUp("again@saltpan.example");
      },
      "after the database": () => {
        vi.mocked(createShopDatabase).mockImplementationOnce(async (place) => {
          await real?.(place);
          throw new Error("stopped");
        });
        return signUp("again@saltpan.example");
      },
      "before it is filled": () =>
        signUp("again@saltpan.example", () => Promise.reject(new Error("stopped"))),
      "after it is filled": () =>
        signUp("again@saltpan.example", async (shop) => {
          await filled(shop);
          throw new Error("stopped");
        }),
      "before it enters the directory": () =>
        signUp("again@saltpan.example", async (shop) => {
          await filled(shop);
          vi.spyOn(directory(), "write").mockRejectedValueOnce(new Error("stopped"));
        }),
      "in the middle of entering it": () =>
        signUp("again@saltpan.example", async (shop) => {
          await filled(shop);
          vi.spyOn(directory(), "write").mockImplementationOnce((run) =>
            write(async (tx) => {
              await run(tx);
              throw new Error("stopped");
            }),
          );
        }),
    };
    for (const [where, stopped] of Object.entries(steps)) {
      const before = (await databases()).length;
      await expect(stopped(), where).rejects.toThrow("stopped");
      expect(await databases(), where).toHaveLength(before);
      expect(await directory().read.shopInMaking.count(), where).toBe(0);
      await demandNothingHalf();
    }
    const opened = await signUp("again@saltpan.example");
    const person = await authenticate("again@saltpan.example", PASSWORD, NOW);
    expect((await shopsOf(person.id)).map((shop) => shop.slug)).toEqual([opened.slug]);
    await demandNothingHalf();
  });

  it("is refused for a taken address without a database being made", async () => {
    const before = (await databases()).length;
    await expect(signUp("again@saltpan.example")).rejects.toThrow(/already/);
    expect(await databases()).toHaveLength(before);
  });

  it("lets one of two through that come at once for one address", async () => {
    const both = await Promise.allSettled([signUp("twice@saltpan.example"), signUp("twice@saltpan.example")]);
    expect(both.map((one) => one.status).sort()).toEqual(["fulfilled", "rejected"]);
    await demandNothingHalf();
  });

  it("gives no shop to a making that the sweep has cleared away as left behind", async () => {
    const late = new Date(NOW.getTime() + 2 * 3_600_000);
    const person = await authenticate("twice@saltpan.example", PASSWORD, NOW);
    const owner = { id: person.id, name: person.name };
    const prepare = async (shop: Parameters<typeof prepareShop>[0]) => {
      await filled(shop);
      expect(await sweepUnfinished(late)).toBe(1);
    };
    await expect(openShopFor(owner, "Too slow", NOW, prepare)).rejects.toThrow(/took too long/);
    await demandNothingHalf();
  });

  it("leaves alone what is being made now, and every shop there is", async () => {
    const before = await databases();
    await createShop(
      {
        name: "Fjellrev Motor",
        owner: await readyPerson({ name: "Sunniva Rauk", email: "s@fjellrev.example", password: PASSWORD }),
        prepare: async (place) => {
          expect(await sweepUnfinished(NOW)).toBe(0);
          const by = { personId: "s", name: "Sunniva Rauk", role: "owner" as const, staffId: null };
          await filled(handleFor(place, by, NOW));
        },
      },
      NOW,
    );
    await sweepUnfinished(new Date(NOW.getTime() + 86_400_000));
    expect((await databases()).length).toBeGreaterThan(before.length);
  });
});

const sweptAt = new Date(NOW.getTime() + 2 * 3_600_000);

describe("a server killed while people sign up", () => {
  for (const halt of ["unfilled", "filled"])
    it(`with a database that is ${halt}: the address is free, and the sweep clears the database away`, async () => {
      const run = `halted-${halt}`;
      await workThenKill("signUpUntilKilled.ts", [run, halt], { ms: 0, begun: '"halted"' });
      expect(await directory().read.shopInMaking.count()).toBe(1);
      const [left] = await directory().read.shopInMaking.findMany({ orderBy: { database: "asc" } });
      expect(await databases()).toContain(left?.database);
      const email = `${run}-1@saltpan.example`;
      expect(await directory().read.person.findUnique({ where: { email } })).toBeNull();
      // At once, beside what was left; and once more after the sweep has been there.
      await signUp(email);
      expect(await sweepUnfinished(sweptAt)).toBe(1);
      expect(await databases()).not.toContain(left?.database);
      await demandOpen(run);
    });

  for (const ms of [7, 61, 333])
    it(`leaves nothing half, and whoever was cut off signs up again (killed after ${ms} ms)`, async () => {
      const run = `killed-${ms}`;
      const how = { ms, begun: '"signedUp"' };
      const said = await workThenKill<{ signedUp?: string }>("signUpUntilKilled.ts", [run], how);
      await sweepUnfinished(sweptAt);
      expect(await directory().read.shopInMaking.count()).toBe(0);
      await demandOpen(run);
      const done = said.flatMap((line) => line.signedUp ?? []);
      for (const email of done) {
        const person = await authenticate(email, PASSWORD, NOW);
        expect(await shopsOf(person.id), email).toHaveLength(1);
      }
      // The one that was cut off had either come true as a whole or left the address free.
      const next = `${run}-${done.length}@saltpan.example`;
      const known = await directory().read.person.findUnique({ where: { email: next } });
      if (!known) await signUp(next);
      const person = await authenticate(next, PASSWORD, NOW);
      expect(await shopsOf(person.id)).toHaveLength(1);
    });
});

/** Everybody of one run has a shop that opens, and no database lies about. */
async function demandOpen(run: string): Promise<void> {
  const people = await directory().read.person.findMany({
    where: { email: { startsWith: run } },
    include: { memberships: { include: { shop: true } } },
    orderBy: { id: "asc" },
  });
  for (const person of people) {
    expect(person.memberships, person.email).toHaveLength(1);
    const shop = person.memberships[0]?.shop;
    if (!shop) continue;
    const by = { personId: person.id, name: person.name, role: "owner" as const, staffId: null };
    const { read } = handleFor(shop, by, NOW);
    expect(await read.settings.findUnique({ where: { id: 1 } })).not.toBeNull();
    expect(await read.staff.findUnique({ where: { personId: person.id } })).not.toBeNull();
  }
  const rows = await directory().read.shop.findMany({ select: { database: true }, orderBy: { id: "asc" } });
  const known = new Set(rows.map((row) => row.database));
  expect((await databases()).filter((name) => !known.has(name))).toEqual([]);
}
