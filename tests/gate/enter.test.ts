import { encode } from "next-auth/jwt";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { createShop } from "@/lib/data/people/createShop";
import { beginSession } from "@/lib/data/people/sessions";
import { askOwnersForFactor } from "@/lib/data/people/shops";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { enter } from "@/lib/gate/open";
import { twoShops } from "../support/shops";

let cookie: string | undefined;
vi.mock("next/headers", () => ({
  headers: async () => new Headers({ "x-client-address": "198.51.100.7" }),
  cookies: async () => ({ get: () => (cookie ? { value: cookie } : undefined), set: () => undefined }),
}));

const NOW = new Date();
const SECRET = "a secret of tests, longer than thirty-two letters";
let a: ShopHandle;
let b: ShopHandle;
let desk = "";

async function person(name: string, email: string): Promise<string> {
  return createPerson({ name, email, password: "float and needle, seated" }, NOW);
}

async function open(name: string, ownerId: string): Promise<ShopHandle> {
  const by = { personId: ownerId, name: "Owner", role: "owner" as const, staffId: null };
  const prepare = (place: ShopPlace) => prepareShop(handleFor(place, by, NOW), { name, country: "AU" });
  return handleFor(await createShop({ name, owner: { id: ownerId }, prepare }, NOW), by, NOW);
}

async function signInAs(personId: string): Promise<void> {
  const place = { agent: "", address: "198.51.100.7", newDevice: false };
  const sid = await beginSession({ id: personId, email: "x@saltpan.example" }, place, NOW, 7);
  cookie = await encode({ token: { sub: personId, sid, version: 1 }, secret: SECRET, maxAge: 3600 });
}

beforeAll(async () => {
  reconfigure({ NEXTAUTH_SECRET: SECRET });
  await twoShops(NOW);
  await migrateAll();
  const owner = await person("Owner", "owner@saltpan.example");
  a = await open("Saltpan Carburettor Works", owner);
  b = await open("Fjellrev Motor", owner);
  desk = await person("Petra Voss", "petra@saltpan.example");
  const { id: shopId } = await directory().read.shop.findUniqueOrThrow({ where: { slug: a.slug } });
  await directory().write((tx) =>
    tx.membership.create({ data: { personId: desk, shopId, role: "desk", createdAt: NOW } }),
  );
});
afterAll(closeDirectory);

describe("entering a shop", () => {
  it("makes up for a joining that was stopped before the shop's own row for the person", async () => {
    expect(await a.read.staff.findUnique({ where: { personId: desk } })).toBeNull();
    await signInAs(desk);
    const shop = await enter(a.slug);
    const row = await a.read.staff.findUniqueOrThrow({ where: { personId: desk } });
    expect(typeof shop === "string" ? shop : shop.by.staffId).toBe(row.id);
    expect([row.name, row.role]).toEqual(["Petra Voss", "desk"]);
    expect(await enter(b.slug)).toBe("missing");
    expect(await b.read.staff.findUnique({ where: { personId: desk } })).toBeNull();
  });

  it("waits for an owner's second factor where the shop asks for it: not for other roles, not in other shops", async () => {
    const owner = a.by.personId;
    const factor = { personId: owner, secret: "sealed", since: NOW };
    await directory().write((tx) => tx.secondFactor.create({ data: factor }));
    await askOwnersForFactor(a, true);
    await signInAs(owner);
    expect(typeof (await enter(a.slug))).toBe("object");
    await directory().write((tx) => tx.secondFactor.deleteMany({ where: { personId: owner } }));
    expect(await enter(a.slug)).toBe("no second factor");
    // Offered, and no code shown yet: it does not count.
    await directory().write((tx) => tx.secondFactor.create({ data: { personId: owner, offered: "sealed" } }));
    expect(await enter(a.slug)).toBe("no second factor");
    expect(typeof (await enter(b.slug))).toBe("object");
    await signInAs(desk);
    expect(typeof (await enter(a.slug))).toBe("object");
  });
});
