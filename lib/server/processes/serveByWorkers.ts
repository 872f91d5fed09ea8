import { join } from "node:path";
import { configuration } from "@/lib/configuration/configuration";
import { directory } from "@/lib/db/directory";
import { projectRoot } from "@/lib/db/folders";
import type { Refusal } from "@/lib/domain/refusal";
import { keepWatchingEventLoop } from "@/lib/gate/eventLoop";
import { leave } from "../leave";
import { heapOfEach, thisMachine } from "./count";
import { startWorkerProcesses } from "./primary";

/** The web server as so many processes; this one serves nobody and is free for rounds and mail. */
export async function serveByWorkers(count: number, failed: (cause: Refusal) => void): Promise<void> {
  const workers = await startWorkerProcesses({
    count,
    script: join(projectRoot, "lib/server/processes/run.ts"),
    execArgv: [`--max-old-space-size=${heapOfEach(thisMachine(), count)}`],
    // What one process may keep open is shared out among them.
    settings: { SHOPS_OPEN: String(Math.ceil(configuration().SHOPS_OPEN / count)) },
    isShop: async (slug) =>
      (await directory().read.shop.findUnique({ where: { slug }, select: { id: true } })) !== null,
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
