import Database from "better-sqlite3";

export interface FolderLock {
  release(): void;
}

/**
 * A lock between processes: a file that SQLite holds locked. The operating system lets go of it when the process ends,
 * however it ends, so that nothing stale is left by a kill. Many may hold it "shared", or one "alone". Null where it is
 * not to be had.
 */
export function tryLock(file: string, how: "shared" | "alone"): FolderLock | null {
  const raw = new Database(file, { timeout: 0 });
  try {
    raw.exec(how === "alone" ? "BEGIN EXCLUSIVE" : "BEGIN");
    // A transaction takes its shared lock with its first read.
    if (how === "shared") raw.prepare("SELECT count(*) FROM sqlite_master").get();
  } catch (cause) {
    raw.close();
    if ((cause as { code?: string }).code === "SQLITE_BUSY") return null;
    throw cause;
  }
  return { release: () => raw.close() };
}

const EVERY_MS = 50;

/** Waits for a lock without holding up the process; null where it was not to be had within `ms`. */
export async function waitForLock(
  file: string,
  how: "shared" | "alone",
  ms: number,
): Promise<FolderLock | null> {
  const until = performance.now() + ms;
  for (;;) {
    const lock = tryLock(file, how);
    if (lock || performance.now() >= until) return lock;
    await new Promise((resume) => setTimeout(resume, EVERY_MS));
  }
}
