import Database from "better-sqlite3";
import { searchKey } from "@/lib/domain/searchKey";

/** How much a shop of ten years has. */
export interface Years {
  readonly parts: number;
  /** Moves of each part. */
  readonly moves: number;
  readonly invoices: number;
  readonly receipts: number;
}

export const TEN_YEARS: Years = { parts: 5_000, moves: 20, invoices: 6_000, receipts: 14_000 };

const DAYS = 3_650;
const SIZES = 40;
const DAY_MS = 86_400_000;

const dayOf = (at: number) => new Date(at).toISOString().slice(0, 10);
const iso = (at: number) => new Date(at).toISOString().replace("Z", "+00:00");

/**
 * Fills a shop's file with ten years of work up to `now`: parts in bins and drawers with their moves, job invoices with deposits, part
 * payments and rests, counter receipts, counts and closed days. The shop must have issued an invoice of a job and a receipt over the
 * counter: what those printed is printed again.
 */
export function seedYears(file: string, now: number, years: Years): void {
  const db = new Database(file);
  db.pragma("foreign_keys = OFF");
  try {
    db.transaction(() => {
      const begins = now - DAYS * DAY_MS;
      partsOf(db, begins, years);
      jobInvoices(db, begins, years.invoices);
      receipts(db, begins, years.receipts);
      counts(db, begins);
      closedDays(db, begins);
    })();
    db.exec("ANALYZE");
  } finally {
    db.close();
  }
}

type Db = Database.Database;

const nextOf = (db: Db, table: string, column = "id") =>
  (db.prepare(`SELECT COALESCE(MAX("${column}"), 0) + 1 AS next FROM "${table}"`).get() as { next: number })
    .next;

function partsOf(db: Db, begins: number, { parts, moves }: Years): void {
  const first = nextOf(db, "Part");
  const part = db.prepare(
    `INSERT INTO "Part" (id, code, name, kind, family, sizeMilli, convention, bin, pointMilli, onHandMilli, costE4, averageE4, priceE4, searchKey, createdAt) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 25000, 25000, 60000, ?, ?)`,
  );
  const lies = db.prepare(`INSERT INTO "PartBin" (partId, bin, onHandMilli) VALUES (?, ?, ?)`);
  const move = db.prepare(
    `INSERT INTO "Move" (partId, kind, quantityMilli, bin, unitCostE4, at, why) VALUES (?, ?, ?, ?, ?, ?, '')`,
  );
  const kindOf = (n: number) =>
    n === 0
      ? (["opening", 50_000] as const)
      : n % 5 === 0
        ? (["receipt", 3_000] as const)
        : n % 7 === 0
          ? (["count", n % 2 === 0 ? -1_000 : 1_000] as const)
          : (["use", -1_000] as const);
  const all = Array.from({ length: moves }, (_, n) => kindOf(n));
  const left = all.reduce((sum, [, milli]) => sum + milli, 0);
  const jets = Math.min(1_600, Math.floor(parts / 3));
  const binOf = (n: number) => `${"ABCDEFGH"[n % 8]}${1 + (n % 600)}`;
  for (let n = 0; n < parts; n++) {
    const jet = n < jets;
    const size = 60 + (n % SIZES) * 2.5;
    const family = jet ? `Ridge ${1 + Math.floor(n / SIZES)}` : "";
    const code = jet ? `RJ${1 + Math.floor(n / SIZES)}-${size * 10}` : `RM-${n}`;
    const name = jet ? `Main jet ${size}` : `Rubber mount, of size ${n}`;
    const kind = jet ? "jet" : "other";
    const key = searchKey(code, name, kind, family, binOf(n));
    const sizeMilli = jet ? size * 1000 : null;
    const created = iso(begins);
    const point = n % 20 === 0 ? 90_000 : 2_000;
    const convention = jet ? "bore" : "";
    const bin = binOf(n);
    part.run(first + n, code, name, kind, family, sizeMilli, convention, bin, point, left, key, created);
    lies.run(first + n, bin, left);
  }
  for (let turn = 0; turn < moves; turn++) {
    const [kind, milli] = all[turn] as (typeof all)[number];
    for (let n = 0; n < parts; n++) {
      const at = begins + ((turn + n / parts) / moves) * DAYS * DAY_MS;
      move.run(first + n, kind, milli, binOf(n), 20_000 + ((n * 7 + turn) % 997) * 10, iso(at));
    }
  }
}

/** A job's invoice as it was printed once, and what belongs to it. */
function jobInvoices(db: Db, begins: number, count: number): void {
  const model = db
    .prepare(
      `SELECT * FROM "Invoice" WHERE state = 'issued' AND kind = 'invoice' AND jobId IS NOT NULL ORDER BY id LIMIT 1`,
    )
    .get() as Record<string, number | string>;
  const job = db.prepare(`SELECT * FROM "Job" WHERE id = ?`).get(model.jobId) as Record<
    string,
    number | string
  >;
  const [firstInvoice, firstNumber] = [nextOf(db, "Invoice"), nextOf(db, "Invoice", "number") + 10_000];
  const [firstJob, firstJobNumber] = [nextOf(db, "Job"), nextOf(db, "Job", "number") + 10_000];
  const [firstCustomer, firstQuote] = [nextOf(db, "Customer"), nextOf(db, "Quote")];
  const firstQuoteNumber = nextOf(db, "Quote", "number") + 10_000;
  const firstRevision = nextOf(db, "QuoteRevision");
  const customers = Math.max(1, Math.floor(count / 5));
  const customer = db.prepare(`INSERT INTO "Customer" (id, name, searchKey, createdAt) VALUES (?, ?, ?, ?)`);
  const quote = db.prepare(
    `INSERT INTO "Quote" (id, number, written, customerId, bikeId, title, state, validUntil, grossMinor, minutes, searchKey, createdAt) VALUES (?, ?, ?, ?, ?, 'Open-road breathing', 'accepted', '2026-12-31', ?, 139, ?, ?)`,
  );
  const revision = db.prepare(
    `INSERT INTO "QuoteRevision" (id, quoteId, number, choices, conditions, frozen, createdAt) SELECT ?, ?, 1, choices, conditions, frozen, createdAt FROM "QuoteRevision" WHERE id = ?`,
  );
  const jobs = db.prepare(
    `INSERT INTO "Job" (id, number, written, customerId, bikeId, revisionId, title, state, minutes, searchKey, createdAt, finishedAt, closedAt) VALUES (?, ?, ?, ?, ?, ?, 'Open-road breathing', 'closed', 139, ?, ?, ?, ?)`,
  );
  const invoice = insertLike(db, "Invoice", model);
  const payment = paymentOf(db);
  for (let n = 0; n < customers; n++)
    customer.run(firstCustomer + n, `Customer ${n}`, `customer ${n}`, iso(begins));
  const gross = Number(model.grossMinor);
  for (let n = 0; n < count; n++) {
    const at = begins + (n / count) * (DAYS - 1) * DAY_MS;
    const [id, jobId, by] = [firstInvoice + n, firstJob + n, firstCustomer + (n % customers)];
    const key = `job ${firstJobNumber + n} customer ${n % customers}`;
    const number = firstQuoteNumber + n;
    quote.run(firstQuote + n, number, String(number), by, job.bikeId, gross, key, iso(at));
    revision.run(firstRevision + n, firstQuote + n, job.revisionId);
    jobs.run(
      jobId,
      firstJobNumber + n,
      String(firstJobNumber + n),
      by,
      job.bikeId,
      firstRevision + n,
      key,
      iso(at),
      iso(at),
      iso(at),
    );
    const prepaid = n % 5 === 0 ? 5_000 : 0;
    const day = dayOf(at);
    if (prepaid > 0)
      payment("deposit", { jobId, minor: prepaid, on: dayOf(at - 7 * DAY_MS), at: at - 7 * DAY_MS });
    const open = n % 20 === 19;
    const parts = n % 20 === 7 ? 2 : 1;
    const due = gross - prepaid;
    invoice.run({
      ...model,
      id,
      jobId,
      customerId: by,
      number: firstNumber + n,
      written: String(firstNumber + n),
      issuedOn: day,
      dueOn: dayOf(at + 14 * DAY_MS),
      prepaidMinor: prepaid,
      paidMinor: open ? 0 : due,
      searchKey: `invoice ${firstNumber + n}`,
      createdAt: iso(at),
      kept: null,
    });
    if (open) continue;
    for (let part = 0; part < parts; part++) {
      const later = at + (9 + part * 30) * DAY_MS;
      const minor = part === 0 ? Math.floor(due / parts) : due - Math.floor(due / parts);
      payment("payment", { jobId, invoiceId: id, minor, on: dayOf(later), at: later });
    }
  }
}

function receipts(db: Db, begins: number, count: number): void {
  const model = db
    .prepare(
      `SELECT * FROM "Invoice" WHERE state = 'issued' AND kind = 'receipt' AND saleId IS NOT NULL ORDER BY id LIMIT 1`,
    )
    .get() as Record<string, number | string>;
  const [firstInvoice, firstSale] = [nextOf(db, "Invoice"), nextOf(db, "Sale")];
  const firstNumber = nextOf(db, "Invoice", "number") + 10_000;
  const sale = db.prepare(`INSERT INTO "Sale" (id, soldAt) VALUES (?, ?)`);
  const invoice = insertLike(db, "Invoice", model);
  const payment = paymentOf(db);
  for (let n = 0; n < count; n++) {
    const at = begins + (n / count) * (DAYS - 1) * DAY_MS + 3_600_000;
    const [id, saleId] = [firstInvoice + n, firstSale + n];
    sale.run(saleId, iso(at));
    invoice.run({
      ...model,
      id,
      saleId,
      number: firstNumber + n,
      written: String(firstNumber + n),
      issuedOn: dayOf(at),
      searchKey: `receipt ${firstNumber + n}`,
      createdAt: iso(at),
    });
    payment("payment", { saleId, minor: Number(model.grossMinor), on: dayOf(at), at, method: "card" });
  }
}

/** Counts of one part each that agreed. */
function counts(db: Db, begins: number): void {
  const first = nextOf(db, "CountSheet");
  const sheet = db.prepare(
    `INSERT INTO "CountSheet" (id, bin, state, startedAt, countedAt, countedBy, approvedAt, approvedBy) VALUES (?, ?, 'approved', ?, ?, 'Bench', ?, 'Bench')`,
  );
  const row = db.prepare(
    `INSERT INTO "CountLine" (sheetId, partId, countedMilli, seenMilli) VALUES (?, ?, 1000, 1000)`,
  );
  const parts = db.prepare(`SELECT id, bin FROM "Part" WHERE bin <> '' ORDER BY id`).all() as {
    id: number;
    bin: string;
  }[];
  for (const [n, { id, bin }] of parts.entries()) {
    const at = iso(begins + (n / parts.length) * DAYS * DAY_MS);
    sheet.run(first + n, bin, at, at, at);
    row.run(first + n, id);
  }
}

function closedDays(db: Db, begins: number): void {
  const day = db.prepare(
    `INSERT OR IGNORE INTO "EndOfDay" (day, fromDay, closedAt, frozen, hash, expectedMinor, countedMinor, differenceMinor, leftMinor) VALUES (?, ?, ?, '{}', '', 10000, 10000, 0, 10000)`,
  );
  for (let n = 0; n < DAYS - 400; n++) {
    const at = begins + n * DAY_MS;
    day.run(dayOf(at), dayOf(at), iso(at));
  }
}

function insertLike(db: Db, table: string, row: Record<string, unknown>) {
  const columns = Object.keys(row);
  return db.prepare(
    `INSERT INTO "${table}" (${columns.map((one) => `"${one}"`).join(", ")}) VALUES (${columns.map((one) => `@${one}`).join(", ")})`,
  );
}

interface Paid {
  readonly jobId?: number;
  readonly saleId?: number;
  readonly invoiceId?: number;
  readonly minor: number;
  readonly on: string;
  readonly at: number;
  readonly method?: string;
}

function paymentOf(db: Db) {
  const insert = db.prepare(
    `INSERT INTO "Payment" (kind, jobId, saleId, invoiceId, method, amountMinor, paidOn, at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  return (kind: string, { jobId, saleId, invoiceId, minor, on, at, method = "transfer" }: Paid) =>
    insert.run(kind, jobId ?? null, saleId ?? null, invoiceId ?? null, method, minor, on, iso(at));
}
