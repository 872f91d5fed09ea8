import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { describe, expect, it } from "vitest";

/** Packages that a browser is not sent: what they are for is done on the server. */
const HEAVY = ["zod", "decimal.js", "next-auth"];

const IMPORT = /^(?:import|export)\s+(?:(?!type\s)([^"';]*?)\s+from\s+)?["']([^"']+)["']/gm;

/** What a file brings along with it as it runs: modules of ours as paths, packages by name. Types bring nothing. */
function broughtBy(file: string): string[] {
  const text = readFileSync(file, "utf8");
  return [...text.matchAll(IMPORT)]
    .filter(([, names]) => {
      const inBraces = /^\{([\s\S]*)\}$/.exec(names?.trim() ?? "")?.[1];
      const each = inBraces
        ?.split(",")
        .map((name) => name.trim())
        .filter(Boolean);
      return !each?.length || each.some((name) => !name.startsWith("type "));
    })
    .map(([, , named = ""]) => {
      if (named.startsWith("@/")) return named.slice(2);
      return named.startsWith(".") ? normalize(join(dirname(file), named)) : named;
    });
}

function fileOf(module: string): string | undefined {
  return [`${module}.ts`, `${module}.tsx`, `${module}/index.ts`, module].find(
    (file) => existsSync(file) && statSync(file).isFile() && /\.tsx?$/.test(file),
  );
}

/** Behind this the server goes on: the browser gets its name alone. */
const isServers = (file: string) => /^\s*["']use server["']/.test(readFileSync(file, "utf8"));

/** The shortest way from a client component to each heavy package it brings. */
function heavyChains(start: string): string[] {
  const found = new Map<string, string>();
  const seen = new Set([start]);
  const ways = [[start]];
  for (const way of ways)
    for (const target of broughtBy(way.at(-1) as string)) {
      const file = fileOf(target);
      const heavy = file ? undefined : HEAVY.find((name) => target === name || target.startsWith(`${name}/`));
      if (heavy && !found.has(heavy)) found.set(heavy, [...way, heavy].join(" -> "));
      if (!file || seen.has(file) || isServers(file)) continue;
      seen.add(file);
      ways.push([...way, file]);
    }
  return [...found.values()];
}

const clients = readdirSync("app", { recursive: true, encoding: "utf8" })
  .map((name) => join("app", name))
  .filter((name) => /\.tsx?$/.test(name) && /^\s*["']use client["']/.test(readFileSync(name, "utf8")));

describe("what browsers are sent", () => {
  it("finds the client components", () => {
    expect(clients.length).toBeGreaterThan(100);
  });

  it("is no library for checking input, for decimal arithmetic or for signing in", () => {
    expect(clients.flatMap(heavyChains)).toEqual([]);
  });
});
