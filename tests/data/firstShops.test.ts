import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { tryLock } from "@/lib/db/folderLock";
import { atOnce } from "../support/atOnce";

const folder = mkdtempSync(join(tmpdir(), "throttlewright-first-"));
const before = process.env.DATA_DIR;
beforeAll(() => {
  reconfigure({ DATA_DIR: folder });
});
afterAll(() => {
  reconfigure({ DATA_DIR: before });
  rmSync(folder, { recursive: true, force: true });
});

describe.runIf(!process.env.DATABASE_URL)("an empty folder's first shops", () => {
  it("open where two processes make two each at one moment, from one template", async () => {
    const [one, two] = await atOnce<{ opened: unknown[] }>([
      ["tests/support/openFirstShop.ts", "2"],
      ["tests/support/openFirstShop.ts", "2"],
    ]);
    expect([one?.opened, two?.opened]).toEqual([
      [0, 0],
      [0, 0],
    ]);
    // It was a race: each began before the other had ended.
    expect(Math.max(one?.began ?? 0, two?.began ?? 0)).toBeLessThan(
      Math.min(one?.ended ?? 0, two?.ended ?? 0),
    );
    const templates = readdirSync(folder).filter((name) => name.startsWith("template-"));
    expect(templates).toEqual([expect.stringMatching(/^template-[0-9a-f]+-\d+\.sqlite$/)]);
  }, 120_000);
});

describe("a folder's lock", () => {
  it("is shared by many or held by one, and comes free when it is let go", () => {
    const file = join(folder, "some.lock");
    const first = tryLock(file, "shared");
    const second = tryLock(file, "shared");
    expect([first !== null, second !== null]).toEqual([true, true]);
    expect(tryLock(file, "alone")).toBeNull();
    first?.release();
    expect(tryLock(file, "alone")).toBeNull();
    second?.release();
    const alone = tryLock(file, "alone");
    expect(alone).not.toBeNull();
    expect(tryLock(file, "shared")).toBeNull();
    alone?.release();
    const again = tryLock(file, "shared");
    expect(again).not.toBeNull();
    again?.release();
  });
});
