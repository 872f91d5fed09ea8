import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { endWorkOfIn } from "@/lib/data/jobs/time/leave";
import { changePassword, makeReset, resetPassword } from "@/lib/data/people/account";
import { createShop } from "@/lib/data/people/createShop";
import { knowsDevice, rememberDevice } from "@/lib/data/people/devices";
import {
  addStaff,
  changeRole,
  invitationOf,
  invite,
  join,
  listMembers,
  removeMember,
  revokeInvitation,
} from "@/lib/data/people/members";
import {
  authenticate,
  beginSession,
  endAllSessions,
  endSession,
  liveSession,
} from "@/lib/data/people/sessions";
import { shopsOf } from "@/lib/data/people/shops";
import { createPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import type { Actor, ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { as, twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const PLACE = { agent: "test", address: "198.51.100.7", newDevice: false };
const later = (hours: number) => new Date(NOW.getTime() + hours * 3_600_000);
const PASSWORD = "float and needle, seated";

const of = (id: string) => ({ id, email: "somebody@saltpan.example" });

interface Opened {
  ownerId: string;
  shop: ShopHandle;
}

let a: Opened;
let b: Opened;

async function open(name: string, email: string): Promise<Opened> {
  const ownerId = await createPerson({ name: `Owner of ${name}`, email, password: PASSWORD }, NOW);
  const by = { personId: ownerId, name: `Owner of ${name}`, role: "owner" as const, staffId: null };
  const opened = await createShop({ name, owner: { id: ownerId }, prepare: prepareAs(by, name) }, NOW);
  return { ownerId, shop: handleFor(opened, by, NOW) };
}

const prepareAs = (by: Actor, name: string) => (place: ShopPlace) =>
  prepareShop(handleFor(place, by, NOW), { name, country: "AU" });

beforeAll(async () => {
  await twoShops(NOW);
  await migrateAll();
  a = await open("Saltpan Carburettor Works", "owner-a@saltpan.example");
  b = await open("Fjellrev Motor", "owner-b@fjellrev.example");
});
afterAll(closeDirectory);

describe("signing up", () => {
  it("gives the shop an address of its own, and a second one of that name another", async () => {
    const name = "Saltpan Carburettor Works";
    const second = await createShop(
      { name, owner: { id: a.ownerId }, prepare: prepareAs(a.shop.by, name) },
      NOW,
    );
    expect(a.shop.slug).toBe("saltpan-carburettor-works");
    expect(second.slug).toBe("saltpan-carburettor-works-2");
    expect((await shopsOf(a.ownerId)).map((shop) => shop.slug)).toEqual([a.shop.slug, second.slug]);
  });

  it("refuses a taken address, a short password and one that is guessed first", async () => {
    const person = { name: "Someone", email: "owner-a@saltpan.example", password: PASSWORD };
    await expect(createPerson(person, NOW)).rejects.toThrow(/already/);
    const other = { ...person, email: "other@saltpan.example" };
    await expect(createPerson({ ...other, password: "short" }, NOW)).rejects.toThrow(/too short/);
    await expect(createPerson({ ...other, password: "Password123" }, NOW)).rejects.toThrow(/guessed/);
  });
});

describe("signing in", () => {
  it("answers a wrong password and an unknown address with the same words", async () => {
    const wrong = authenticate("owner-a@saltpan.example", "not this one at all", NOW).catch(
      (e: Error) => e.message,
    );
    const unknown = authenticate("nobody@saltpan.example", PASSWORD, NOW).catch((e: Error) => e.message);
    expect(await wrong).toBe(await unknown);
    expect(await wrong).toMatch(/do not match/);
  });

  it("ends a session by signing out, by idling 12 hours, and after its last day", async () => {
    const person = await authenticate("owner-a@saltpan.example", PASSWORD, NOW);
    const id = await beginSession(of(person.id), PLACE, NOW, 7);
    const live = (at: Date) => liveSession(id, person.sessionVersion, at, 12);
    expect((await live(later(11)))?.personId).toBe(a.ownerId);
    // Seen at 11 h: it idles from there.
    expect(await live(later(22))).not.toBeNull();
    expect(await live(later(35))).toBeNull();
    expect(await liveSession(id, person.sessionVersion, later(7 * 24 + 1), 1e6)).toBeNull();
    await endSession(id);
    expect(await live(NOW)).toBeNull();
  });

  it("signs out everywhere at once, and by a new password", async () => {
    const person = await authenticate("owner-b@fjellrev.example", PASSWORD, NOW);
    const [one, two] = [
      await beginSession(of(person.id), PLACE, NOW, 7),
      await beginSession(of(person.id), PLACE, NOW, 7),
    ];
    const token = "Ab3_Ab3_Ab3_Ab3_Ab3_Ab3_xyz";
    const known = () => knowsDevice("owner-b@fjellrev.example", token, NOW, 90);
    await rememberDevice(person.id, token, NOW);
    expect(await known()).toBe(true);
    await changePassword(
      person.id,
      one,
      { currentPassword: PASSWORD, password: "a different one, longer" },
      NOW,
    );
    expect(await liveSession(one, person.sessionVersion, NOW, 12)).not.toBeNull();
    expect(await liveSession(two, person.sessionVersion, NOW, 12)).toBeNull();
    // Who held the old password on a browser of theirs is a stranger again.
    expect(await known()).toBe(false);
    await endAllSessions(person.id, NOW);
    expect(await liveSession(one, person.sessionVersion, NOW, 12)).toBeNull();
    await expect(
      changePassword(person.id, one, { currentPassword: PASSWORD, password: "yet another, longer" }, NOW),
    ).rejects.toThrow(/not that/);
  });

  it("sets a new password by a link once, within two hours", async () => {
    const late = (await makeReset("owner-b@fjellrev.example", NOW)) ?? "";
    await expect(resetPassword(late, "third one, long enough", later(3))).rejects.toThrow(/used or over/);
    const token = (await makeReset("owner-b@fjellrev.example", NOW)) ?? "";
    const { id } = await authenticate("owner-b@fjellrev.example", "a different one, longer", NOW);
    await rememberDevice(id, "Cd4_Cd4_Cd4_Cd4_Cd4_Cd4_xyz", NOW);
    await resetPassword(token, "third one, long enough", later(1));
    expect(await knowsDevice("owner-b@fjellrev.example", "Cd4_Cd4_Cd4_Cd4_Cd4_Cd4_xyz", NOW, 90)).toBe(false);
    await expect(resetPassword(token, "fourth one, long enough", later(1))).rejects.toThrow(/used or over/);
    await authenticate("owner-b@fjellrev.example", "third one, long enough", NOW);
    expect(await makeReset("nobody@fjellrev.example", NOW)).toBeNull();
  });

  it("voids every link for a new password by a new password, whichever way it was set, and by a newer link", async () => {
    const email = "owner-b@fjellrev.example";
    const over = (token: string) =>
      expect(resetPassword(token, "fifth one, long enough", NOW)).rejects.toThrow(/used or over/);
    const first = (await makeReset(email, NOW)) ?? "";
    const second = (await makeReset(email, NOW)) ?? "";
    await over(first);
    const session = await beginSession(of(b.ownerId), PLACE, NOW, 7);
    const typed = { currentPassword: "third one, long enough", password: "sixth one, long enough" };
    await changePassword(b.ownerId, session, typed, NOW);
    await over(second);
    // Two asked for in the same moment, one used: as by an older server that left several open.
    const third = (await makeReset(email, NOW)) ?? "";
    await directory().write((tx) =>
      tx.reset.updateMany({ where: { personId: b.ownerId, usedAt: NOW }, data: { usedAt: null } }),
    );
    await resetPassword(third, "seventh one, long enough", NOW);
    await over(first);
    await over(second);
    const other = await makeReset("owner-a@saltpan.example", NOW);
    expect(other).not.toBeNull();
  });
});

describe("people of a shop", () => {
  it("join by an invitation, once, for the address it was made for", async () => {
    const token = await invite(a.shop, { email: "jory@saltpan.example", role: "tuner" });
    expect((await invitationOf(token, NOW))?.shop.slug).toBe(a.shop.slug);
    expect(await invitationOf(token, later(8 * 24))).toBeNull();
    const jory = await createPerson(
      { name: "Jory Quill", email: "jory@saltpan.example", password: PASSWORD },
      NOW,
    );
    await expect(join(token, b.ownerId, "owner-b@fjellrev.example", NOW)).rejects.toThrow(/another address/);
    const shop = await join(token, jory, "jory@saltpan.example", NOW);
    await addStaff(a.shop, { id: jory, name: "Jory Quill", role: shop.role });
    await expect(join(token, jory, "jory@saltpan.example", NOW)).rejects.toThrow(/used or over/);
    expect((await shopsOf(jory)).map((one) => [one.slug, one.role])).toEqual([[a.shop.slug, "tuner"]]);
    expect((await listMembers(b.shop)).memberships).toHaveLength(1);
  });

  it("lose what a revoked invitation offered; another shop cannot revoke it", async () => {
    const token = await invite(a.shop, { email: "late@saltpan.example", role: "desk" });
    const [open] = (await listMembers(a.shop)).invitations;
    await expect(revokeInvitation(b.shop, open?.id ?? 0)).rejects.toThrow(/used or gone/);
    await revokeInvitation(a.shop, open?.id ?? 0);
    expect(await invitationOf(token, NOW)).toBeNull();
  });

  it("change role and leave with effect from the next look, and the last owner stays", async () => {
    const jory = (await listMembers(a.shop)).memberships.find(
      (m) => m.person.email === "jory@saltpan.example",
    );
    const personId = jory?.person.id ?? "";
    await changeRole(a.shop, { personId, role: "books" }, endWorkOfIn);
    expect((await shopsOf(personId))[0]?.role).toBe("books");
    await expect(removeMember(b.shop, personId, endWorkOfIn)).rejects.toThrow(/not belong/);
    await expect(changeRole(a.shop, { personId: a.ownerId, role: "desk" }, endWorkOfIn)).rejects.toThrow(
      /needs an owner/,
    );
    await expect(removeMember(a.shop, a.ownerId, endWorkOfIn)).rejects.toThrow(/needs an owner/);
    await removeMember(a.shop, personId, endWorkOfIn);
    expect(await shopsOf(personId)).toEqual([]);
    const staff = await a.shop.read.staff.findUniqueOrThrow({ where: { personId } });
    expect(staff.active).toBe(false);
  });

  it("leave a trail of it in their own shop alone", async () => {
    const acts = (shop: ShopHandle) =>
      as(shop, {}).read.auditEntry.findMany({
        where: { noun: "person" },
        select: { act: true },
        orderBy: { id: "asc" },
      });
    expect((await acts(a.shop)).map((row) => row.act)).toEqual(
      expect.arrayContaining(["invited", "joined", "took back an invitation", "changed a role", "removed"]),
    );
    expect(await acts(b.shop)).toEqual([]);
  });
});
