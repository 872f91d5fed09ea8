import {
  closeSync,
  cpSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { dataFolder } from "@/lib/db/folders";

/** What a restore moves, written down before it begins: one that is cut off is carried to its end by the next start. */
export interface RestorePlan {
  /** Where everything that is replaced goes. */
  readonly replaced: string;
  /** Where what comes in its place lies ready. Names are relative to it and to the data folder. */
  readonly making: string;
  readonly comes: readonly string[];
  /** What goes without anything in its place: shops that the copy does not know. */
  readonly goes: readonly string[];
}

const planFile = () => join(dataFolder(), "restore-plan.json");

/** A restore that was cut off; null where none was. */
export function unfinishedRestore(): RestorePlan | null {
  return existsSync(planFile()) ? (JSON.parse(readFileSync(planFile(), "utf8")) as RestorePlan) : null;
}

/** Puts what lies ready in its place and what it replaces aside. The data folder must be held alone. */
export function putInPlace(plan: RestorePlan): void {
  const writing = `${planFile()}.${process.pid}`;
  writeFileSync(writing, JSON.stringify(plan), { mode: 0o600 });
  settle(writing);
  renameSync(writing, planFile());
  settle(dataFolder());
  carryOut(plan);
}

/** Safe to repeat from any point at which it was cut off: what no longer lies ready is in its place. */
export function carryOut({ replaced, making, comes, goes }: RestorePlan): void {
  for (const name of goes) aside(name, replaced);
  for (const name of comes) {
    const ready = join(making, name);
    if (!existsSync(ready)) continue;
    aside(name, replaced);
    move(ready, join(dataFolder(), name));
  }
  settle(dataFolder());
  rmSync(making, { recursive: true, force: true });
  rmSync(planFile(), { force: true });
  settle(dataFolder());
}

/** With a database goes its log: it belongs to the old file, and would be taken for the new one's. */
function aside(name: string, replaced: string): void {
  for (const part of [name, `${name}-wal`, `${name}-shm`]) {
    const from = join(dataFolder(), part);
    if (existsSync(from)) move(from, join(replaced, part));
  }
}

function move(from: string, to: string): void {
  mkdirSync(dirname(to), { recursive: true });
  try {
    renameSync(from, to);
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== "EXDEV") throw cause;
    // Pictures may lie on a disk of their own.
    rmSync(`${to}.coming`, { recursive: true, force: true });
    cpSync(from, `${to}.coming`, { recursive: true, preserveTimestamps: true });
    renameSync(`${to}.coming`, to);
    rmSync(from, { recursive: true, force: true });
  }
}

function settle(path: string): void {
  const handle = openSync(path, "r");
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
