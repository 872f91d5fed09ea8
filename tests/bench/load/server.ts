import { join } from "node:path";
import { eventLoopDelay, watchEventLoop } from "@/lib/gate/eventLoop";

/** The production server, which its parent may ask how its event loop and its memory are. */
await import(join(process.cwd(), "lib/server/start.mjs"));

process.on("message", (asked) => {
  const delay = eventLoopDelay();
  if (asked === "anew") watchEventLoop();
  process.send?.({ delay, rssMb: Math.round(process.memoryUsage.rss() / 1e6) });
});
process.send?.("up");
