import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Every page and file route that belongs to a shop, as addresses with `:shop` and ids filled in. */
export function shopAddresses(slug: string, id = "1"): string[] {
  const found: string[] = [];
  for (const [base, name] of [
    ["app/s/[shop]", "page.tsx"],
    ["app/api/s/[shop]", "route.ts"],
  ] as const) {
    if (!existsSync(base)) continue;
    for (const file of readdirSync(base, { recursive: true, encoding: "utf8" })) {
      if (file !== name && !file.endsWith(`/${name}`)) continue;
      const path = join(base, file)
        .replace(/^app/, "")
        .replace(new RegExp(`/?${name}$`), "")
        .replace("[shop]", slug)
        .replace(/\[[^\]]+\]/g, id);
      found.push(path);
    }
  }
  return found.sort();
}

export interface ServerAction {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  /** A page that carries it, as an address pattern. */
  readonly page: string;
  /** The permission written beside it; null for actions outside a shop. */
  readonly permission: string | null;
}

/** Every server action of the current build, read off Next.js's own manifest. */
export function serverActions(): ServerAction[] {
  const manifest = JSON.parse(readFileSync(".next/server/server-reference-manifest.json", "utf8")) as {
    node: Record<string, { workers: Record<string, unknown>; filename: string; exportedName: string }>;
  };
  return Object.entries(manifest.node).map(([id, { workers, filename, exportedName }]) => {
    const source = readFileSync(filename, "utf8");
    const permission =
      new RegExp(`export const ${exportedName}\\b[^=]*=\\s*action\\(\\s*"([^"]+)"`).exec(source)?.[1] ?? null;
    const page = (Object.keys(workers)[0] ?? "")
      .replace(/^app/, "")
      .replace(/\/page$/, "")
      .replace(/\/\([^)]+\)/g, "");
    return { id, name: exportedName, file: filename, page: page || "/", permission };
  });
}
