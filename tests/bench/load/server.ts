import { eventLoopDelay, watchEventLoop } from "@/lib/gate/eventLoop";

/** The production server, which its parent may ask how its event loop and its memory are. */
await import("@/lib/server/start");

process.on("message", (asked) => {
  const delay = eventLoopDelay();
  if (asked === "anew") watchEventLoop();
  process.send?.({ delay, rssMb: Math.round(process.memoryUsage.rss() / 1e6) });
});
process.send?.("up");
