// A process of its own that opens shops at once in DATA_DIR: openFirstShop.ts <how many>. It says "ready", waits for a line,
// and answers one line of JSON.
import { once } from "node:events";
import { createShopDatabase } from "@/lib/db/migrate";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [many] = process.argv.slice(2) as [string];
process.stdout.write("ready\n");
await once(process.stdin, "data");
const began = Date.now();
const opened = await Promise.all(
  Array.from({ length: Number(many) }, async (_, n) => {
    const database = `first_${process.pid}_${n}`;
    try {
      await createShopDatabase({ database, server: "" });
      const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date());
      return await shop.read.bay.count();
    } catch (cause) {
      return (cause as Error).message;
    }
  }),
);
const ended = Date.now();
await closeShops();
process.stdout.write(`${JSON.stringify({ opened, began, ended })}\n`);
process.exit(0);
