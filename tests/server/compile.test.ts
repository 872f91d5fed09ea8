import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build, stop } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { compiledName, ownScript } from "@/lib/db/ownScript";
import { invoicePdf } from "@/lib/documents/invoice";
import { compileServer } from "@/lib/server/compile";
import { shareSameChunks } from "@/lib/server/sameChunks";
import { makeWorkers, workIn } from "@/lib/workers/pool";
import { invoiceSample } from "../documents/samples";

// In the project, so that what is compiled finds the packages.
mkdirSync(".tmp", { recursive: true });
const folder = mkdtempSync(join(process.cwd(), ".tmp", "compiled-"));
const built = mkdtempSync(join(tmpdir(), "throttlewright-chunks-"));
beforeAll(() => compileServer(folder));
afterAll(() => {
  for (const one of [folder, built]) rmSync(one, { recursive: true, force: true });
});

/** What plain Node says of a compiled script, without tsx. */
function said(source: string, expression: string): unknown {
  const url = pathToFileURL(join(folder, compiledName(source))).href;
  const text = `import(${JSON.stringify(url)}).then(async (own) => console.log(JSON.stringify(${expression})))`;
  return JSON.parse(execFileSync(process.execPath, ["--eval", text], { encoding: "utf8" }));
}

describe("the start", () => {
  it("loads nothing at first that is not there before the first start has made it: the database clients", async () => {
    const { metafile } = await build({
      entryPoints: ["lib/server/prepareApart.ts"],
      outdir: folder,
      bundle: true,
      splitting: true,
      packages: "external",
      format: "esm",
      platform: "node",
      metafile: true,
      write: false,
    });
    await stop();
    const loaded = new Set<string>();
    const load = (name: string) => {
      const file = metafile.outputs[name];
      if (!file || loaded.has(name)) return;
      loaded.add(name);
      for (const { path, kind } of file.imports) if (kind === "import-statement") load(path);
    };
    for (const [name, { entryPoint }] of Object.entries(metafile.outputs))
      if (entryPoint === "lib/server/prepareApart.ts") load(name);
    const sources = [...loaded].flatMap((name) => Object.keys(metafile.outputs[name]?.inputs ?? {}));
    expect(sources).toContain("lib/server/prepare.ts");
    expect(sources.filter((source) => source.includes("generated"))).toEqual([]);
  });
});

describe("the compiled server", () => {
  it("loads under Node alone, and knows that it is compiled and where", () => {
    expect(said("lib/server/run.ts", "[typeof own.run, globalThis.throttlewrightCompiled]")).toEqual([
      "function",
      folder,
    ]);
  });

  it("prints in its own threads what the source prints", async () => {
    const kept = globalThis as { throttlewrightCompiled?: string };
    kept.throttlewrightCompiled = folder;
    expect(ownScript("lib/workers/thread.ts")).toEqual({
      file: join(folder, "lib.workers.thread.mjs"),
      execArgv: [],
    });
    const workers = makeWorkers("lib/workers/thread.ts", 1);
    delete kept.throttlewrightCompiled;
    try {
      const input = invoiceSample("AU");
      const printed = await workIn(workers, "saltpan", { task: "invoicePdf", input }, {});
      expect(Buffer.from(printed as Uint8Array).equals(await invoicePdf(input))).toBe(true);
    } finally {
      await workers.pool.destroy();
    }
  });

  it("points a failure to its place in the source", () => {
    const map = JSON.parse(readFileSync(join(folder, `${compiledName("lib/server/run.ts")}.map`), "utf8"));
    expect(map.sources).toContainEqual(expect.stringMatching(/lib\/server\/rounds\.ts$/));
  });
});

describe("equal chunks of a build", () => {
  it("are loaded once, under each of their names", () => {
    const chunks = join(built, "server/chunks");
    mkdirSync(join(chunks, "ssr"), { recursive: true });
    const text = (id: number) => `module.exports=[${id},()=>"${"x".repeat(3_000)}"];`;
    for (const [name, id] of [
      ["a.js", 1],
      ["[b].js", 1],
      ["ssr/c.js", 1],
      ["d.js", 2],
    ] as const)
      writeFileSync(join(chunks, name), text(id));
    writeFileSync(join(chunks, "e.js"), "module.exports=[3];");
    writeFileSync(join(chunks, "f.js"), "module.exports=[3];");
    expect(shareSameChunks(built)).toBe(2);
    expect(shareSameChunks(built)).toBe(0);
    const load = createRequire(join(chunks, "runtime.js"));
    expect(load("./a.js")[0]).toBe(1);
    expect(load("./[b].js")).toBe(load("./a.js"));
    expect(load("./ssr/c.js")).toBe(load("./a.js"));
    expect(load("./d.js")[0]).toBe(2);
    expect(load("./e.js")).not.toBe(load("./f.js"));
  });
});
