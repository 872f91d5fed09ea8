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
import { postgresUrl } from "@/lib/db/folders";
import { inPostgres } from "@/lib/db/postgres";
import { schemaStamp } from "@/lib/db/schemaStamp";
import { closeShops, type ShopHandle, type ShopTx } from "@/lib/db/shop";
import { backupsIn, makeBackup, manifestOf } from "@/lib/server/backup/make";
import { rowsIn } from "@/lib/server/backup/postgres/dump";
import { copiedSoFar } from "@/lib/server/backup/unfinished";
import { runCommand } from "../support/commands";
import { nodeArgs } from "../support/compiled";
import { shopsInDirectory } from "../support/dataFolder";

const before = process.env.DATA_DIR;
const data = mkdtempSync(join(tmpdir(), "throttlewright-cut-"));
const copies = join(data, "backups");
const SLUGS = ["aspen", "birch", "cedar", "durian", "elder"];
let shops: ShopHandle[];

/** The command, killed once it has told of so many shops. */
async function killedAfter(count: number): Promise<void> {
  const child = spawn(process.execPath, nodeArgs("lib/server/backup.ts"), {
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
const postgres = Boolean(postgresUrl());
const nameOf = (slug: string) => `${slug}.${postgres ? "dump" : "sqlite"}`;
const fileOf = (folder: string, slug: string) => join(folder, "shops", nameOf(slug));

/** How many bays are in the copy of a shop. */
async function baysIn(file: string): Promise<unknown> {
  if (postgres) return (await rowsIn(file)).Bay;
  const raw = new Database(file, { readonly: true });
  try {
    return raw.prepare(`SELECT count(*) FROM "Bay"`).pluck().get();
  } finally {
    raw.close();
  }
}

describe("a backup that was killed in the middle", () => {
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
    expect(readdirSync(folder).sort()).toEqual(["backup.json", nameOf("directory"), "files", "shops"]);
    expect(readdirSync(join(folder, "files"))).toEqual([]);
    expect(readdirSync(join(folder, "shops")).sort()).toEqual(SLUGS.map(nameOf));
    expect(manifestOf(folder)?.shops).toEqual(
      SLUGS.map((slug) => expect.objectContaining({ slug, there: true, problems: [] })),
    );
    const { ino, mtimeMs } = statSync(fileOf(folder, kept));
    expect({ ino, mtimeMs }).toEqual({ ino: was.ino, mtimeMs: was.mtimeMs });
    expect(await baysIn(fileOf(folder, written))).toBe(Number(await baysIn(fileOf(folder, kept))) + 1);
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

  it.runIf(postgres)(
    "tells by a schema's stamp that its rows are not the very same any more, and by nothing else",
    async () => {
      const url = postgresUrl() ?? "";
      const [shop, other] = shops as [ShopHandle, ShopHandle];
      const stamp = () => schemaStamp(url, shop.database);
      const seen = [await stamp()];
      const changes = async (run: (tx: ShopTx) => Promise<unknown>) => {
        await shop.write(run);
        seen.push(await stamp());
      };
      await changes((tx) => tx.bay.create({ data: { name: "One more" } }));
      await changes((tx) => tx.bay.updateMany({ where: { name: "One more" }, data: { name: "One other" } }));
      await changes((tx) => tx.bay.updateMany({ where: { name: "One other" }, data: { name: "One other" } }));
      await changes((tx) => tx.bay.deleteMany({ where: { name: { not: "One other" } } }));
      expect(new Set(seen).size).toBe(5);
      await other.write((tx) => tx.bay.create({ data: { name: "Elsewhere" } }));
      await shop.read.bay.findMany({ orderBy: { id: "asc" } });
      await expect(
        shop.write(async (tx) => {
          await tx.bay.create({ data: { name: "Taken back" } });
          throw new Error("Nothing of this.");
        }),
      ).rejects.toThrow("Nothing of this.");
      await inPostgres(url, (client) => client.query(`VACUUM (FREEZE, ANALYZE) "${shop.database}"."Bay"`));
      expect(await stamp()).toBe(seen.at(-1));
    },
  );
});
