// Sets the demo shop up for a story: tsx lastJet.ts <code>. One of that jet is left, the job in work holds it, and the
// booked job that comes first is short of one. Tells what it chose as one line of JSON.
import { dateText } from "@/app/_ui/format";
import { countPart } from "@/lib/data/stock/counts";
import { releaseReservation, reserveIn } from "@/lib/data/stock/reservations";
import { closeDirectory, directory } from "@/lib/db/directory";
import { closeShops } from "@/lib/db/shop";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [code] = process.argv.slice(2) as [string];
const { database } = await directory().read.shop.findUniqueOrThrow({
  where: { slug: "saltpan" },
  select: { database: true },
});
const shop = handleFor({ slug: "saltpan", database, server: "" }, SYSTEM, new Date());
const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
const part = await shop.read.part.findUniqueOrThrow({
  where: { code },
  select: { id: true, reservations: { where: { state: "held" }, select: { id: true } } },
});
for (const row of part.reservations) await releaseReservation(shop, row.id);
const { onHandMilli } = await shop.read.part.findUniqueOrThrow({ where: { id: part.id } });
await countPart(shop, { partId: part.id, countedMilli: 1000, seenMilli: onHandMilli, why: "the last one" });

const inWork = await shop.read.job.findFirstOrThrow({
  where: { state: "inWork", stopped: "" },
  select: { id: true, number: true },
  orderBy: { id: "asc" },
});
const next = await shop.read.booking.findFirstOrThrow({
  where: { state: "held", endsAt: { gt: shop.now }, job: { state: "booked" } },
  select: { startsAt: true, job: { select: { id: true, number: true } } },
  orderBy: { startsAt: "asc" },
});
if (!next.job) throw new Error("A booking of no job.");
for (const job of [inWork, next.job])
  await shop.write((tx) => reserveIn(tx, shop, { jobId: job.id, partId: part.id, wantedMilli: 1000 }));
console.log(
  JSON.stringify({
    partId: part.id,
    inWork: inWork.number,
    short: next.job.number,
    needed: dateText(dayOf(next.startsAt.getTime(), settings.zone), settings.locale),
  }),
);
await closeShops();
await closeDirectory();
