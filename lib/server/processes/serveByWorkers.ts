import { configuration } from "@/lib/configuration/configuration";
import { chunks } from "@/lib/data/common/chunks";
import { noteChange } from "@/lib/db/changes";
import { directory } from "@/lib/db/directory";
import { ownScript } from "@/lib/db/ownScript";
import { shopsThatFit } from "@/lib/db/shopsThatFit";
import type { Refusal } from "@/lib/domain/refusal";
import { keepWatchingEventLoop } from "@/lib/gate/eventLoop";
import { log } from "@/lib/log/log";
import { leave } from "../leave";
import { heapOfEach, thisMachine } from "./count";
import { startWorkerProcesses } from "./primary";

/** The web server as so many processes; this one serves nobody and is free for rounds and mail. */
export async function serveByWorkers(count: number, failed: (cause: Refusal) => void): Promise<void> {
  const { file, execArgv } = ownScript("lib/server/processes/run.ts");
  const workers = await startWorkerProcesses({
    count,
    script: file,
    execArgv: [...execArgv, `--max-old-space-size=${heapOfEach(thisMachine(), count)}`],
    settings: partOfEach(count),
    isShop: async (slug) =>
      (await directory().read.shop.findUnique({ where: { slug }, select: { id: true } })) !== null,
    cutOff: (slugs) =>
      lookAtThem(slugs).catch((cause: unknown) =>
        log().warn({ err: cause }, "The shops of a worker that ended are looked at later."),
      ),
    failed,
  });
  keepWatchingEventLoop();
  let stopping = false;
  const stop = () => {
    if (stopping) return;
    stopping = true;
    void workers.stop().then(leave);
  };
  process.once("SIGTERM", stop);
  process.once("SIGINT", stop);
}

/** What one process may keep open is shared out among the workers. */
function partOfEach(count: number): Record<string, string> {
  const { SHOPS_OPEN = shopsThatFit(), DATABASE_READERS, DATABASE_WRITERS } = configuration();
  const part = (of: number) => String(Math.ceil(of / count));
  return {
    SHOPS_OPEN: part(SHOPS_OPEN),
    DATABASE_READERS: part(DATABASE_READERS),
    DATABASE_WRITERS: part(DATABASE_WRITERS),
  };
}

/** What a worker that was killed had not told of yet must not wait for the daily look: a letter that was just queued, say. */
async function lookAtThem(slugs: readonly string[]): Promise<void> {
  const now = new Date();
  for (const some of chunks(slugs)) {
    const shops = await directory().read.shop.findMany({
      where: { slug: { in: some } },
      select: { database: true },
      orderBy: { id: "asc" },
    });
    for (const { database } of shops) noteChange(database, now);
  }
}
