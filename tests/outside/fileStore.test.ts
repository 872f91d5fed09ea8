import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { folderStore, newFileName } from "@/lib/outside/fileStore";

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "throttlewright-files-"));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

describe("the file store in a folder", () => {
  it("gives back what was put, and null for what is not there or was removed", async () => {
    const files = folderStore(join(root, "shop_a"));
    const name = `${newFileName()}.jpg`;
    expect(await files.list()).toEqual([]);
    expect(await files.get(name)).toBeNull();
    await files.put(name, Buffer.from("picture"));
    expect(Buffer.from((await files.get(name)) ?? []).toString()).toBe("picture");
    expect((await files.list()).map((file) => file.name)).toEqual([name]);
    await files.remove(name);
    await files.remove(name);
    expect(await files.get(name)).toBeNull();
    expect(readdirSync(join(root, "shop_a"))).toEqual([]);
  });

  it("lets no name out of its folder", async () => {
    writeFileSync(join(root, "secret.txt"), "of another");
    const files = folderStore(join(root, "shop_a"));
    for (const name of [
      "../secret.txt",
      "..\\secret.txt",
      "/etc/passwd",
      "aaaaaaaa/../../secret.txt",
      "aaaaaaaa.jpg/../../secret.txt",
      "aaaaaaaa.jpg\0.txt",
      "AAAAAAAA.jpg",
      "C:aaaaaaaa.jpg",
      ".aaaaaaaa.jpg",
      "",
    ]) {
      const wrong = /no name of a kept file/;
      await expect(async () => files.get(name), name).rejects.toThrow(wrong);
      await expect(async () => files.put(name, Buffer.from("x")), name).rejects.toThrow(wrong);
      await expect(async () => files.remove(name), name).rejects.toThrow(wrong);
    }
    expect(existsSync(join(root, "secret.txt"))).toBe(true);
    expect(readdirSync(root)).toEqual(["secret.txt"]);
  });

  it("makes names that say nothing and are not met twice", () => {
    const names = Array.from({ length: 500 }, newFileName);
    expect(new Set(names).size).toBe(500);
    expect(names.every((name) => /^[0-9a-f]{32}$/.test(name))).toBe(true);
  });
});
