import { chmodSync, lstatSync, readdirSync, realpathSync } from "node:fs";
import { join } from "node:path";
import { dataFolder } from "@/lib/db/folders";
import { log } from "@/lib/log/log";

/** What we keep in a data folder. Anything else in it is not ours to change. */
const OURS =
  /^(directory\.sqlite|template-.*|secret$|demo-sign-ins\.txt$|last-backup\.json|restore-plan\.json|shops$|files$|backups$|exports$|replaced$|.*\.lock$|\.probe$)/;

/** From now on, what this process writes is for its own user alone. Answers the mask that was. */
export function writePrivately(): number {
  return process.umask(0o077);
}

/** The data folder and all of ours in it are for the server's user alone: folders 0700, files 0600. */
export function makePrivate(): void {
  const folder = realpathSync(dataFolder());
  narrow(folder, 0o700);
  for (const name of readdirSync(folder)) if (OURS.test(name)) visit(join(folder, name));
}

function visit(path: string): void {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found || found.isSymbolicLink()) return;
  narrow(path, found.isDirectory() ? 0o700 : 0o600);
  if (found.isDirectory()) for (const name of readdirSync(path)) visit(join(path, name));
}

function narrow(path: string, mode: number): void {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found || (found.mode & 0o777) === mode) return;
  // A shared folder such as /tmp stays as it is; so does what belongs to somebody else.
  if (found.mode & 0o1000) return;
  try {
    chmodSync(path, mode);
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== "EPERM") throw cause;
    log().warn(
      { place: path },
      "Others may read this: it belongs to another user, so its rights stay as they are.",
    );
  }
}
