import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { keepBackupRecord } from "@/lib/db/backupRecord";
import { closeDirectory, directoryFile } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { closeShops, shopFile } from "@/lib/db/shop";
import { forgetFaults } from "@/lib/db/shopFaults";
import { watchEventLoop } from "@/lib/gate/eventLoop";
import { healthNow, readiness } from "@/lib/gate/health";
import { shopsInDirectory } from "../support/dataFolder";

const folder = mkdtempSync(join(tmpdir(), "throttlewright-health-"));
const before = { ...process.env };
const forgetAnswer = () => {
  delete (globalThis as { throttlewrightReady?: unknown }).throttlewrightReady;
};
beforeAll(async () => {
  reconfigure({ DATA_DIR: folder });
  await shopsInDirectory(["ill", "well"]);
  await closeShops();
});
beforeEach(forgetAnswer);
afterAll(async () => {
  await closeShops();
  await closeDirectory();
  forgetFaults();
  reconfigure({ DATA_DIR: before.DATA_DIR, HEALTH_TOKEN: undefined });
  rmSync(folder, { recursive: true, force: true });
});

describe.runIf(!process.env.DATABASE_URL)("the health page", () => {
  it("tells strangers numbers and no shop's name, and who shows the token also names, places and reasons", async () => {
    writeFileSync(shopFile("ill"), "damaged");
    await migrateAll();
    const at = "2026-11-28T03:30:00.000Z";
    keepBackupRecord({
      since: at,
      last: { beganAt: at, endedAt: at, folder, bytes: 12_000, shops: 2, bad: 1 },
      shops: { ill: { triedAt: at, problems: ["It could not be copied."], goodAt: null, bytes: 0 } },
    });
    const strangers = await healthNow(null);
    expect(strangers).toMatchObject({
      well: true,
      reads: true,
      writes: true,
      version: expect.stringMatching(/^\d+\.\d+\.\d+/),
      backup: { at, bytes: 12_000, bad: 1, made: true },
      shopsShut: 1,
      processes: [{ process: "all", rssMb: expect.any(Number), shopsOpen: expect.any(Number) }],
    });
    expect(JSON.stringify(strangers)).not.toMatch(/ill\b|sqlite/);
    // Without a token set, nothing shown is one.
    expect(await healthNow("Bearer undefined")).not.toHaveProperty("shut");
    reconfigure({ HEALTH_TOKEN: "a-token-of-the-owner" });
    expect(await healthNow("Bearer another")).not.toHaveProperty("shut");
    expect(await healthNow("Bearer a-token-of-the-owner")).toMatchObject({
      shut: [{ slug: "ill", place: shopFile("ill"), reason: expect.stringContaining("no database") }],
      withoutGoodCopy: [{ database: "ill", problems: ["It could not be copied."] }],
    });
  });

  it("is not ready where the directory takes no write, though it can be read", async () => {
    const other = new Database(directoryFile());
    other.exec("BEGIN IMMEDIATE");
    try {
      expect(await readiness()).toEqual({ reads: true, writes: false });
      expect((await healthNow(null)).well).toBe(false);
    } finally {
      other.exec("ROLLBACK");
      other.close();
    }
    forgetAnswer();
    expect(await readiness()).toEqual({ reads: true, writes: true });
  }, 60_000);

  it("asks the disk once, however many ask at once", async () => {
    const answers = Array.from({ length: 50 }, () => readiness());
    expect(new Set(answers).size).toBe(1);
    expect(await answers[0]).toEqual({ reads: true, writes: true });
  });

  it("measures how late the event loop comes to its work", async () => {
    watchEventLoop();
    const until = performance.now() + 120;
    await new Promise((resume) => setTimeout(resume, 30));
    while (performance.now() < until);
    await new Promise((resume) => setTimeout(resume, 30));
    const { eventLoop } = await healthNow(null);
    expect(eventLoop?.longestMs).toBeGreaterThan(20);
    for (const figure of [eventLoop?.p50Ms, eventLoop?.p99Ms, eventLoop?.p999Ms, eventLoop?.longestMs])
      expect(String(figure)).toMatch(/^\d+(\.\d)?$/);
    expect(eventLoop?.p50Ms).toBeLessThanOrEqual(eventLoop?.longestMs ?? 0);
  });
});
