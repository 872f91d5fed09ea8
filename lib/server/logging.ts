import { format } from "node:util";
import { log, logTo } from "@/lib/log/log";

/** Sets up the log of a server process: readable while developing, JSON otherwise, with what libraries say by console in it. */
export async function beginLogs(dev: boolean): Promise<void> {
  if (!dev) return takeConsole();
  // A tool of developers: an installation without them has JSON here too.
  const found = await import("pino-pretty").catch(() => null);
  if (found) logTo(found.default({ sync: true, translateTime: "SYS:HH:MM:ss" }));
}

/** Next.js and the drivers tell of failures by console: there as here a line is JSON and holds no secret. */
function takeConsole(): void {
  const as =
    (level: "error" | "warn" | "info" | "debug") =>
    (...said: unknown[]) => {
      const cause = said.find((one) => one instanceof Error);
      const text = format(...said.filter((one) => one !== cause)).slice(0, 2_000);
      log()[level]({ by: "console", ...(cause ? { err: cause } : {}) }, text);
    };
  Object.assign(console, {
    error: as("error"),
    warn: as("warn"),
    info: as("info"),
    log: as("info"),
    debug: as("debug"),
  });
}
