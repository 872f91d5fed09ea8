import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { projectRoot } from "./folders";

export type DatabaseKind = "directory" | "shop";
export type Provider = "sqlite" | "postgresql";

/** The Prisma schema of one kind of database, for one provider: one text is kept, the other derived. */
export function schemaFiles(kind: DatabaseKind, provider: Provider): [path: string, text: string][] {
  const folder = join(projectRoot, "prisma", kind);
  return readdirSync(folder)
    .filter((name) => name.endsWith(".prisma"))
    .sort()
    .map((name) => {
      const text = readFileSync(join(folder, name), "utf8");
      return [name, provider === "sqlite" ? text : toPostgres(text)];
    });
}

function toPostgres(text: string): string {
  return text
    .replace('provider = "sqlite"', 'provider = "postgresql"')
    .replace("generated/sqlite/", "generated/postgresql/");
}

/** A short digest of all schema text: tells whether generated clients are current. */
export function schemaDigest(): string {
  const hash = createHash("sha256");
  for (const kind of ["directory", "shop"] as const)
    for (const [path, text] of schemaFiles(kind, "sqlite")) hash.update(path).update(text);
  return hash.digest("hex").slice(0, 16);
}
