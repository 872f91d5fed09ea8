// A process of its own that opens a shop and says how many bays it reads there: openShop.ts <database>.
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const database = process.argv[2] as string;
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date());
const [bays, shares] = await Promise.all([shop.read.bay.count(), shop.read.documentShare.count()]);
await closeShops();
process.stdout.write(`${bays} bays, ${shares} shares\n`);
