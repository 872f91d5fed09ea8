import Database from "better-sqlite3";
import { getJob } from "@/lib/data/jobs/get";
import { listJobs } from "@/lib/data/jobs/list";
import { listQuotes } from "@/lib/data/quotes/list";
import { reserveIn } from "@/lib/data/stock/reservations";
import { type ShopHandle, shopFile } from "@/lib/db/shop";
import { benchShops, type SizedShop } from "./benchShops";
import { byTurns, medianWithin, type Row, rowOf, type Times, timesFloor } from "./floor";

const TURNS = 5;
const EACH = 60;

/** The two hottest reads against SQL on the same file, in a small shop and in a large one, and a reservation. */
export async function databaseRows(): Promise<Row[]> {
  const [small, big] = await benchShops();
  const [littleReads, bigReads] = [readsOf(small), readsOf(big)];
  const named = (size: string, { ours, raw }: Reads) => [
    ...Object.entries(ours).map(([name, run]) => [`${size} ours ${name}`, run] as const),
    ...Object.entries(raw).map(([name, run]) => [`${size} raw ${name}`, run] as const),
  ];
  const times = await byTurns<string>(
    Object.fromEntries([...named("small", littleReads), ...named("big", bigReads)]),
    TURNS,
    EACH,
  );
  const of = (key: string) => times[key] as Times;
  littleReads.close();
  bigReads.close();
  const rows = (["quotes", "jobs"] as const).flatMap((list) => [
    ...(["small", "big"] as const).map((size) =>
      rowOf(
        `list of 50 ${list} with joins, ${(size === "small" ? small : big).count} rows`,
        of(`${size} ours ${list}`),
        timesFloor(4),
        "raw SQL",
        of(`${size} raw ${list}`),
      ),
    ),
    rowOf(
      `the same, ${big.count} rows against ${small.count}`,
      of(`big ours ${list}`),
      timesFloor(1.15),
      `${small.count} rows`,
      of(`small ours ${list}`),
    ),
  ]);
  return [
    ...rows,
    rowOf(
      `one job by id, its row with customer and bike, ${big.count} rows`,
      of("big ours job"),
      medianWithin(0.25),
      "raw SQL",
      of("big raw job"),
    ),
    rowOf(
      `one job by id, all that its page shows, ${big.count} rows`,
      of("big ours page"),
      null,
      "its row alone",
      of("big ours job"),
    ),
    ...(await reservation(small.shop)),
  ];
}

interface Reads {
  readonly ours: Readonly<Record<string, () => Promise<unknown>>>;
  readonly raw: Readonly<Record<string, () => unknown>>;
  close(): void;
}

function readsOf({ shop, count }: SizedShop): Reads {
  const id = count / 2;
  const raw = new Database(shopFile(shop.database), { readonly: true });
  const settings = raw.prepare(`SELECT zone FROM "Settings" WHERE id = 1`);
  const quotes = raw.prepare(
    `SELECT q.id, q.number, q.title, q.state, q.grossMinor, q.validUntil, q.revisionNumber, q.createdAt, q.sentAt, q.variationOfId, q.callOn, c.name, b.year, m.make, m.model FROM "Quote" q JOIN "Customer" c ON c.id = q.customerId JOIN "Bike" b ON b.id = q.bikeId JOIN "ModelCard" m ON m.id = b.modelCardId ORDER BY q.id DESC LIMIT 51`,
  );
  const jobs = raw.prepare(
    `SELECT j.id, j.number, j.title, j.state, j.stopped, j.arrivedAt, j.minutes, c.name, b.plate, m.make, m.model FROM "Job" j JOIN "Customer" c ON c.id = j.customerId JOIN "Bike" b ON b.id = j.bikeId JOIN "ModelCard" m ON m.id = b.modelCardId ORDER BY j.id DESC LIMIT 51`,
  );
  const ofJobs = [
    `SELECT jobId, startsAt FROM "Booking" WHERE state <> 'cancelled' AND jobId`,
    `SELECT jobId, reason, untilOn FROM "JobWait" WHERE endedAt IS NULL AND jobId`,
    `SELECT jobId, startedAt, endedAt FROM "TimeEntry" WHERE jobId`,
    `SELECT jobId, wantedMilli, reservedMilli, usedMilli FROM "Reservation" WHERE state = 'held' AND jobId`,
  ].map((sql) => raw.prepare(`${sql} IN (${Array(51).fill("?").join(", ")})`));
  const one = raw.prepare(
    `SELECT j.id, j.number, j.title, j.state, j.version, j.minutes, j.notes, j.bikeId, c.id AS customerId, c.name, b.plate, m.make, m.model FROM "Job" j JOIN "Customer" c ON c.id = j.customerId JOIN "Bike" b ON b.id = j.bikeId JOIN "ModelCard" m ON m.id = b.modelCardId WHERE j.id = ?`,
  );
  return {
    ours: {
      quotes: () => listQuotes(shop, {}),
      jobs: () => listJobs(shop),
      job: () => shop.read.job.findUnique({ where: { id }, select: ROW }),
      page: () => getJob(shop, id),
    },
    raw: {
      quotes: () => [settings.get(), quotes.all()],
      jobs: () => {
        const ids = (jobs.all() as { id: number }[]).map((row) => row.id);
        return ofJobs.map((statement) => statement.all(...ids));
      },
      job: () => one.get(id),
    },
    close: () => raw.close(),
  };
}

const ROW = {
  id: true,
  number: true,
  title: true,
  state: true,
  version: true,
  minutes: true,
  notes: true,
  bikeId: true,
  customer: { select: { id: true, name: true } },
  bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
} as const;

/** Ours and the floor by turns, and an empty write beside them: the disk's mood changes within a run. */
async function reservation(shop: ShopHandle): Promise<Row[]> {
  const raw = new Database(shopFile(shop.database));
  raw.pragma("journal_mode = WAL");
  raw.pragma("synchronous = FULL");
  const check = raw.prepare(`SELECT onHandMilli, reservedMilli FROM "Part" WHERE id = 1`);
  const hold = raw.prepare(
    `INSERT INTO "Reservation" (partId, jobId, wantedMilli, reservedMilli, createdAt) VALUES (1, 1, 1000, 1000, '2026-11-25')`,
  );
  const promise = raw.prepare(
    `UPDATE "Part" SET reservedMilli = reservedMilli + 1000 WHERE id = 1 AND reservedMilli + 1000 <= onHandMilli`,
  );
  const once = raw.transaction(() => {
    check.get();
    promise.run();
    hold.run();
  });
  const wanted = { jobId: 1, partId: 1, wantedMilli: 1000 };
  const times = await byTurns(
    {
      floor: () => once.immediate(),
      ours: () => shop.write((tx) => reserveIn(tx, shop, wanted)),
      empty: () => shop.write(async () => null),
    },
    8,
    50,
  );
  raw.close();
  const name = "raw SQL transaction";
  return [
    // 0.3 of its rate is 3.3 of its time.
    rowOf("reservation: check, promise, record", times.ours, timesFloor(3.3), name, times.floor),
    rowOf("a write that does nothing", times.empty, null, name, times.floor),
  ];
}
