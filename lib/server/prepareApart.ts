import { type Prepared, prepare } from "./prepare";
import { refused } from "./refused";

// The start's first part, in a process of its own: what it takes of memory is given back before the server serves.
// What it has started, the build above all, ends with it.
process.once("disconnect", () => process.exit(1));
process.once("SIGINT", () => process.exit(130));
process.once("SIGTERM", () => process.exit(143));
try {
  const prepared = await prepare(false);
  await new Promise((told) => process.send?.(prepared satisfies Prepared, told));
  for (const end of ["disconnect", "SIGINT", "SIGTERM"]) process.removeAllListeners(end);
  // Loaded only now: it needs the generated clients.
  const { leave } = await import("./leave");
  await leave();
} catch (cause) {
  refused(cause);
}
