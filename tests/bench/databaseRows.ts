import Database from "better-sqlite3";
import { getJob } from "@/lib/data/jobs/get";
import { listQuotes } from "@/lib/data/quotes/list";
import { prepareShop } from "@/lib/data/shop/prepare";
import { reserveIn } from "@/lib/data/stock/reservations";
import { createShopDatabase } from "@/lib/db/migrate";
import { type ShopHandle, shopFile } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { median, p95, type Row, timed } from "./floor";
import { searchRows } from "./searchRows";
import { seed } from "./seed";

const NOW = new Date("2026-11-25T00:30:00Z");

async function shopOf(database: string, count: number): Promise<ShopHandle> {
  await createShopDatabase(database);
  const shop = handleFor({ slug: database, database }, SYSTEM, NOW);
  await prepareShop(shop, { name: "Bench shop", country: "AU" });
  await shop.write((tx) =>
    tx.labourGrade.updateMany({ data: { ratePerHourMinor: 10_000, costPerHourMinor: 5_000, rateSet: true } }),
  );
  seed(database, count);
  return shop;
}

function row(work: string, times: number[], floor: string, floorTimes: number[] | null, goal: string): Row {
  return {
    work,
    medianMs: median(times),
    p95Ms: p95(times),
    floor,
    floorMs: floorTimes && median(floorTimes),
    samples: times.length,
    goal,
  };
}

export async function databaseRows(big: number): Promise<Row[]> {
  const rows: Row[] = [];
  for (const count of [1_000, big]) {
    const name = `bench_${count}`;
    const shop = await shopOf(name, count);
    const raw = new Database(shopFile(name), { readonly: true });
    const list = raw.prepare(
      `SELECT q.id, q.number, q.title, q.state, q.validUntil, q.grossMinor, q.sentAt, q.createdAt, c.name, b.plate, m.make, m.model FROM "Quote" q JOIN "Customer" c ON c.id = q.customerId JOIN "Bike" b ON b.id = q.bikeId JOIN "ModelCard" m ON m.id = b.modelCardId ORDER BY q.id DESC LIMIT 51`,
    );
    const one = raw.prepare(`SELECT * FROM "Job" j JOIN "Customer" c ON c.id = j.customerId WHERE j.id = ?`);
    rows.push(
      row(
        `list of 50 quotes with joins, ${count} rows`,
        await timed(() => listQuotes(shop, {}), 300),
        "raw SQL",
        await timed(() => list.all(), 300),
        "<= 4x raw",
      ),
    );
    rows.push(
      row(
        `one job by id, whole page's view, ${count} rows`,
        await timed(() => getJob(shop, count / 2), 300),
        "raw SQL",
        await timed(() => one.get(count / 2), 300),
        "<= 0.25 ms",
      ),
    );
    raw.close();
    rows.push(...(await searchRows(shop, count)));
    if (count === 1_000) rows.push(...(await reservation(shop, name)));
  }
  return rows;
}

/** Ours and the floor by turns, and an empty write beside them: the disk's mood changes within a run. */
async function reservation(shop: ShopHandle, database: string): Promise<Row[]> {
  const raw = new Database(shopFile(database));
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
  const ours: number[] = [];
  const floor: number[] = [];
  const empty: number[] = [];
  for (let turn = 0; turn < 10; turn++) {
    floor.push(...(await timed(() => once.immediate(), 100)));
    ours.push(...(await timed(() => shop.write((tx) => reserveIn(tx, shop, wanted)), 100)));
    empty.push(...(await timed(() => shop.write(async () => null), 100)));
  }
  raw.close();
  for (const times of [ours, floor, empty]) times.sort((a, b) => a - b);
  const raws = "raw SQL transaction";
  return [
    row("reservation: check, promise, record", ours, raws, floor, ">= 0.3x raw, so ratio <= 3.3"),
    row("a write that does nothing", empty, raws, floor, "what a reservation cannot be under"),
  ];
}
