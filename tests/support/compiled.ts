import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { ownScript } from "@/lib/db/ownScript";
import { compileServer } from "@/lib/server/compile";

/** What tests run in processes of their own, beyond what a production server does. */
const FURTHER = [
  "lib/db/cli/migrate.ts",
  "lib/server/eraseShop.ts",
  "lib/server/exportShop.ts",
  "lib/server/moveShop.ts",
  "lib/server/restore.ts",
  "lib/server/roundOnce.ts",
  ...[
    "bookMany",
    "demoUntilKilled",
    "moveMany",
    "numberMany",
    "oneRound",
    "openFirstShop",
    "openShop",
    "remindMany",
    "remindUntilKilled",
    "reserveMany",
    "roundsAtOnce",
    "sellUntilClosed",
    "sendMails",
    "signUpUntilKilled",
    "stockUntilKilled",
    "workUntilKilled",
    "workerThread",
    "writeUntilKilled",
  ].map((name) => `tests/support/${name}.ts`),
];

/** Compiles all that tests start: from source, each process and thread would take a second and more to begin. */
export async function compileForTests(): Promise<{ folder: string; remove: () => void }> {
  // In the project, so that what is compiled finds the packages.
  mkdirSync(".tmp", { recursive: true });
  const folder = mkdtempSync(join(process.cwd(), ".tmp", "compiled-"));
  await compileServer(folder, FURTHER);
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** What Node is told to run one of those scripts. */
export function nodeArgs(source: string): string[] {
  const { file, execArgv } = ownScript(source);
  return [...execArgv, file];
}
