import type { AnsweredApart, AskedApart } from "../firstOpening";
import { postgresUrl } from "../folders";
import { holdDataFolder } from "../inUse";
import { faultIn, migrateShop, oneAtATime } from "../migrate";

// Brings shops up to date that another process is about to open: each is asked for by a message, one after the other.
// What is begun is ended, also where that process is stopped meanwhile: a migration that was cut off is not carried on by the next.
if (!postgresUrl()) holdDataFolder();
let before = Promise.resolve();
let left = false;

process.on("message", (asked: AskedApart) => {
  before = before.then(() => (left ? undefined : answer(asked)));
});
process.once("disconnect", () => {
  left = true;
  before.finally(() => process.exit());
});
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => undefined);

async function answer({ id, where, slug }: AskedApart): Promise<void> {
  let said: AnsweredApart = { id, applied: [] };
  try {
    await oneAtATime(async () => {
      said = { id, applied: await migrateShop(where, slug) };
    });
  } catch (cause) {
    said = { id, applied: [], fault: faultIn(cause) };
  }
  if (process.connected) process.send?.(said);
}
