import { join } from "node:path";
import { type EventLoopDelay, eventLoopDelay, watchEventLoop } from "@/lib/gate/eventLoop";

/** The production server, which its parent may ask how its event loop, its memory and its processor are. */
export interface Measured {
  readonly delay: EventLoopDelay | null;
  readonly rssMb: number;
  /** Milliseconds of processor that it has taken since it began. */
  readonly cpuMs: number;
}

await import(join(process.cwd(), "lib/server/start.mjs"));

process.on("message", (asked) => {
  const delay = eventLoopDelay();
  if (asked === "anew") watchEventLoop();
  const { user, system } = process.cpuUsage();
  const told: Measured = {
    delay,
    rssMb: Math.round(process.memoryUsage.rss() / 1e6),
    cpuMs: (user + system) / 1000,
  };
  process.send?.(told);
});
process.send?.("up");
