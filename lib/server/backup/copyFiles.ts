import { statSync } from "node:fs";
import { newestLevel } from "@/lib/db/levels";
import { shopFile } from "@/lib/db/shop";
import { makeWorkers } from "@/lib/workers/pool";
import type { AskedCopy, CopyWay } from "./copyAll";
import { type Copied, shopCopy } from "./copyShop";
import copyAsked from "./copyThread";

const AT_ONCE = 2;
/** Threads take longer to start than so few shops to be copied. */
const FEW = 4;

/** Shops that are files of SQLite's: two at once, each in a thread of its own. */
export const files: CopyWay = {
  stampOf: async ({ database }) => {
    const file = shopFile(database);
    const states = [file, `${file}-wal`].map((path) => {
      const found = statSync(path, { bigint: true, throwIfNoEntry: false });
      // Whoever reads a database makes it an empty log.
      return found && found.size > 0n ? `${found.ino} ${found.size} ${found.mtimeNs}` : "none";
    });
    return [newestLevel(), ...states].join(", ");
  },
  fileOf: shopCopy,
  begin: (count) => {
    if (count <= FEW) return { atOnce: 1, copy: copyAsked, end: async () => undefined };
    const { pool } = makeWorkers("lib/server/backup/copyThread.ts", AT_ONCE);
    return {
      atOnce: AT_ONCE,
      copy: (asked: AskedCopy): Promise<Copied> => pool.run(asked),
      end: () => pool.destroy(),
    };
  },
};
