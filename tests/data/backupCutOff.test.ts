import { spawn } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory } from "@/lib/db/directory";
import { closeShops, type ShopHandle } from "@/lib/db/shop";
import { backupsIn, makeBackup, manifestOf } from "@/lib/server/backup/make";
import { copiedSoFar } from "@/lib/server/backup/unfinished";
import { runCommand } from "../support/commands";
import { shopsInDirectory } from "../support/dataFolder";

const before = process.env.DATA_DIR;
const data = mkdtempSync(join(tmpdir(), "throttlewright-cut-"));
const copies = join(data, "backups");
const SLUGS = ["aspen", "birch", "cedar", "durian", "elder"];
let shops: ShopHandle[];

/** The command, killed once it has told of so many shops. */
async function killedAfter(count: number): Promise<void> {
  const child = spawn(process.execPath, ["--import", "tsx", "lib/server/backup.ts"], {
    env: process.env,
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise((done) => child.once("close", done));
  let said = "";
  child.stdout.on("data", (chunk: Buffer) => {
    said += chunk.toString();
    if (said.split(" of 5").length > count) child.kill("SIGKILL");
  });
  await ended;
  expect(child.signalCode).toBe("SIGKILL");
}

const makingIn = () => {
  const names = readdirSync(copies).filter((name) => name.endsWith(".in-the-making"));
  expect(names).toHaveLength(1);
  return join(copies, names[0] as string);
};
const fileOf = (folder: string, slug: string) => join(folder, "shops", `${slug}.sqlite`);

describe.runIf(!process.env.DATABASE_URL)("a backup that was killed in the middle", () => {
  beforeAll(async () => {
    reconfigure({ DATA_DIR: data });
    shops = await shopsInDirectory(SLUGS);
    await closeShops();
  });
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
    reconfigure({ DATA_DIR: before });
    rmSync(data, { recursive: true, force: true });
  });

  it("is gone on with: what was copied and checked stays, what was written to since or is not whole is copied anew", async () => {
    await killedAfter(3);
    const making = makingIn();
    expect(backupsIn(copies)).toEqual([]);
    const copied = [...copiedSoFar(making).keys()].sort();
    expect(copied.length).toBeGreaterThanOrEqual(3);
    const [kept, written, torn] = copied as [string, string, string];
    // The next finds a line that was cut off, a copy that the disk has lost the end of, and pieces of a shop that is gone.
    const was = statSync(fileOf(making, kept));
    truncateSync(fileOf(making, torn), 4096 * 3);
    writeFileSync(join(making, "shops", "gone.sqlite"), "left");
    mkdirSync(join(making, "files", "gone"), { recursive: true });
    const shop = shops.find(({ slug }) => slug === written) as ShopHandle;
    await shop.write((tx) => tx.bay.create({ data: { name: "Written since" } }));

    const told = await runCommand("lib/server/backup.ts", []);
    expect(told.code).toBe(0);
    expect(told.text).toContain(`${kept}: copied before the last backup was cut off`);
    for (const slug of [written, torn]) expect(told.text).toContain(`${slug}: copied, opened and checked`);
    expect(told.text).toMatch(/5 of 5 /);
    const [whole, ...more] = backupsIn(copies);
    expect(more).toEqual([]);
    expect(existsSync(making)).toBe(false);
    const folder = whole?.path ?? "";
    expect(readdirSync(folder).sort()).toEqual(["backup.json", "directory.sqlite", "files", "shops"]);
    expect(readdirSync(join(folder, "files"))).toEqual([]);
    expect(readdirSync(join(folder, "shops")).sort()).toEqual(SLUGS.map((slug) => `${slug}.sqlite`));
    expect(manifestOf(folder)?.shops).toEqual(
      SLUGS.map((slug) => expect.objectContaining({ slug, there: true, problems: [] })),
    );
    const { ino, mtimeMs } = statSync(fileOf(folder, kept));
    expect({ ino, mtimeMs }).toEqual({ ino: was.ino, mtimeMs: was.mtimeMs });
    const raw = new Database(fileOf(folder, written), { readonly: true });
    expect(raw.prepare(`SELECT count(*) AS n FROM "Bay" WHERE "name" = 'Written since'`).get()).toEqual({
      n: 1,
    });
    raw.close();
  }, 180_000);

  it("copies all anew in the next one, once it was whole, and tells how far it is", async () => {
    const told: string[] = [];
    const made = await makeBackup(
      join(copies, "2030-01-01T00-00-00-000Z"),
      ({ slug }, { done, of, before: was }) =>
        told.push(`${done} of ${of} ${was ? "kept" : "copied"} ${slug}`),
    );
    expect(told.map((line) => line.replace(/ [a-z]+$/, ""))).toEqual(
      SLUGS.map((_, at) => `${at + 1} of 5 copied`),
    );
    expect(made.shops.map(({ slug }) => slug)).toEqual(SLUGS);
  }, 60_000);
});
