// A process of its own that books a bike in at each of many times: node bookMany.ts <database> <bay> <person> <now> <times>,
// times in milliseconds with commas between. It says "ready", waits for a line, and answers one line of JSON.
import { once } from "node:events";
import { bookIn } from "@/lib/data/bookings/bookIn";
import { closeShops } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, bay, person, now, times] = process.argv.slice(2) as [string, string, string, string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(Number(now)));
await shop.read.bay.findMany({ select: { name: true }, orderBy: { id: "asc" } });

process.stdout.write("ready\n");
await once(process.stdin, "data");

const [booked, refused]: [number[], string[]] = [[], []];
const began = Date.now();
for (const at of times.split(",").map(Number))
  await bookIn(shop, {
    bayId: Number(bay),
    staffId: Number(person),
    startsAt: new Date(at),
    minutes: 45,
    guestName: `Process ${process.pid}`,
    guestPhone: "",
    words: "runs hot",
  }).then(
    () => booked.push(at),
    (cause: unknown) => {
      if (!(cause instanceof Refusal)) throw cause;
      refused.push(cause.kind);
    },
  );
const ended = Date.now();
await closeShops();
process.stdout.write(`${JSON.stringify({ booked, refused, began, ended })}\n`);
process.exit(0);
