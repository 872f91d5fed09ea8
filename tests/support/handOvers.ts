// Sets jobs up in the demo shop for the browser tests of what passes between the rooms: tsx handOvers.ts. Tells their ids, a set
// for each width of window, as one line of JSON.
import { chance } from "@/demo/work/chance";
import { createBike } from "@/lib/data/bikes/bikes";
import { saveSheet } from "@/lib/data/bikes/sheets";
import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { createCustomer } from "@/lib/data/customers/customers";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn } from "@/lib/data/stock/reservations";
import { closeDirectory, directory } from "@/lib/db/directory";
import { closeShops } from "@/lib/db/shop";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import type { HandOvers } from "../e2e/handOvers.spec";
import * as acts from "./week/acts";
import { dayAfter } from "./week/readInvoice";

const { database } = await directory().read.shop.findUniqueOrThrow({
  where: { slug: "saltpan" },
  select: { database: true },
});
const system = handleFor({ slug: "saltpan", database, server: "" }, SYSTEM, new Date());
const { zone } = await system.read.settings.findUniqueOrThrow({ where: { id: 1 } });
// Somebody whom the demo knows nothing of, so that nobody else's clock is touched.
const staff = await system.write((tx) =>
  tx.staff.create({
    data: {
      personId: `hand-overs-${Date.now()}`,
      name: "Runa Holt",
      role: "tuner",
      active: false,
      hours: {},
    },
  }),
);
const by = { personId: "hand-overs", name: "Runa Holt", role: "owner", staffId: staff.id } as const;
const shop = { ...system, by };
const bench = new acts.Bench(shop, zone, chance(11), dayAfter(dayOf(Date.now(), zone), -3));

const card = await shop.read.modelCard.findFirstOrThrow({ where: { make: "Tarrant", model: "Drover 580" } });
const reset = await shop.read.package.findUniqueOrThrow({ where: { code: "RESET" } });
const seal = await shop.read.part.findUniqueOrThrow({ where: { code: "OR-BOWL-40" } });
const cleaner = await shop.read.part.findUniqueOrThrow({ where: { code: "CLEAN-C" } });
await recordMove(bench.shop, { partId: seal.id, kind: "receipt", quantityMilli: 40_000 });
await recordMove(bench.shop, { partId: cleaner.id, kind: "receipt", quantityMilli: 4_000_000 });

async function bikeOf(name: string): Promise<number> {
  const customerId = await createCustomer(
    bench.shop,
    CustomerSchema.parse({ name, address: "7 Salt Street" }),
  );
  const form = {
    card: "known",
    customerId: String(customerId),
    modelCardId: String(card.id),
    odometerKm: "30000",
  };
  const id = await createBike(bench.shop, NewBikeSchema.parse(form));
  const known = { carburettor: 1, how: "read" };
  await saveSheet(bench.shop, {
    bikeId: id,
    kind: "asFound",
    values: [
      { ...known, setting: "mixtureScrewTurns", value: 1.5 },
      { ...known, setting: "idleSpeedRpm", value: 1_250 },
      { ...known, setting: "mainJet", value: 140 },
    ],
  });
  return id;
}

/** A job of a clean bowl and a set screw, agreed. */
async function jobOn(bikeId: number): Promise<number> {
  const { revisionId } = await acts.quote(bench, {
    bikeId,
    packageId: reset.id,
    take: ["bowl", "screw"],
    leave: ["main-round", "main-hex", "bowl", "screw"],
  });
  return acts.yes(bench, revisionId);
}

async function ridden(bikeId: number, timed = true): Promise<number> {
  const jobId = await jobOn(bikeId);
  await acts.arrive(bench, jobId, null);
  await acts.work(bench, jobId, { timed });
  await acts.ride(bench, jobId, null);
  return jobId;
}

const sets: HandOvers[] = [];
for (const name of ["Adela Quirk", "Bastian Reyes"]) {
  const bike = await bikeOf(name);
  const first = await ridden(bike);
  await acts.finish(bench, first, 30_020, { mixtureScrewTurns: 2.375 });
  const second = await jobOn(bike);
  await acts.arrive(bench, second, null);

  const short = await ridden(await bikeOf(`${name} junior`), false);
  const { entryId } = await startTime(bench.shop, { jobId: short });
  bench.pass(1);
  await stopTime(bench.shop, { entryId });
  await acts.finish(bench, short, null);

  const kept = await ridden(await bikeOf(`${name} senior`), false);
  const reserved = { jobId: kept, partId: seal.id, wantedMilli: 1_000 };
  await bench.shop.write((tx) => reserveIn(tx, bench.shop, reserved));
  await startTime(bench.shop, { jobId: kept });

  const off = await jobOn(await bikeOf(`${name} and sons`));
  await acts.deposit(bench, off, 4_000);
  const { version } = await shop.read.job.findUniqueOrThrow({ where: { id: off } });
  await cancelJob(bench.shop, { jobId: off, version, reason: "The bike was sold" });
  const numbers = await shop.read.job.findMany({ where: { id: { in: [second, short, kept, off] } } });
  const named = (id: number) => ({ id, number: numbers.find((job) => job.id === id)?.number ?? "" });
  const idle = await shop.read.settingValue.findFirstOrThrow({
    where: { sheet: { jobId: first, kind: "asLeft" }, setting: "idleSpeedRpm" },
  });
  sets.push({
    idle: idle.value,

    second: named(second),
    short: named(short),
    kept: named(kept),
    off: named(off),
    part: seal.code,
  });
  // The clock of the job that is kept runs on; the next set has another person's hands.
  const next = await bench.shop.write((tx) =>
    tx.staff.create({
      data: { personId: `hand-overs-${name}-${Date.now()}`, name, role: "tuner", active: false, hours: {} },
    }),
  );
  bench.hands(next.id);
}
console.log(JSON.stringify(sets));
await closeShops();
await closeDirectory();
