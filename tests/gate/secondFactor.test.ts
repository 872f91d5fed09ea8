import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { generate } from "otplib";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { confirmFactor, factorState, offerFactor } from "@/lib/data/people/secondFactor";
import { beginSession, liveSession } from "@/lib/data/people/sessions";
import { createPerson } from "@/lib/data/people/signUp";
import { closeDirectory } from "@/lib/db/directory";
import { dataFolder } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { Refusal } from "@/lib/domain/refusal";
import { demandSecondFactor, factorSealer } from "@/lib/gate/secondFactor";
import { authOptions } from "@/lib/gate/session";
import { CODE_WANTED } from "@/lib/schemas/codeWanted";
import { takeSecret } from "@/lib/server/phases";
import { twoShops } from "../support/shops";

vi.mock("next/headers", () => ({
  headers: async () => new Headers({ "x-client-address": "198.51.100.7" }),
  cookies: async () => ({ get: () => undefined, set: () => undefined }),
}));

const NOW = new Date("2026-11-25T00:30:00Z");
const later = (seconds: number) => new Date(NOW.getTime() + seconds * 1000);
const EMAIL = "owner@saltpan.example";
let owner = "";
let tuner = "";
let secret = "";

const codeAt = (at: Date) => generate({ secret, epoch: Math.floor(at.getTime() / 1000) });
const said = (personId: string, code: unknown, at: Date) =>
  demandSecondFactor(personId, code, at).then(
    () => "in",
    (cause: unknown) => {
      if (!(cause instanceof Refusal)) throw cause;
      return cause.kind === "tooOften" ? "too often" : cause.message;
    },
  );

beforeAll(async () => {
  reconfigure({ NEXTAUTH_SECRET: "a secret of tests, longer than thirty-two letters" });
  await twoShops(NOW);
  await migrateAll();
  const password = "float and needle, seated";
  owner = await createPerson({ name: "Owner", email: EMAIL, password }, NOW);
  tuner = await createPerson({ name: "Tuner", email: "tuner@saltpan.example", password }, NOW);
  await offerFactor(owner, factorSealer(), NOW);
  secret = (await factorState(owner, EMAIL, factorSealer(), NOW)).offered?.secret ?? "";
  await confirmFactor(owner, await codeAt(NOW), factorSealer(), NOW);
});
afterAll(closeDirectory);

describe("the second step of signing in", () => {
  it("is asked only of who has a second factor", async () => {
    expect(await said(tuner, undefined, NOW)).toBe("in");
    for (const none of [undefined, "", "  "]) expect(await said(owner, none, NOW)).toBe(CODE_WANTED);
  });

  it("slows guesses down, at once too, and lets the right code in after the wait", async () => {
    const at = later(60);
    const guesses = await Promise.all(
      Array.from({ length: 40 }, (_, n) => said(owner, `00000${n % 10}`, at)),
    );
    const looked = guesses.filter((one) => one !== "too often").length;
    expect(looked).toBeLessThanOrEqual(6);
    expect(await said(owner, await codeAt(at), at)).toBe("too often");
    // Nobody else is held up.
    expect(await said(tuner, "", at)).toBe("in");
    const calm = later(120);
    expect(await said(owner, await codeAt(calm), calm)).toBe("in");
    // A success forgets the failures: the next wrong one costs no wait.
    expect(await said(owner, "000000", later(150))).toMatch(/does not count/);
    expect(await said(owner, await codeAt(later(150)), later(150))).toBe("in");
  });

  it("leaves an attacker with the password a few dozen guesses in a day", async () => {
    let looked = 0;
    for (let at = 0; at < 86_400; at += 60)
      if ((await said(owner, "000000", later(1000 + at))) !== "too often") looked += 1;
    // Three of a million codes count at a time: under one chance in two thousand.
    expect(looked).toBeLessThan(150);
  });
});

describe("signing out", () => {
  it("by next-auth's own address ends the session itself, not the cookie alone", async () => {
    const place = { agent: "", address: "198.51.100.7", newDevice: false };
    const sid = await beginSession({ id: tuner, email: "tuner@saltpan.example" }, place, NOW, 7);
    expect(await liveSession(sid, 1, NOW, 12)).not.toBeNull();
    await authOptions().events?.signOut?.({ token: { sid }, session: undefined as never });
    expect(await liveSession(sid, 1, NOW, 12)).toBeNull();
  });
});

describe("a secret of the server", () => {
  it("of under 32 characters refuses to start, with what to do", () => {
    const { NEXTAUTH_SECRET: before } = configuration();
    expect(() => reconfigure({ NEXTAUTH_SECRET: "x".repeat(31) })).toThrow(/shorter than 32 characters/);
    reconfigure({ NEXTAUTH_SECRET: "x".repeat(32) });
    expect(takeSecret).not.toThrow();
    // One that was kept beside the data and cut short since.
    reconfigure({ NEXTAUTH_SECRET: undefined });
    writeFileSync(join(dataFolder(), "secret"), "x".repeat(31));
    expect(takeSecret).toThrow(/has 31 characters; at least 32/);
    rmSync(join(dataFolder(), "secret"));
    reconfigure({ NEXTAUTH_SECRET: before });
  });
});
