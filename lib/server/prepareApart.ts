import { type Prepared, prepare } from "./prepare";
import { refused } from "./refused";

// The start's first part, in a process of its own: what it takes of memory is given back before the server serves.
process.once("disconnect", () => process.exit(1));
try {
  const prepared = await prepare(false);
  await new Promise((told) => process.send?.(prepared satisfies Prepared, told));
  process.removeAllListeners("disconnect");
  // Loaded only now: it needs the generated clients.
  const { leave } = await import("./leave");
  await leave();
} catch (cause) {
  refused(cause);
}
