import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { Refusal } from "@/lib/domain/refusal";
import { type FolderLock, tryLock } from "./folderLock";
import { dataFolder } from "./folders";

const NAME = "in-use.lock";

/** Held by every process that uses the data folder, so that nothing is put back under it. Refused while something is. */
export function holdDataFolder(): FolderLock {
  const lock = lockOf("shared");
  if (lock) return lock;
  throw new Refusal(
    `A restore is running on the data folder ${dataFolder()}.`,
    "Wait until it has ended. Nothing was changed.",
  );
}

/** Held by a restore. Refused while any process uses the folder; one that was killed holds nothing. */
export function takeDataFolderAlone(): FolderLock {
  const lock = lockOf("alone");
  if (lock) return lock;
  throw new Refusal(
    `A server, or a command of ours, is using the data folder ${dataFolder()}.`,
    "Stop it, then restore. Nothing was changed.",
  );
}

function lockOf(how: "shared" | "alone"): FolderLock | null {
  mkdirSync(dataFolder(), { recursive: true });
  return tryLock(join(dataFolder(), NAME), how);
}
