import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { digestOf, sizeOf } from "./copyDatabase";
import type { Copied } from "./copyShop";

const MAKING = ".in-the-making";
const SO_FAR = "copied.jsonl";

/** A shop that is copied and checked in a backup that is not whole yet. */
interface SoFar {
  /** How its database stood before it was copied. */
  readonly stamp: string;
  readonly copied: Copied;
}

/** The name of a backup until it is whole. */
export const makingOf = (folder: string) => `${folder}${MAKING}`;

/** Goes on with what a backup that was cut off left beside this one, the newest where there are several. Whoever calls holds the backups' lock. */
export function takeUpUnfinished(making: string): void {
  const parent = dirname(making);
  mkdirSync(parent, { recursive: true });
  const left = readdirSync(parent)
    .filter((name) => name.endsWith(MAKING))
    .map((name) => ({ path: join(parent, name), at: statSync(join(parent, name)).mtimeMs }))
    .sort((one, other) => one.at - other.at);
  const newest = left.pop()?.path;
  for (const { path } of left) rmSync(path, { recursive: true, force: true });
  if (newest && newest !== making) renameSync(newest, making);
  mkdirSync(join(making, "shops"), { recursive: true });
}

/** What is copied already, by database. A line that was cut off is none. */
export function copiedSoFar(making: string): Map<string, SoFar> {
  const file = join(making, SO_FAR);
  const found = new Map<string, SoFar>();
  if (!existsSync(file)) return found;
  for (const line of readFileSync(file, "utf8").split("\n").slice(0, -1)) {
    const one = JSON.parse(line) as SoFar;
    found.set(one.copied.database, one);
  }
  return found;
}

export function keepSoFar(making: string, one: SoFar): void {
  appendFileSync(join(making, SO_FAR), `${JSON.stringify(one)}\n`, { mode: 0o600 });
}

export function forgetSoFar(making: string): void {
  rmSync(join(making, SO_FAR), { force: true });
}

/**
 * True where the copy of a shop lies there as it was checked: a machine that stopped may have lost what was not on its disk. `name`
 * is its database's file in the backup.
 */
export function isWhole(making: string, name: string, { database, digest, bytes }: Copied): boolean {
  const file = join(making, name);
  const files = join(making, "files", database);
  const photos = existsSync(files) ? readdirSync(files).map((name) => sizeOf(join(files, name))) : [];
  if (photos.reduce((sum, size) => sum + size, sizeOf(file)) !== bytes) return false;
  return sizeOf(file) > 0 && digestOf(file) === digest;
}

/** Takes away what there is of shops: of one that is copied anew, or of all that the directory does not know any more. */
export function clearShops(making: string, unwanted: (database: string) => boolean): void {
  for (const folder of ["shops", "files"]) {
    const path = join(making, folder);
    if (!existsSync(path)) continue;
    for (const name of readdirSync(path))
      if (unwanted(basename(name).split(".")[0] ?? ""))
        rmSync(join(path, name), { recursive: true, force: true });
  }
}
