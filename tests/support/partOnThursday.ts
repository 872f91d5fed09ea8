// Sets both demo shops up for the desk's search for a time: tsx partOnThursday.ts. Each gets a job of five hours that lacks a part,
// ordered for the Thursday before its clocks change next, and is closed on the Friday. Tells what it made as one line of JSON.
import { Temporal } from "temporal-polyfill";
import { openJob } from "@/lib/data/acceptance/openJob";
import { addToDrafts } from "@/lib/data/orders/draft";
import { placeOrder } from "@/lib/data/orders/place";
import { saveSupplier } from "@/lib/data/orders/suppliers";
import { createPart } from "@/lib/data/parts/save";
import { addDaysOff } from "@/lib/data/shop/hours";
import { reserveIn } from "@/lib/data/stock/reservations";
import { closeDirectory, directory } from "@/lib/db/directory";
import { closeShops } from "@/lib/db/shop";
import { dayAfter, dayOf } from "@/lib/domain/schedule/localTime";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { OpenJobSchema } from "@/lib/schemas/agreements";
import { SupplierSchema } from "@/lib/schemas/orders";
import { NewPartSchema } from "@/lib/schemas/parts";

/** A job of five hours that lacks a part which comes on the Thursday before the clocks change; that Friday the shop is closed. */
export interface ThursdayJob {
  readonly slug: string;
  readonly locale: string;
  readonly jobId: number;
  readonly number: string;
  readonly code: string;
  readonly thursday: string;
  /** The Monday after the clocks have changed. */
  readonly monday: string;
}

/** The first Thursday from tomorrow on that comes before the Sunday on which a zone changes its clocks, but for `taken` ones. */
function thursdayBeforeChange(zone: string, taken: ReadonlySet<string>): string {
  let at = Temporal.Now.zonedDateTimeISO(zone);
  for (;;) {
    const change = at.getTimeZoneTransition("next");
    if (!change) throw new Error(`${zone} does not change its clocks.`);
    const thursday = change.toPlainDate().subtract({ days: 3 }).toString();
    if (thursday > dayOf(Date.now(), zone) && !taken.has(thursday)) return thursday;
    at = change;
  }
}

const WHY = "Stocktaking";

async function setUp(slug: string): Promise<ThursdayJob> {
  const { database } = await directory().read.shop.findUniqueOrThrow({
    where: { slug },
    select: { database: true },
  });
  const shop = handleFor({ slug, database, server: "" }, SYSTEM, new Date());
  const { zone, locale } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const grade = await shop.read.labourGrade.findFirstOrThrow({ orderBy: { id: "asc" } });
  const bike = await shop.read.bike.findFirstOrThrow({ orderBy: { id: "asc" } });
  // Where this ran before, its Friday is closed already.
  const closures = await shop.read.closure.findMany({ where: { why: WHY }, take: 50 });
  const thursday = thursdayBeforeChange(zone, new Set(closures.map((one) => dayAfter(one.fromDay, -1))));
  const code = `THU-${Date.now() % 100_000}`;
  const jobId = await openJob(
    shop,
    OpenJobSchema.parse({
      bikeId: String(bike.id),
      kind: "word",
      title: locale.startsWith("nb")
        ? "Fem timer, og en pakning som kommer"
        : "Five hours, and a seal to come",
      minutes: "300",
      grade: grade.code,
      saidBy: "Its owner",
      upTo: "90000",
    }),
  );
  const partId = await createPart(
    shop,
    NewPartSchema.parse({ code, name: "Boot seal", kind: "other", unit: "each" }),
  );
  await shop.write((tx) => reserveIn(tx, shop, { jobId, partId, wantedMilli: 1_000 }));
  const supplierId = await saveSupplier(shop, SupplierSchema.parse({ name: `Thursday Seals ${code}` }));
  const [orderId = 0] = await addToDrafts(shop, [{ partId, quantityMilli: 1_000, supplierId, jobId }]);
  const { version } = await shop.read.purchaseOrder.findUniqueOrThrow({ where: { id: orderId } });
  await placeOrder(shop, { orderId, version, dueOn: thursday });
  const friday = dayAfter(thursday, 1);
  await addDaysOff(shop, { staffId: null, fromDay: friday, toDay: friday, why: WHY });
  const { number } = await shop.read.job.findUniqueOrThrow({ where: { id: jobId } });
  return { slug, locale, jobId, number, code, thursday, monday: dayAfter(thursday, 4) };
}

console.log(JSON.stringify([await setUp("saltpan"), await setUp("fjellrev")]));
await closeShops();
await closeDirectory();
