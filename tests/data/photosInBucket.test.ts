import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { problemsOf } from "@/lib/data/books/invariants";
import { createPart } from "@/lib/data/parts/save";
import { removePhoto } from "@/lib/data/photos/change";
import { keepPhoto } from "@/lib/data/photos/keep";
import { sweepPhotos } from "@/lib/data/photos/sweep";
import { dropShopDatabase } from "@/lib/db/dropShop";
import { filesFolder, postgresUrl } from "@/lib/db/folders";
import { createShopDatabase } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { PHOTO, photoFiles } from "@/lib/domain/photos/limits";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { photoStore } from "@/lib/outside/photoStore";
import { preparePicture } from "@/lib/outside/pictures";
import { NewPartSchema } from "@/lib/schemas/parts";
import { copyShop } from "@/lib/server/backup/copyShop";
import { bringIn } from "@/lib/server/moving/bringIn";
import { exportShop } from "@/lib/server/moving/exportShop";
import { openArchive } from "@/lib/server/moving/zipIn";
import { givePictures } from "@/lib/server/restore/pictures";
import { stageShop } from "@/lib/server/restore/stage";
import { leadingTo, ownBucket } from "../support/bucket";
import { phonePhoto } from "../support/pictures";
import { as, twoShops } from "../support/shops";

const bucket = await ownBucket();
const picture = await preparePicture(await phonePhoto());
const DAY = 86_400_000;
const folder = mkdtempSync(join(tmpdir(), "throttlewright-bucket-copies-"));
let a: ShopHandle;
let b: ShopHandle;
let partId: number;

beforeAll(async () => {
  ({ a, b } = await twoShops());
  reconfigure(leadingTo(bucket));
  const part = NewPartSchema.parse({ code: "PB-1", name: "Needle", kind: "other", unit: "each" });
  for (const shop of [a, b]) partId = await createPart(shop, part);
  for (const shop of [a, b]) await keep(shop);
});
afterAll(() => {
  reconfigure(Object.fromEntries(Object.keys(leadingTo(bucket)).map((name) => [name, undefined])));
  rmSync(folder, { recursive: true, force: true });
});

const keep = (shop: ShopHandle, file = newFileName()) =>
  keepPhoto(shop, photoStore(shop), picture, { noun: "part", nounId: partId, file });
const filesOf = async (shop: { database: string; files: string }) =>
  (await photoStore(shop).list()).map(({ name }) => name).sort();
const named = async (shop: ShopHandle) =>
  (await shop.read.photo.findMany({ orderBy: { id: "asc" } }))
    .flatMap(({ file }) => Object.values(photoFiles(file)))
    .sort();

describe("photos in an S3 bucket", () => {
  it("lie there under their own shop alone, and nothing of them in the data folder", async () => {
    for (const shop of [a, b]) {
      expect(await filesOf(shop)).toEqual(await named(shop));
      expect(await problemsOf(shop, photoStore(shop))).toEqual([]);
      expect(existsSync(shop.files)).toBe(false);
    }
    const [mine] = await named(a);
    expect(await photoStore(b).get(mine as string)).toBeNull();
  });

  it("are swept once they were taken off long ago, and files without a row with them", async () => {
    const id = await keep(a);
    await removePhoto(a, { id, version: 1 });
    await photoStore(a).put(`${newFileName()}.jpg`, picture.small);
    const theirs = await filesOf(b);
    const late = as(a, { now: new Date(Date.now() + (PHOTO.keptDays + 2) * DAY) });
    expect(await sweepPhotos(late, photoStore(a))).toEqual({ photos: 1, files: 3 });
    expect(await filesOf(a)).toEqual(await named(a));
    expect(await filesOf(b)).toEqual(theirs);
  });

  it("go into an export, and from it into the bucket under the new shop", async () => {
    const file = join(folder, "export.zip");
    const { missingPhotos } = await exportShop({ ...a, name: "Shop a" }, file, a.now);
    expect(missingPhotos).toEqual([]);
    const archive = await openArchive(file);
    const database = `${a.database}_in`;
    const { shop, pictures } = await bringIn(archive, { slug: "in", database, server: "" }, a.now);
    archive.close();
    expect(pictures).toBe(2);
    expect(await filesOf(shop)).toEqual(await filesOf(a));
    expect(await problemsOf(shop, photoStore(shop))).toEqual([]);
  });

  it.skipIf(postgresUrl())("are read into a backup, and put back into the bucket by a restore", async () => {
    mkdirSync(join(folder, "copy", "shops"), { recursive: true });
    mkdirSync(join(folder, "next", "shops"), { recursive: true });
    // As in a server's directory: a shop's address is not its database's name.
    const place = { slug: "a-shop", database: a.database, server: "" };
    const first = await copyShop(place, join(folder, "copy"), null);
    expect(first).toMatchObject({ there: true, problems: [] });
    const copied = join(folder, "copy", "files", a.database);
    expect(readdirSync(copied).sort()).toEqual(await named(a));
    // The next one shares what the bucket still holds as it was.
    expect(await copyShop(place, join(folder, "next"), join(folder, "copy"))).toMatchObject({ problems: [] });
    await photoStore(a).clear();
    const holed = join(folder, "holed");
    mkdirSync(join(holed, "shops"), { recursive: true });
    expect((await copyShop(place, holed, join(folder, "copy"))).problems[0]).toContain(
      "its picture is missing",
    );
    const row = { id: "a", ...place };
    const making = join(folder, "making");
    expect(await stageShop(join(folder, "copy"), making, row)).toMatchObject({ damage: null, problems: [] });
    expect(existsSync(join(making, "files"))).toBe(false);
    await givePictures(join(folder, "copy"), row.database);
    expect(await problemsOf(a, photoStore(a))).toEqual([]);
    expect(await folderStore(copied).list()).toHaveLength(2);
  });

  it("are refused while the bucket cannot be reached, without a row, and the browser sends them again later", async () => {
    const before = await named(a);
    reconfigure({ PHOTO_STORE_URL: "http://127.0.0.1:1" });
    await expect(keep(a)).rejects.toMatchObject({
      kind: "busy",
      message: "The photo store cannot be reached (ECONNREFUSED): the photo was not kept.",
    });
    reconfigure({ PHOTO_STORE_URL: bucket.url });
    expect(await named(a)).toEqual(before);
    expect(await filesOf(a)).toEqual(before);
  });

  it("go with their shop, and with what lay in its folder before; the other shop's stay", async () => {
    const database = "shop_0123456789abcdef";
    await createShopDatabase({ database, server: "" });
    const gone = { database, files: filesFolder(database) };
    for (let n = 0; n < 3; n++) await photoStore(gone).put(`${newFileName()}.jpg`, picture.small);
    await folderStore(gone.files).put(`${newFileName()}.jpg`, picture.small);
    reconfigure({ PHOTO_STORE_URL: "http://127.0.0.1:1" });
    await expect(dropShopDatabase({ database, server: "" })).rejects.toMatchObject({ kind: "busy" });
    reconfigure({ PHOTO_STORE_URL: bucket.url });
    expect(await filesOf(gone)).toHaveLength(3);
    await dropShopDatabase({ database, server: "" });
    expect(await filesOf(gone)).toEqual([]);
    expect(existsSync(gone.files)).toBe(false);
    expect(await filesOf(b)).toEqual(await named(b));
  });
});
