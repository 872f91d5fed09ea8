import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { say } from "@/lib/log/say";

interface Manifest {
  readonly name?: string;
  readonly version?: string;
  readonly license?: string | { readonly type?: string };
  readonly licenses?: readonly { readonly type?: string }[];
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
  readonly peerDependencies?: Readonly<Record<string, string>>;
  readonly peerDependenciesMeta?: Readonly<Record<string, { readonly optional?: boolean }>>;
}

export interface Shipped {
  readonly name: string;
  readonly version: string;
  /** As its package.json names it (SPDX); null where it names none. */
  readonly licence: string | null;
  /** Files of its own that hold the licence's text or notice, by path from the root. */
  readonly texts: readonly string[];
}

/**
 * Every package that runs with the product, in order of name: the dependencies of package.json and theirs, those that are
 * optional where they are installed, and the peers that a package cannot do without. What only builds or tests is left out.
 */
export function shipped(root: string): Shipped[] {
  const found = new Map<string, Shipped>();
  const visit = (folder: string, manifest: Manifest) => {
    for (const name of needed(manifest)) {
      const at = folderOf(name, folder, root);
      if (!at || found.has(at)) continue;
      const own = manifestIn(at);
      found.set(at, {
        name,
        version: own.version ?? "",
        licence: licenceOf(own),
        texts: textsIn(at).map((file) => relative(root, file)),
      });
      visit(at, own);
    }
  };
  visit(root, manifestIn(root));
  return [...found.values()].sort(
    (x, y) => x.name.localeCompare(y.name) || x.version.localeCompare(y.version),
  );
}

function needed(manifest: Manifest): string[] {
  const peers = Object.keys(manifest.peerDependencies ?? {}).filter(
    (name) => !manifest.peerDependenciesMeta?.[name]?.optional,
  );
  return [
    ...Object.keys(manifest.dependencies ?? {}),
    ...Object.keys(manifest.optionalDependencies ?? {}),
    ...peers,
  ];
}

/** Where Node.js would find a package from a folder: beside it, or in a folder above. */
function folderOf(name: string, from: string, root: string): string | null {
  for (let folder = from; ; folder = dirname(folder)) {
    const at = join(folder, "node_modules", name);
    if (existsSync(join(at, "package.json"))) return at;
    if (folder === root || folder === dirname(folder)) return null;
  }
}

function manifestIn(folder: string): Manifest {
  return JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as Manifest;
}

function licenceOf({ license, licenses }: Manifest): string | null {
  const named =
    typeof license === "string" ? license : (license?.type ?? licenses?.map((one) => one.type).join(" OR "));
  return named?.trim() || null;
}

function textsIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile() && /^(?:licen[cs]e|copying|notice|ofl|unlicen[cs]e)/i.test(entry.name))
    .map((entry) => join(folder, entry.name))
    .sort();
}

/** The list as lines: each package with its licence and where the text stands, or that it brings none; then what lacks something. */
export function licenceLines(packages: readonly Shipped[]): string[] {
  const id = (one: Shipped) => `${one.name}@${one.version}`;
  const lines = packages.map((one) => {
    const text = one.texts.join(", ") || "no text in the package; the licence is named in its package.json";
    return `${id(one)}  ${one.licence ?? "NO LICENCE NAMED"}  ${one.licence || one.texts.length ? text : "no text either"}`;
  });
  const kinds = new Map<string, number>();
  for (const one of packages)
    kinds.set(one.licence ?? "none named", (kinds.get(one.licence ?? "none named") ?? 0) + 1);
  const counted = [...kinds].sort((x, y) => y[1] - x[1]).map(([name, n]) => `${name} ${n}`);
  const bare = packages.filter((one) => one.texts.length === 0);
  const without = bare.filter((one) => one.licence === null);
  return [
    ...lines,
    "",
    `${packages.length} packages ship: ${counted.join(", ")}.`,
    `Without a text of their own (${bare.length}): ${bare.map(id).join(", ") || "none"}.`,
    `Without any licence (${without.length}): ${without.map(id).join(", ") || "none"}.`,
  ];
}

if (process.argv[1]?.endsWith("licences.ts")) {
  const packages = shipped(process.cwd());
  say(licenceLines(packages).join("\n"));
  if (packages.some((one) => one.licence === null && one.texts.length === 0)) process.exitCode = 1;
}
