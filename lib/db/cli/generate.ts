import { execFileSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { environmentWith } from "../../configuration/configuration";
import { projectRoot } from "../folders";
import { schemaDigest, schemaFiles } from "../schemaFiles";

/** Makes the four Prisma clients (directory and shop, SQLite and PostgreSQL) when the schema has changed. */
export function generateClients(): boolean {
  const out = join(projectRoot, "lib/db/generated");
  const stamp = join(out, "digest.txt");
  const digest = schemaDigest();
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === digest) return false;
  const tool = join(projectRoot, "node_modules/prisma/build/index.js");
  if (!existsSync(tool))
    throw new Refusal(
      "The database clients are not made for this version, and the tool that makes them is not installed.",
      "Run npm ci (with the development packages), then npm run generate. Nothing was changed.",
    );
  for (const provider of ["sqlite", "postgresql"] as const)
    for (const kind of ["directory", "shop"] as const) {
      const work = mkdtempSync(join(tmpdir(), "throttlewright-schema-"));
      const made = join(work, "client");
      for (const [name, text] of schemaFiles(kind, provider))
        writeFileSync(
          join(work, name),
          text.replace(/output\s*=\s*".*"/, `output = ${JSON.stringify(made)}`),
        );
      execFileSync(process.execPath, [tool, "generate", "--schema", work], {
        cwd: projectRoot,
        // It speaks on both streams even when all is well; execFileSync puts what it said into the error if not.
        stdio: "pipe",
        // The command wants some executable as its schema engine; generating does not run it.
        env: environmentWith({
          PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
          PRISMA_HIDE_UPDATE_MESSAGE: "1",
        }),
      });
      const target = join(out, provider, kind);
      rmSync(target, { recursive: true, force: true });
      mkdirSync(target, { recursive: true });
      cpSync(made, target, { recursive: true });
      rmSync(work, { recursive: true, force: true });
    }
  writeFileSync(stamp, digest);
  return true;
}

if (process.argv[1]?.endsWith("generate.ts"))
  say(generateClients() ? "Prisma clients made." : "Prisma clients are current.");
