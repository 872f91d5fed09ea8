import fc from "fast-check";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { rememberDevice } from "@/lib/data/people/devices";
import { createPerson } from "@/lib/data/people/signUp";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { failedAgain, TRY_RULES, type Tries, waitAfter, waitNow } from "@/lib/domain/access/tries";
import { Refusal } from "@/lib/domain/refusal";
import { clientAddress, SHARED } from "@/lib/gate/clientAddress";
import { readDevice, signDevice } from "@/lib/gate/device";
import { limit, limitKey, sweepLimits } from "@/lib/gate/limit";
import { ownPasswordTried, signInTried } from "@/lib/gate/signInTries";
import { twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const inSeconds = (seconds: number) => new Date(NOW.getTime() + seconds * 1000);
const PASSWORD = "float and needle, seated";
const OWNER = "owner@saltpan.example";

let address = "";
let device: string | undefined;
vi.mock("next/headers", () => ({
  headers: async () => new Headers({ "x-client-address": address }),
  cookies: async () => ({ get: () => (device ? { value: device } : undefined), set: () => undefined }),
}));

let personId = "";
let net = 0;

beforeAll(async () => {
  reconfigure({ NEXTAUTH_SECRET: "a secret of tests, longer than thirty-two letters" });
  await twoShops(NOW);
  await migrateAll();
  personId = await createPerson({ name: "Owner", email: OWNER, password: PASSWORD }, NOW);
});
beforeEach(async () => {
  address = `198.51.100.${++net}`;
  device = undefined;
  await directory().write((tx) => tx.attempt.deleteMany({}));
});
afterAll(closeDirectory);

const rows = () => directory().read.attempt.findMany({ orderBy: { key: "asc" } });
const signIn = (email: unknown, password: unknown, at: Date) =>
  signInTried({ email, password }, at).then(
    () => "in" as const,
    (cause: unknown) => {
      if (!(cause instanceof Refusal)) throw cause;
      return cause.kind;
    },
  );
const wrong = (at: Date, email: unknown = OWNER) => signIn(email, "not the one at all", at);

/** Fails as often as it is let through within `seconds`; answers how often. */
async function attack(seconds: number, email = OWNER): Promise<number> {
  let tried = 0;
  for (let at = 0; at < seconds; at += 1)
    while (tried < 1000 && (await wrong(inSeconds(at), email)) === "refused") tried += 1;
  return tried;
}

describe("the wait between tries", () => {
  it("grows from nothing to the rule's most, and never shrinks with failures", () => {
    for (const rule of Object.values(TRY_RULES)) {
      expect(waitAfter(rule.free - 1, rule)).toBe(0);
      expect(waitAfter(rule.free, rule)).toBe(1000);
      expect(waitAfter(1e6, rule)).toBe(rule.mostMs);
    }
    fc.assert(
      fc.property(fc.nat(200), (n) => {
        const rule = TRY_RULES.accountFromAddress;
        expect(waitAfter(n + 1, rule)).toBeGreaterThanOrEqual(waitAfter(n, rule));
      }),
    );
  });

  it("is never longer than the rule's most, however the clock jumps", () => {
    fc.assert(
      fc.property(
        fc.nat(500),
        fc.integer({ min: -1e12, max: 1e12 }),
        fc.constantFrom(...Object.values(TRY_RULES)),
        (failures, jump, rule) => {
          const lastAtMs = NOW.getTime();
          const wait = waitNow({ failures, lastAtMs }, lastAtMs + jump, rule);
          expect(wait).toBeGreaterThanOrEqual(0);
          expect(wait).toBeLessThanOrEqual(rule.mostMs);
          if (jump <= 0) expect(wait).toBe(waitAfter(failures, rule));
        },
      ),
    );
  });

  it("lets one address try one account some twenty times in the first hour, not thousands", () => {
    const rule = TRY_RULES.accountFromAddress;
    let tries: Tries | null = null;
    let through = 0;
    for (let s = 0; s < 3600; s++) {
      const now = NOW.getTime() + s * 1000;
      while (!tries || waitNow(tries, now, rule) === 0) {
        tries = failedAgain(tries, now, rule);
        through += 1;
      }
    }
    expect(through).toBeLessThan(25);
  });
});

describe("signing in", () => {
  it("stores nothing of what is no address, and nothing longer than a hash of what is", async () => {
    expect(await signIn("a".repeat(5_000_000), "x", NOW)).toBe("refused");
    expect(await signIn({ not: "text" }, "x", NOW)).toBe("refused");
    expect(await signIn(`${"a".repeat(300)}@saltpan.example`, "x", NOW)).toBe("refused");
    expect(await signIn(OWNER, "x".repeat(100_000), NOW)).toBe("refused");
    const ofAddress = await rows();
    expect(ofAddress).toHaveLength(1);
    expect(ofAddress[0]?.count).toBe(4);
    await wrong(NOW, "nobody@saltpan.example");
    for (const row of await rows()) {
      expect(row.key).toMatch(/^[\w-]{43}$/);
      expect(JSON.stringify(row)).not.toContain("saltpan");
      expect(JSON.stringify(row)).not.toContain(address);
    }
  });

  it("counts failures only: the right password a hundred times is let in a hundred times", async () => {
    for (let n = 0; n < 100; n++) expect(await signIn(OWNER, PASSWORD, inSeconds(n / 100))).toBe("in");
    expect(await rows()).toEqual([]);
  });

  it("slows one address on one account, and leaves the account open to its person elsewhere", async () => {
    expect(await attack(120)).toBeLessThan(15);
    expect(await wrong(inSeconds(120))).toBe("tooOften");
    expect(await signIn(OWNER, PASSWORD, inSeconds(120))).toBe("tooOften");
    address = "203.0.113.9";
    expect(await signIn(OWNER, PASSWORD, inSeconds(120))).toBe("in");
  });

  it("lets a browser in that its person signed in on before, behind the attacker's own address", async () => {
    const token = `${"Ab3_".repeat(6)}xyz`;
    await rememberDevice(personId, token, NOW);
    await attack(60);
    expect(await signIn(OWNER, PASSWORD, inSeconds(60))).toBe("tooOften");
    device = signDevice(token);
    expect(await signIn(OWNER, PASSWORD, inSeconds(60))).toBe("in");
    // It opens no way around the limits: its own tries are counted, and another's account is not its.
    expect(await attack(60)).toBeLessThan(15);
    const other = "jory@saltpan.example";
    await createPerson({ name: "Jory", email: other, password: PASSWORD }, NOW);
    expect(await attack(60, other)).toBeLessThan(15);
  });

  it("takes a device's word for nothing: forged, altered and forgotten cookies count for none", async () => {
    const token = `${"Zz9-".repeat(6)}abc`;
    await rememberDevice(personId, token, NOW);
    const signed = signDevice(token);
    expect(readDevice(signed)).toBe(token);
    for (const bad of [
      undefined,
      "",
      token,
      `${token}.`,
      `${token}.${"A".repeat(43)}`,
      signed.slice(0, -1),
      `${signed}x`,
      signed.replace("Zz9", "Zz8"),
    ])
      expect(readDevice(bad), String(bad)).toBeNull();
    const kept = await directory().read.knownDevice.findMany({ orderBy: { createdAt: "asc" } });
    expect(JSON.stringify(kept)).not.toContain(token);
    await attack(60);
    device = `${token}.${"A".repeat(43)}`;
    expect(await signIn(OWNER, PASSWORD, inSeconds(60))).toBe("tooOften");
  });

  it("slows an address that tries many accounts, and bounds the rows that it makes", async () => {
    let through = 0;
    for (let n = 0; n < 120; n++) if ((await wrong(NOW, `n${n}@saltpan.example`)) === "refused") through += 1;
    expect(through).toBe(30);
    await directory().write((tx) =>
      tx.attempt.createMany({
        data: Array.from({ length: 400 }, (_, n) => ({
          key: limitKey(`old ${n}`),
          windowStart: NOW,
          lastAt: inSeconds(-n),
          count: 1,
          madeFrom: limitKey("203.0.113.77"),
        })),
      }),
    );
    address = "203.0.113.77";
    for (let n = 0; n < 12; n++) await wrong(inSeconds(n), `m${n}@saltpan.example`);
    const mine = (await rows()).filter((row) => row.madeFrom === limitKey(address));
    expect(mine.length).toBeLessThanOrEqual(200);
  });

  it("does not let a thousand tries at once all through", async () => {
    const answers = await Promise.all(Array.from({ length: 40 }, () => wrong(NOW)));
    expect(answers.filter((answer) => answer === "refused")).toHaveLength(5);
  });

  it("gives people behind a proxy that nobody told of room for each other's failures", async () => {
    address = SHARED;
    for (let n = 0; n < 60; n++) await wrong(NOW, `n${n}@saltpan.example`);
    expect(await signIn(OWNER, PASSWORD, NOW)).toBe("in");
    await attack(30);
    expect(await signIn(OWNER, PASSWORD, inSeconds(30 + 60))).toBe("in");
  });

  it("survives a clock set back: the wait ends in its time, and the count stays", async () => {
    await attack(60);
    const back = (seconds: number) => new Date(NOW.getTime() - 86_400_000 + seconds * 1000);
    expect(await wrong(back(0))).toBe("tooOften");
    // Fifteen minutes are the most that this count ever asks for.
    expect(await signIn(OWNER, PASSWORD, back(15 * 60 + 1))).toBe("in");
    await attack(60);
    await wrong(back(0));
    expect(await wrong(back(1))).toBe("tooOften");
  });

  it("forgets in time, and sweeps what is old", async () => {
    await attack(60);
    expect(await signIn(OWNER, PASSWORD, inSeconds(3 * 3600))).toBe("in");
    await wrong(NOW, "someone@saltpan.example");
    expect(await sweepLimits(inSeconds(3600))).toBe(0);
    expect(await sweepLimits(inSeconds(26 * 3600))).toBeGreaterThan(0);
    expect(await rows()).toEqual([]);
  });
});

describe("the present password, asked again", () => {
  it("is limited like the door, and a right one forgets the wrong ones", async () => {
    const ask = (right: boolean, at: Date) =>
      ownPasswordTried(personId, at, async () => {
        if (!right) throw new Refusal("The present password is not that.");
        return "done";
      }).catch((cause: Refusal) => cause.kind);
    for (let n = 0; n < 4; n++) expect(await ask(false, NOW)).toBe("refused");
    expect(await ask(true, NOW)).toBe("done");
    for (let n = 0; n < 5; n++) expect(await ask(false, NOW)).toBe("refused");
    expect(await ask(true, NOW)).toBe("tooOften");
    expect(await ask(true, inSeconds(2))).toBe("done");
  });

  it("does not count what breaks on our side", async () => {
    for (let n = 0; n < 20; n++)
      await expect(
        ownPasswordTried(personId, NOW, async () => Promise.reject(new Error("broken"))),
      ).rejects.toThrow("broken");
    expect(await rows()).toEqual([]);
  });
});

describe("a count within a window", () => {
  it("refuses the one too many until the window is over, stored by a hash", async () => {
    const what = `upload by ${"x".repeat(1000)}`;
    for (let n = 0; n < 3; n++) await limit(what, 3, 60_000, inSeconds(n));
    await expect(limit(what, 3, 60_000, inSeconds(3))).rejects.toMatchObject({
      kind: "tooOften",
      remedy: "Wait 57 seconds, then try again.",
    });
    expect((await rows()).map((row) => [row.key.length, row.count])).toEqual([[43, 3]]);
    await limit(what, 3, 60_000, inSeconds(61));
  });

  it("survives a clock set back: neither locked until it catches up nor set free", async () => {
    for (let n = 0; n < 3; n++) await limit("x", 3, 60_000, NOW);
    const back = (seconds: number) => new Date(NOW.getTime() - 86_400_000 + seconds * 1000);
    await expect(limit("x", 3, 60_000, back(0))).rejects.toMatchObject({ kind: "tooOften" });
    await expect(limit("x", 3, 60_000, back(30))).rejects.toMatchObject({ kind: "tooOften" });
    await limit("x", 3, 60_000, back(61));
  });
});

describe("where a request comes from", () => {
  it.each([
    ["203.0.113.5", undefined, false, "203.0.113.5"],
    ["::ffff:203.0.113.5", undefined, false, "203.0.113.5"],
    ["2001:db8:1:2:3:4:5:6", undefined, false, "2001:db8:1:2::/64"],
    ["2001:db8:1:2::9", undefined, false, "2001:db8:1:2::/64"],
    ["::1", undefined, false, "0:0:0:0::/64"],
    [undefined, undefined, false, "unknown"],
    // Behind a trusted proxy the last entry counts, which that proxy wrote; what is no address does not.
    ["127.0.0.1", "1.1.1.1, 203.0.113.7", true, "203.0.113.7"],
    ["127.0.0.1", "x".repeat(9000), true, "127.0.0.1"],
    // A proxy that nobody told of: its people share. A stranger who only claims one stays who they are.
    ["127.0.0.1", "203.0.113.7", false, SHARED],
    ["::1", "203.0.113.7", false, SHARED],
    ["10.0.0.4", "203.0.113.7", false, SHARED],
    ["203.0.113.5", "198.51.100.1", false, "203.0.113.5"],
  ] as const)("%s, forwarded for %s, trusted %s: %s", (remote, forwarded, trusted, said) => {
    expect(clientAddress(remote, forwarded, trusted)).toBe(said);
  });
});
