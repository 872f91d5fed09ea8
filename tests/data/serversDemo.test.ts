import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { closeShops } from "@/lib/db/shop";
import { makeDemo } from "@/lib/server/demoShops";
import { nameServers } from "../support/ownDatabase";
import { isOn, openOn, schemasOn } from "../support/servers";

const NOW = new Date("2026-11-25T00:30:00Z");
const folder = mkdtempSync(join(tmpdir(), "throttlewright-servers-"));

describe.runIf(postgresUrl())("demo shops with two servers (npm run test:postgres)", () => {
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
    rmSync(folder, { recursive: true, force: true });
  });

  it("are made where new shops go; what a stop left of them goes from there before they are made anew", async () => {
    reconfigure({ DATA_DIR: folder });
    await nameServers("b");
    await migrateAll();
    const people = ["owner@first.example", "owner@second.example"];
    const cut = async () => {
      await openOn("b", "first");
      throw new Error("stopped");
    };
    await expect(makeDemo(cut, NOW, people)).rejects.toThrow("stopped");
    const left = await directory().read.shop.findFirstOrThrow({
      select: { slug: true, database: true, server: true },
      orderBy: { id: "asc" },
    });
    expect(left).toMatchObject({ slug: "first", server: "b" });
    expect(await isOn("b", left)).toBe(true);

    await makeDemo(async () => void (await openOn("b", "second")), NOW, people);
    expect(await isOn("b", left)).toBe(false);
    expect(
      await directory().read.shop.findMany({ select: { slug: true, server: true }, orderBy: { id: "asc" } }),
    ).toEqual([{ slug: "second", server: "b" }]);
    expect(await schemasOn("b", "shop\\_%")).toHaveLength(1);
    expect(await schemasOn("", "shop\\_%")).toEqual([]);
  }, 120_000);
});
