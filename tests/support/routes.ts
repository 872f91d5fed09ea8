import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Every page and file route of a shop that can be opened, as addresses with `:shop` and ids filled in. */
export function shopAddresses(slug: string, id = "1"): string[] {
  return routes(slug, id)
    .filter((route) => !route.file.endsWith("route.ts") || /export const GET\b/.test(route.source))
    .map((route) => route.address)
    .sort();
}

export interface Upload {
  readonly address: string;
  readonly file: string;
  /** The permission written beside it. */
  readonly permission: string | null;
}

/** Every route of a shop that takes something in: what exports any method but GET. */
export function shopUploads(slug: string, id = "1"): Upload[] {
  return routes(slug, id)
    .filter(
      (route) =>
        route.file.endsWith("route.ts") &&
        !takesActs(route) &&
        /export (?:const|async function|function) (?!GET\b)[A-Z]+\b/.test(route.source),
    )
    .map(({ address, file, source }) => ({
      address,
      file,
      permission: /shopUpload\(\s*"([^"]+)"/.exec(source)?.[1] ?? null,
    }));
}

/** Every route of a shop that takes acts from a device: each act says its own permission. */
export function shopActRoutes(slug: string): string[] {
  return routes(slug, "1")
    .filter((route) => route.file.endsWith("route.ts") && takesActs(route))
    .map((route) => route.address);
}

const takesActs = ({ source }: Route) => /export const POST = shopActs\(/.test(source);

interface Route {
  readonly address: string;
  readonly file: string;
  readonly source: string;
}

function routes(slug: string, id: string): Route[] {
  const found: Route[] = [];
  for (const [base, name] of [
    ["app/s/[shop]", "page.tsx"],
    ["app/api/s/[shop]", "route.ts"],
  ] as const) {
    if (!existsSync(base)) continue;
    for (const file of readdirSync(base, { recursive: true, encoding: "utf8" })) {
      if (file !== name && !file.endsWith(`/${name}`)) continue;
      const address = join(base, file)
        .replace(/^app/, "")
        .replace(new RegExp(`/?${name}$`), "")
        .replace("[shop]", slug)
        .replace(/\[[^\]]+\]/g, id);
      const at = join(base, file);
      found.push({ address, file: at, source: readFileSync(at, "utf8") });
    }
  }
  return found;
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
  const dist = process.env.NEXT_DIST ?? ".next";
  const manifest = JSON.parse(readFileSync(join(dist, "server/server-reference-manifest.json"), "utf8")) as {
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
