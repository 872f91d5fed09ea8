import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { endWorkOfIn } from "@/lib/data/jobs/time/leave";
import { createShop } from "@/lib/data/people/createShop";
import { eventsOfPerson, eventsOfShop } from "@/lib/data/people/events";
import { addStaff, changeRole, invite, join, removeMember } from "@/lib/data/people/members";
import { endOtherSessions, endOwnSession, ownSessions } from "@/lib/data/people/ownSessions";
import { authenticate, beginSession } from "@/lib/data/people/sessions";
import { askOwnersForFactor, asksOwnersForFactor, shopsAskingFactor } from "@/lib/data/people/shops";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { as, twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const later = (minutes: number) => new Date(NOW.getTime() + minutes * 60_000);
const PASSWORD = "float and needle, seated";
const LINUX = "Mozilla/5.0 (X11; Linux x86_64; rv:150.0) Gecko/20100101 Firefox/150.0";
const PHONE =
  "Mozilla/5.0 (iPhone; CPU iPhone OS 26_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/26.0 Mobile/15E148 Safari/604.1";

let a: ShopHandle;
let b: ShopHandle;
let jory = "";

async function open(name: string, email: string): Promise<ShopHandle> {
  const id = await createPerson({ name: `Owner of ${name}`, email, password: PASSWORD }, NOW);
  const by = { personId: id, name: `Owner of ${name}`, role: "owner" as const, staffId: null };
  const prepare = (place: ShopPlace) => prepareShop(handleFor(place, by, NOW), { name, country: "AU" });
  return handleFor(await createShop({ name, owner: { id }, prepare }, NOW), by, NOW);
}

const signIn = (id: string, agent: string, at: Date, newDevice = false) =>
  beginSession({ id, email: "x@saltpan.example" }, { agent, address: "198.51.100.7", newDevice }, at, 7);

const told = async (shop: ShopHandle) =>
  (await eventsOfShop(shop)).rows.map((row) => `${row.who} ${row.act}: ${row.detail}`);

beforeAll(async () => {
  await twoShops(NOW);
  await migrateAll();
  a = await open("Saltpan Carburettor Works", "owner@saltpan.example");
  b = await open("Fjellrev Motor", "owner@fjellrev.example");
  jory = await createPerson({ name: "Jory Quill", email: "jory@saltpan.example", password: PASSWORD }, NOW);
  await signIn(jory, LINUX, NOW);
  for (const [shop, role] of [
    [a, "tuner"],
    [b, "desk"],
  ] as const) {
    const at = as(shop, { now: later(10) });
    await join(
      await invite(at, { email: "jory@saltpan.example", role }),
      jory,
      "jory@saltpan.example",
      at.now,
    );
    await addStaff(at, { id: jory, name: "Jory Quill", role });
  }
});
afterAll(closeDirectory);

describe("what happened to the sign-ins of a shop's people", () => {
  it("is read by its owner from their joining on: sign-ins, refusals, roles", async () => {
    await signIn(jory, PHONE, later(20), true);
    await authenticate("jory@saltpan.example", "not this one at all", later(21)).catch(() => undefined);
    await changeRole(as(a, { now: later(22) }), { personId: jory, role: "books" }, endWorkOfIn);
    expect((await told(a)).slice(0, 4)).toEqual([
      "Jory Quill was given a role: books, by Owner of Saltpan Carburettor Works",
      "Jory Quill was refused at sign-in: wrong password",
      "Jory Quill signed in on a new device: Safari on iPhone, from 198.51.100.7",
      "Jory Quill joined: tuner",
    ]);
    // Before joining, Jory's sign-ins were nobody's business here.
    expect((await told(a)).some((line) => line.includes("Firefox on Linux"))).toBe(false);
  });

  it("shows nothing of another shop: neither its roles nor its people nor its name", async () => {
    const lines = (await told(b)).join("\n");
    expect(lines).toContain("Jory Quill joined: desk");
    for (const theirs of ["books", "tuner", "Saltpan"]) expect(lines).not.toContain(theirs);
    const mine = (await told(a)).join("\n");
    for (const theirs of ["desk", "Fjellrev"]) expect(mine).not.toContain(theirs);
  });

  it("ends with their leaving, but for that itself", async () => {
    await removeMember(as(a, { now: later(30) }), jory, endWorkOfIn);
    await signIn(jory, LINUX, later(31));
    expect((await told(a))[0]).toBe(
      "Jory Quill was taken out of the shop: by Owner of Saltpan Carburettor Works",
    );
  });

  it("is all read by the person themselves, and comes in pages that miss and repeat nothing", async () => {
    for (let n = 0; n < 60; n++) await signIn(jory, LINUX, later(40 + n));
    const first = await eventsOfPerson(jory);
    const second = await eventsOfPerson(jory, first.next ?? 0);
    const ids = [...first.rows, ...second.rows].map((row) => row.id);
    const all = await directory().read.securityEvent.findMany({
      where: { personId: jory },
      select: { id: true },
      orderBy: { id: "desc" },
    });
    expect(ids).toEqual(all.map((row) => row.id));
    expect([first.rows.length, second.next]).toEqual([50, null]);
  });
});

describe("a person's sessions", () => {
  it("are listed by device, last used first, and only while they count", async () => {
    await directory().write((tx) => tx.session.deleteMany({ where: { personId: jory } }));
    const idle = await signIn(jory, LINUX, NOW);
    const phone = await signIn(jory, PHONE, later(13 * 60));
    const desk = await signIn(jory, LINUX, later(13 * 60 + 5));
    const list = await ownSessions(jory, desk, later(13 * 60 + 6), 12);
    expect(list.map((one) => [one.device, one.address, one.isThis])).toEqual([
      ["Firefox on Linux", "198.51.100.7", true],
      ["Safari on iPhone", "198.51.100.7", false],
    ]);
    // What names a session to its person is not what opens it.
    for (const id of [idle, phone, desk]) expect(JSON.stringify(list)).not.toContain(id);
  });

  it("end one by one, nobody else's among them, or all but this one", async () => {
    await directory().write((tx) => tx.session.deleteMany({}));
    const here = await signIn(jory, LINUX, NOW);
    await signIn(jory, PHONE, later(1));
    await signIn(jory, PHONE, later(2));
    const owner = await signIn(a.by.personId, LINUX, NOW);
    const [theirs] = await ownSessions(a.by.personId, owner, later(3), 12);
    await expect(endOwnSession(jory, theirs?.mark ?? "", NOW)).rejects.toThrow(/signed out already/);
    const [last] = await ownSessions(jory, here, later(3), 12);
    await endOwnSession(jory, last?.mark ?? "", NOW);
    await expect(endOwnSession(jory, last?.mark ?? "", NOW)).rejects.toThrow(/signed out already/);
    expect(await ownSessions(jory, here, later(3), 12)).toHaveLength(2);
    expect(await endOtherSessions(jory, here, NOW)).toBe(1);
    expect((await ownSessions(jory, here, later(3), 12)).map((one) => one.isThis)).toEqual([true]);
    expect(await ownSessions(a.by.personId, owner, later(3), 12)).toHaveLength(1);
  });
});

describe("a shop that asks its owners for a second factor", () => {
  it("does so only at the word of an owner who has one, and for its own owners alone", async () => {
    await expect(askOwnersForFactor(a, true)).rejects.toThrow(/no second factor yourself/);
    expect(await asksOwnersForFactor(a)).toBe(false);
    await directory().write((tx) =>
      tx.secondFactor.create({ data: { personId: a.by.personId, secret: "sealed", since: NOW } }),
    );
    await askOwnersForFactor(a, true);
    expect([await asksOwnersForFactor(a), await asksOwnersForFactor(b)]).toEqual([true, false]);
    expect(await shopsAskingFactor(a.by.personId)).toEqual([{ name: "Saltpan Carburettor Works" }]);
    expect(await shopsAskingFactor(b.by.personId)).toEqual([]);
    expect((await told(a))[0]).toMatch(/asked owners for a second factor/);
    await askOwnersForFactor(a, false);
    expect(await asksOwnersForFactor(a)).toBe(false);
  });
});
