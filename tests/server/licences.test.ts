import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { licenceLines, shipped } from "@/lib/server/licences";

const folder = mkdtempSync(join(tmpdir(), "throttlewright-licences-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function put(path: string, content: object | string): void {
  const at = join(folder, path);
  mkdirSync(dirname(at), { recursive: true });
  writeFileSync(at, typeof content === "string" ? content : JSON.stringify(content));
}

describe("the licences of what ships", () => {
  it("are found through the tree, nested versions and needed peers too, without what only tests", () => {
    put("package.json", { dependencies: { a: "1" }, devDependencies: { tool: "1" } });
    put("node_modules/tool/package.json", { version: "1.0.0", license: "MIT" });
    put("node_modules/a/package.json", {
      version: "1.0.0",
      license: "MIT",
      dependencies: { b: "1" },
      optionalDependencies: { absent: "1" },
      peerDependencies: { peer: "*", tool: "*" },
      peerDependenciesMeta: { tool: { optional: true } },
    });
    put("node_modules/a/LICENSE", "MIT");
    put("node_modules/a/node_modules/b/package.json", { version: "1.5.0", licenses: [{ type: "ISC" }] });
    put("node_modules/b/package.json", { version: "2.0.0", license: "MIT" });
    put("node_modules/peer/package.json", { version: "3.0.0" });
    const found = shipped(folder);
    expect(found).toEqual([
      { name: "a", version: "1.0.0", licence: "MIT", texts: ["node_modules/a/LICENSE"] },
      { name: "b", version: "1.5.0", licence: "ISC", texts: [] },
      { name: "peer", version: "3.0.0", licence: null, texts: [] },
    ]);
    const text = licenceLines(found).join("\n");
    expect(text).toContain("Without a text of their own (2): b@1.5.0, peer@3.0.0.");
    expect(text).toContain("Without any licence (1): peer@3.0.0.");
  });

  it("are all named here, and the schema tool is not among what ships", () => {
    const found = shipped(process.cwd());
    const names = found.map((one) => one.name);
    expect(names).toEqual(
      expect.arrayContaining(["next", "react", "@prisma/client", "better-sqlite3", "sharp"]),
    );
    for (const tool of ["prisma", "@prisma/engines", "vitest", "@playwright/test", "@biomejs/biome"])
      expect(names).not.toContain(tool);
    expect(found.filter((one) => one.licence === null && one.texts.length === 0)).toEqual([]);
  });
});
