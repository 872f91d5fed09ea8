import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSignIns } from "@/demo/build";
import { reconfigure } from "@/lib/configuration/configuration";
import { createPerson } from "@/lib/data/people/signUp";
import { backupRecord, keepBackupRecord } from "@/lib/db/backupRecord";
import { closeDirectory } from "@/lib/db/directory";
import { closeShops, shopFile } from "@/lib/db/shop";
import { backupOf } from "@/lib/gate/backups";
import { backupsIn, dropOldBackups, MANIFEST } from "@/lib/server/backup/make";
import { backupPlan } from "@/lib/server/backup/plan";
import { dueNow, runBackup } from "@/lib/server/backup/schedule";
import { makePrivate, writePrivately } from "@/lib/server/privacy";
import { damageMiddle, shopsInDirectory } from "../support/dataFolder";

const folder = mkdtempSync(join(tmpdir(), "throttlewright-schedule-"));
const before = { ...process.env };
beforeAll(async () => {
  reconfigure({ DATA_DIR: folder });
  await shopsInDirectory(["ill", "well"]);
  await closeShops();
  await closeDirectory();
});
afterAll(async () => {
  await closeShops();
  await closeDirectory();
  reconfigure({ DATA_DIR: before.DATA_DIR });
  rmSync(folder, { recursive: true, force: true });
});

const HOUR = 3_600_000;
const modes = () =>
  Object.fromEntries(
    ["", "directory.sqlite", "shops", "shops/well.sqlite", "files/well/one.jpg", "secret", "notes.txt"].map(
      (name) => [name || ".", (statSync(join(folder, name)).mode & 0o777).toString(8)],
    ),
  );

describe.runIf(!process.env.DATABASE_URL)("the server's own backup", () => {
  it("runs in a process of its own, keeps its result, and is not due again that day; a failing shop is told apart", async () => {
    const plan = backupPlan();
    expect(plan).toMatchObject({ on: true, at: "03:30", keepDays: 14, keepWeeks: 8 });
    expect(dueNow(plan, Date.now())).toBe(true);
    await runBackup(plan);
    const first = backupRecord();
    expect(first).toMatchObject({
      last: { shops: 2, bad: 0 },
      shops: { ill: { problems: [] }, well: { problems: [] } },
    });
    expect(first?.last?.bytes).toBeGreaterThan(500_000);
    expect(dueNow(plan, Date.now())).toBe(false);
    expect(dueNow(plan, Date.now() + 25 * HOUR)).toBe(true);

    damageMiddle(shopFile("ill"));
    await runBackup(plan);
    const now = new Date();
    expect(backupOf("well", now)).toMatchObject({ known: true, late: false, problems: [] });
    const ill = backupOf("ill", now);
    expect(ill).toMatchObject({
      known: true,
      late: false,
      problems: [expect.stringContaining("could not be copied")],
    });
    expect(ill.goodAt?.toISOString()).toBe(first?.shops.ill?.goodAt);
    expect(backupOf("ill", new Date(now.getTime() + 49 * HOUR)).late).toBe(true);
    expect(backupsIn(plan.folder).map(({ good }) => good)).toEqual([["ill", "well"], ["well"]]);
  }, 120_000);

  it("is told of and tried again within hours where it could not be made at all", async () => {
    reconfigure({ BACKUP_DIR: join(folder, "directory.sqlite") });
    const plan = backupPlan();
    await runBackup(plan);
    reconfigure({ BACKUP_DIR: undefined });
    expect(backupRecord()?.last?.failed).toBeTruthy();
    expect(backupRecord()?.shops.well?.goodAt).toBeTruthy();
    expect(dueNow(plan, Date.now())).toBe(false);
    expect(dueNow(plan, Date.now() + 2 * HOUR)).toBe(true);
  }, 60_000);

  it("removes what need no longer be kept, and nothing that is not its own", () => {
    const kept = join(folder, "many");
    for (let n = 0; n < 40; n++) {
      const at = new Date(Date.UTC(2026, 9, 1) + n * 24 * HOUR).toISOString();
      const path = join(kept, at.replace(/[:.]/g, "-"));
      mkdirSync(path, { recursive: true });
      writeFileSync(join(path, MANIFEST), JSON.stringify({ beganAt: at, endedAt: at, shops: [] }));
    }
    mkdirSync(join(kept, "by-hand"));
    expect(dropOldBackups(kept, 3, 2).length).toBe(35);
    expect(readdirSync(kept)).toHaveLength(6);
    expect(existsSync(join(kept, "by-hand"))).toBe(true);
  });

  it("is not missed where the server's owner keeps copies in another way", () => {
    const longAgo = "2026-01-01T00:00:00.000Z";
    reconfigure({ BACKUP: "off" });
    keepBackupRecord({ since: longAgo, last: null, shops: {} });
    expect(backupOf("well", new Date())).toMatchObject({ known: false, late: false });
    reconfigure({ BACKUP: undefined });
    expect(backupOf("well", new Date())).toMatchObject({ known: true, late: true, goodAt: null });
  });

  it("refuses hours and counts that cannot be meant", () => {
    for (const [name, value] of [
      ["BACKUP_AT", "25:00"],
      ["BACKUP_KEEP_DAYS", "0"],
      ["BACKUP_KEEP_WEEKS", "many"],
    ] as const) {
      expect(() => reconfigure({ [name]: value }), name).toThrow(name);
    }
  });
});

describe.runIf(!process.env.DATABASE_URL)("a data folder", () => {
  it("is for the server's user alone, also one that was open to all, and nothing else in it is touched", () => {
    mkdirSync(join(folder, "files/well"), { recursive: true });
    for (const name of ["files/well/one.jpg", "secret", "notes.txt"]) writeFileSync(join(folder, name), "x");
    symlinkSync(join(folder, "notes.txt"), join(folder, "files/well/link"));
    for (const name of ["", "shops"]) chmodSync(join(folder, name), 0o755);
    for (const name of ["directory.sqlite", "shops/well.sqlite", "files/well/one.jpg", "secret", "notes.txt"])
      chmodSync(join(folder, name), 0o644);
    makePrivate();
    expect(modes()).toEqual({
      ".": "700",
      "directory.sqlite": "600",
      shops: "700",
      "shops/well.sqlite": "600",
      "files/well/one.jpg": "600",
      secret: "600",
      "notes.txt": "644",
    });
  });

  it("gets new files that are private as well", () => {
    const usual = writePrivately();
    writeFileSync(join(folder, "shops/new.sqlite"), "");
    process.umask(usual);
    expect((statSync(join(folder, "shops/new.sqlite")).mode & 0o777).toString(8)).toBe("600");
  });
});

describe("what the start prints of the demo people", () => {
  it("is their password where it lets them in, and after a restore none that does not", async () => {
    const now = new Date("2026-11-25T00:30:00Z");
    if (process.env.DATABASE_URL) await shopsInDirectory([]);
    expect(await demoSignIns()).toEqual([]);
    await createPerson(
      { name: "Maren", email: "maren@saltpan.example", password: "bowl-brass-choke-1234" },
      now,
    );
    reconfigure({ DEMO_PASSWORD: "bowl-brass-choke-1234" });
    expect((await demoSignIns()).join("\n")).toContain("bowl-brass-choke-1234");
    expect((await demoSignIns()).join("\n")).not.toContain("sunniva");
    reconfigure({ DEMO_PASSWORD: "another-one-9876" });
    const printed = (await demoSignIns()).join("\n");
    expect(printed).toContain("npm run reset-link -- maren@saltpan.example");
    expect(printed).not.toContain("another-one-9876");
    reconfigure({ DEMO_PASSWORD: undefined });
    expect((await demoSignIns()).join("\n")).not.toMatch(/Demo password/);
    // Nothing was made up and kept for the next start either.
    expect(existsSync(join(folder, "demo-sign-ins.txt"))).toBe(false);
  });
});
