import { noteExportProgress } from "@/lib/data/people/exports";
import { directory } from "@/lib/db/directory";
import { log } from "@/lib/log/log";
import { command } from "../command";
import { exportShop } from "./exportShop";

const EVERY_MS = 1_000;

/** Exports one shop, in a process of its own: see exportRound.ts. */
await command(async () => {
  const [shopId = "", holder = "", file = ""] = process.argv.slice(2);
  const shop = await directory().read.shop.findUniqueOrThrow({
    where: { id: shopId },
    select: { slug: true, name: true, database: true, server: true },
  });
  let far = { done: 0, of: 0 };
  let telling: Promise<unknown> = Promise.resolve();
  // Who asks for it to be noted as ready is told there whether it still is ours: a busy directory is no reason to stop.
  const timer = setInterval(() => {
    telling = telling
      .then(() => noteExportProgress(shopId, holder, far, new Date()))
      .catch((cause: unknown) => log().debug({ err: cause }, "How far an export is could not be noted."));
  }, EVERY_MS);
  try {
    await exportShop(shop, file, new Date(), (done, of) => {
      far = { done, of };
    });
    await telling;
    return 0;
  } finally {
    clearInterval(timer);
  }
});
