// A process of its own that sells one piece after the other on a day until the books are closed on it, and then tries a few times
// more: node sellUntilClosed.ts <database> <part> <day>. It says "selling" once it sells, and answers one line of JSON.
import { sell } from "@/lib/data/sales/sell";
import { closeShops } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { line, saleOf } from "./sales";

const [database, partId, day] = process.argv.slice(2) as [string, string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(`${day}T02:00:00Z`));

const told = { sold: 0, refused: 0, errors: [] as string[] };
while (told.refused < 10 && told.sold < 2_000 && told.errors.length < 3)
  try {
    await sell(shop, saleOf([line(Number(partId), 1, 84_200)]));
    told.sold++;
    if (told.sold === 3) process.stdout.write("selling\n");
  } catch (cause) {
    if (cause instanceof Refusal && /closed up to/.test(cause.message)) told.refused++;
    else told.errors.push(String(cause));
  }
await closeShops();
process.stdout.write(`${JSON.stringify(told)}\n`);
process.exit(0);
