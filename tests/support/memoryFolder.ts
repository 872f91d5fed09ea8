import { accessSync, constants, statfsSync } from "node:fs";
import { tmpdir } from "node:os";

const IN_MEMORY = "/dev/shm";
const ENOUGH_BYTES = 4 * 1024 ** 3;

/**
 * Where the tests make their folders: in memory where there is plenty, since a shop's database waits for the disk at each of its
 * commits, and no test pulls the plug.
 */
export function memoryFolder(): string {
  try {
    accessSync(IN_MEMORY, constants.W_OK);
    const { bavail, bsize } = statfsSync(IN_MEMORY);
    return bavail * bsize > ENOUGH_BYTES ? IN_MEMORY : tmpdir();
  } catch {
    return tmpdir();
  }
}
