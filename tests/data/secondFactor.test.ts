import { generate } from "otplib";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { sealerOf } from "@/lib/data/people/sealer";
import {
  confirmFactor,
  dropFactor,
  factorState,
  hasFactor,
  offerFactor,
  renewRecoveryCodes,
  takeCode,
} from "@/lib/data/people/secondFactor";
import { createPerson } from "@/lib/data/people/signUp";
import { stepOfCode, totpAddress } from "@/lib/data/people/totp";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { twoShops } from "../support/shops";

const NOW = new Date("2026-11-25T00:30:00Z");
const later = (seconds: number) => new Date(NOW.getTime() + seconds * 1000);
const EMAIL = "owner@saltpan.example";
const sealer = sealerOf("a secret of tests, longer than thirty-two letters", "second factor");

/** "12345678901234567890" in base32: the secret of RFC 6238, Appendix B, for SHA-1. */
const RFC_SECRET = "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ";

let id = "";
let other = "";
let people = 0;

beforeAll(async () => {
  await twoShops(NOW);
  await migrateAll();
});
beforeEach(async () => {
  people += 1;
  const password = "float and needle, seated";
  id = await createPerson({ name: "Maren", email: `${people}-${EMAIL}`, password }, NOW);
  other = await createPerson({ name: "Jory", email: `other-${people}-${EMAIL}`, password }, NOW);
});
afterAll(closeDirectory);

const codeAt = (secret: string, at: Date) => generate({ secret, epoch: Math.floor(at.getTime() / 1000) });

async function turnedOn(personId = id): Promise<{ secret: string; codes: string[] }> {
  await offerFactor(personId, sealer, NOW);
  const { offered } = await factorState(personId, EMAIL, sealer, NOW);
  const secret = offered?.secret ?? "";
  const codes = await confirmFactor(personId, await codeAt(secret, NOW), sealer, NOW);
  return { secret, codes };
}

describe("codes by time", () => {
  // RFC 6238, Appendix B, SHA-1: eight figures there; six are their last six (RFC 4226, 5.3: modulo 10^digits).
  it.each([
    [59, "94287082"],
    [1_111_111_109, "07081804"],
    [1_111_111_111, "14050471"],
    [1_234_567_890, "89005924"],
    [2_000_000_000, "69279037"],
    [20_000_000_000, "65353130"],
  ])("are those of the standard at %i seconds", async (seconds, eight) => {
    const at = new Date(seconds * 1000);
    expect(await stepOfCode(RFC_SECRET, eight.slice(2), 0, at)).toBe(Math.floor(seconds / 30));
    expect(await stepOfCode(RFC_SECRET, "000000", 0, at)).toBeNull();
  });

  it("count one step early and late, and no further", async () => {
    const step = Math.floor(NOW.getTime() / 30_000);
    for (const [drift, counts] of [
      [-2, false],
      [-1, true],
      [0, true],
      [1, true],
      [2, false],
    ] as const) {
      const found = await stepOfCode(RFC_SECRET, await codeAt(RFC_SECRET, later(drift * 30)), 0, NOW);
      expect(found, `${drift}`).toBe(counts ? step + drift : null);
    }
  });

  it("are read by an app off an address with the name, the person and the secret", () => {
    const url = new URL(totpAddress(RFC_SECRET, EMAIL));
    expect(url.protocol).toBe("otpauth:");
    expect(decodeURIComponent(url.pathname)).toBe(`/Throttlewright:${EMAIL}`);
    expect(url.searchParams.get("secret")).toBe(RFC_SECRET);
    expect(url.searchParams.get("issuer")).toBe("Throttlewright");
  });
});

describe("a second factor", () => {
  it("counts from its first right code on, not before", async () => {
    await offerFactor(id, sealer, NOW);
    expect(await hasFactor(id)).toBe(false);
    await expect(confirmFactor(id, "000000", sealer, NOW)).rejects.toThrow(/does not count/);
    expect(await hasFactor(id)).toBe(false);
    const { secret } = await turnedOn();
    expect(await hasFactor(id)).toBe(true);
    expect(await hasFactor(other)).toBe(false);
    await takeCode(id, await codeAt(secret, later(60)), sealer, later(60));
  });

  it("takes each code once, also when two come at the same moment, and none of an earlier step", async () => {
    const { secret } = await turnedOn();
    // The code that turned it on was its first use.
    await expect(takeCode(id, await codeAt(secret, NOW), sealer, NOW)).rejects.toThrow(/does not count/);
    const code = await codeAt(secret, later(60));
    const both = await Promise.allSettled([
      takeCode(id, code, sealer, later(60)),
      takeCode(id, code, sealer, later(60)),
    ]);
    expect(both.map((one) => one.status).sort()).toEqual(["fulfilled", "rejected"]);
    await expect(takeCode(id, await codeAt(secret, later(30)), sealer, later(60))).rejects.toThrow();
    await takeCode(id, await codeAt(secret, later(90)), sealer, later(90));
  });

  it("takes no code of another person's", async () => {
    const mine = await turnedOn();
    const theirs = await turnedOn(other);
    await expect(takeCode(id, await codeAt(theirs.secret, later(60)), sealer, later(60))).rejects.toThrow();
    await expect(takeCode(id, theirs.codes[0] ?? "", sealer, NOW)).rejects.toThrow();
    await takeCode(other, theirs.codes[0] ?? "", sealer, NOW);
    await takeCode(id, mine.codes[0] ?? "", sealer, NOW);
  });

  it("gives ten recovery codes, each of which counts once, and new ones in their place", async () => {
    const { codes } = await turnedOn();
    expect(new Set(codes).size).toBe(10);
    const [first = "", second = ""] = codes;
    await takeCode(id, ` ${first.toUpperCase()} `, sealer, NOW);
    await expect(takeCode(id, first, sealer, NOW)).rejects.toThrow(/does not count/);
    expect((await factorState(id, EMAIL, sealer, NOW)).recoveryCodesLeft).toBe(9);
    const anew = await renewRecoveryCodes(id, NOW);
    await expect(takeCode(id, second, sealer, NOW)).rejects.toThrow(/does not count/);
    await takeCode(id, anew[9] ?? "", sealer, NOW);
    expect((await factorState(id, EMAIL, sealer, NOW)).recoveryCodesLeft).toBe(9);
  });

  it("goes on counting while another phone is being set up", async () => {
    const { secret } = await turnedOn();
    await offerFactor(id, sealer, later(60));
    await takeCode(id, await codeAt(secret, later(60)), sealer, later(60));
    const { offered } = await factorState(id, EMAIL, sealer, later(60));
    await confirmFactor(id, await codeAt(offered?.secret ?? "", later(60)), sealer, later(60));
    await expect(takeCode(id, await codeAt(secret, later(120)), sealer, later(120))).rejects.toThrow();
    await takeCode(id, await codeAt(offered?.secret ?? "", later(120)), sealer, later(120));
  });

  it("is offered for an hour", async () => {
    await offerFactor(id, sealer, NOW);
    const { offered } = await factorState(id, EMAIL, sealer, NOW);
    const late = later(3601);
    expect((await factorState(id, EMAIL, sealer, late)).offered).toBeNull();
    await expect(confirmFactor(id, await codeAt(offered?.secret ?? "", late), sealer, late)).rejects.toThrow(
      /hour old/,
    );
  });

  it("is turned off with all its codes", async () => {
    const { codes } = await turnedOn();
    await dropFactor(id, NOW);
    expect(await hasFactor(id)).toBe(false);
    await expect(takeCode(id, codes[0] ?? "", sealer, NOW)).rejects.toThrow();
    await expect(dropFactor(id, NOW)).rejects.toThrow(/no second factor/);
  });

  it("leaves neither its secret nor a recovery code in the database", async () => {
    const { secret, codes } = await turnedOn();
    const stored = JSON.stringify([
      await directory().read.secondFactor.findMany({ orderBy: { personId: "asc" } }),
      await directory().read.recoveryCode.findMany({ orderBy: { id: "asc" } }),
    ]);
    expect(stored).not.toContain(secret);
    for (const code of codes) expect(stored).not.toContain(code);
  });

  it("says so where the server's secret or clock changed, and lets recovery codes through", async () => {
    const { secret, codes } = await turnedOn();
    const changed = sealerOf("another secret, longer than thirty-two letters", "second factor");
    const code = await codeAt(secret, later(60));
    await expect(takeCode(id, code, changed, later(60))).rejects.toThrow(/secret of this server has changed/);
    await takeCode(id, codes[0] ?? "", changed, later(60));
    await expect(takeCode(id, await codeAt(secret, later(-300)), sealer, later(-300))).rejects.toThrow(
      /clock of this server was set back/,
    );
    await takeCode(id, codes[1] ?? "", sealer, later(-300));
  });
});

describe("what is sealed", () => {
  it("opens with the same key for the same person, and changed by one bit not at all", () => {
    const sealed = sealer.seal("RFC secret", "maren");
    expect(sealer.open(sealed, "maren")).toBe("RFC secret");
    expect(sealer.open(sealed, "jory")).toBeNull();
    expect(
      sealerOf("a secret of tests, longer than thirty-two letters", "another").open(sealed, "maren"),
    ).toBeNull();
    const bytes = Buffer.from(sealed.slice(2), "base64url");
    for (let at = 0; at < bytes.length; at++) {
      const bent = Buffer.from(bytes);
      bent[at] = (bent[at] ?? 0) ^ 1;
      expect(sealer.open(`1.${bent.toString("base64url")}`, "maren")).toBeNull();
    }
    for (const none of ["", "1.", "2.abc", sealed.slice(0, 20)])
      expect(sealer.open(none, "maren")).toBeNull();
    expect(sealer.seal("RFC secret", "maren")).not.toBe(sealed);
  });
});
