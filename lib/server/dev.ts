import { prepare } from "./prepare";
import { refused } from "./refused";
import { run } from "./run";

// npm run dev: one process, from source.
try {
  await run(await prepare(true), true);
} catch (cause) {
  refused(cause);
}
