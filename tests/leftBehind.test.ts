import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { directory, isDirectoryOpen } from "@/lib/db/directory";
import { openShopCount } from "@/lib/db/shop";
import { shopFaults, shutShop } from "@/lib/db/shopFaults";
import { readiness } from "@/lib/gate/health";
import { shopsInDirectory } from "./support/dataFolder";
import { rememberProcess } from "./support/leftBehind";

it("a test file's end closes its directory and shops, forgets the shops it shut and puts every setting back", async () => {
  const { DATA_DIR } = process.env;
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-left-"));
  const leaveNothing = rememberProcess();
  reconfigure({ DATA_DIR: folder, HEALTH_TOKEN: "a-token-of-the-owner" });
  const [shop] = await shopsInDirectory(["open"]);
  expect(await shop?.read.part.count()).toBe(0);
  expect(await directory().read.shop.count()).toBe(1);
  expect(await readiness()).toEqual({ reads: true, writes: true });
  shutShop({ slug: "open", database: "open", place: folder, reason: "Its file is damaged.", lasting: true });
  expect([openShopCount(), isDirectoryOpen(), shopFaults().length]).toEqual([1, true, 1]);

  await leaveNothing();
  expect([openShopCount(), isDirectoryOpen(), shopFaults().length]).toEqual([0, false, 0]);
  expect("throttlewrightReady" in globalThis).toBe(false);
  expect(process.env.DATA_DIR).toBe(DATA_DIR);
  expect(process.env.HEALTH_TOKEN).toBeUndefined();
  expect(configuration().HEALTH_TOKEN).toBeUndefined();
  rmSync(folder, { recursive: true, force: true });
});
