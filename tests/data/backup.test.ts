import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { createPart } from "@/lib/data/parts/save";
import { keepPhoto } from "@/lib/data/photos/keep";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { photoFiles } from "@/lib/domain/photos/limits";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { NewPartSchema } from "@/lib/schemas/parts";
import { runCommand } from "../support/commands";
import { phonePhoto } from "../support/pictures";
import { twoShops } from "../support/shops";

const target = mkdtempSync(join(tmpdir(), "throttlewright-backup-"));
afterAll(async () => {
  await closeDirectory();
  rmSync(target, { recursive: true, force: true });
});

/** The command as its owner runs it, in a process of its own. */
const backup = (folder: string) => runCommand("lib/server/backup.ts", [folder]);

async function photographed(shop: ShopHandle): Promise<string> {
  const part = await createPart(
    shop,
    NewPartSchema.parse({ code: "BK-1", name: "Slide", kind: "other", unit: "each" }),
  );
  const file = newFileName();
  const picture = await preparePicture(await phonePhoto());
  await keepPhoto(shop, folderStore(shop.files), picture, { noun: "part", nounId: part, file });
  return file;
}

/** As in a server's directory: it is not the name of the shop's database. */
const addressOf = ({ slug }: ShopHandle) => `shop-${slug.replaceAll("_", "-")}`;

describe("the backup command", () => {
  it("carries each shop's photos beside its database, and tells where one is missing", async () => {
    const { a, b } = await twoShops();
    await migrateAll();
    for (const shop of [a, b])
      await directory().write((tx) =>
        tx.shop.create({
          data: {
            id: shop.slug,
            slug: addressOf(shop),
            name: shop.slug,
            database: shop.slug,
            createdAt: shop.now,
          },
        }),
      );
    const mine = await photographed(a);
    const theirs = await photographed(b);
    const whole = join(target, "whole");
    const first = await backup(whole);
    expect(first.text).toContain(`${addressOf(a)}: copied, opened and checked`);
    expect(first.code).toBe(0);
    for (const [shop, file] of [
      [a, mine],
      [b, theirs],
    ] as const) {
      expect(readdirSync(join(whole, "files", shop.slug)).sort()).toEqual(
        Object.values(photoFiles(file)).sort(),
      );
      const copied = await folderStore(join(whole, "files", shop.slug)).get(photoFiles(file).large);
      expect(copied).toEqual(await folderStore(shop.files).get(photoFiles(file).large));
    }
    rmSync(join(b.files, photoFiles(theirs).large));
    const second = await backup(join(target, "holed"));
    expect(second.text).toContain("Photo 1 of part 1: its picture is missing.");
    expect(second.code).toBe(1);
  });
});
