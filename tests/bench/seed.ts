import Database from "better-sqlite3";
import { shopFile } from "@/lib/db/shop";

/** Fills a prepared shop with `count` customers, bikes, quotes and jobs, and one part with plenty of stock. */
export function seed(database: string, count: number): void {
  const db = new Database(shopFile(database));
  db.pragma("foreign_keys = OFF");
  const at = "2026-11-25T00:30:00.000+00:00";
  db.transaction(() => {
    db.prepare(
      `INSERT INTO "ModelCard" (id, make, model, displacementCc, carburettorType, searchKey, createdAt) VALUES (1, 'Tarrant', 'Drover 580', 640, 'constant vacuum', 'tarrant tx 640', ?)`,
    ).run(at);
    db.prepare(`INSERT INTO "Package" (id, code, name) VALUES (1, 'bench', 'Bench package')`).run();
    db.prepare(
      `INSERT INTO "PackageRevision" (id, packageId, number, state, recipe, createdAt) VALUES (1, 1, 1, 'published', '{}', ?)`,
    ).run(at);
    const customer = db.prepare(
      `INSERT INTO "Customer" (id, name, searchKey, createdAt) VALUES (?, ?, ?, ?)`,
    );
    const bike = db.prepare(
      `INSERT INTO "Bike" (id, customerId, modelCardId, plate, searchKey, createdAt) VALUES (?, ?, 1, ?, ?, ?)`,
    );
    const quote = db.prepare(
      `INSERT INTO "Quote" (id, number, written, customerId, bikeId, title, state, validUntil, grossMinor, minutes, searchKey, createdAt) VALUES (?, ?, ?, ?, ?, 'Open-road breathing', ?, '2026-12-31', ?, 139, ?, ?)`,
    );
    const revision = db.prepare(
      `INSERT INTO "QuoteRevision" (id, quoteId, number, choices, conditions, createdAt) VALUES (?, ?, 1, '[]', '{}', ?)`,
    );
    const work = db.prepare(
      `INSERT INTO "QuoteWork" (revisionId, position, key, kind, packageRevisionId) VALUES (?, 1, '', 'package', 1)`,
    );
    const job = db.prepare(
      `INSERT INTO "Job" (id, number, written, customerId, bikeId, revisionId, title, state, minutes, searchKey, createdAt) VALUES (?, ?, ?, ?, ?, ?, 'Open-road breathing', ?, 139, ?, ?)`,
    );
    const states = ["draft", "sent", "accepted", "declined"];
    const jobStates = ["waiting", "booked", "inWork", "closed"];
    for (let n = 1; n <= count; n++) {
      customer.run(n, `Customer ${n}`, `customer ${n}`, at);
      bike.run(n, n, `SP ${n}`, `sp ${n} tarrant tx 640`, at);
      quote.run(
        n,
        1000 + n,
        String(1000 + n),
        n,
        n,
        states[n % 4],
        38_000 + (n % 500),
        `quote ${1000 + n} customer ${n}`,
        at,
      );
      revision.run(n, n, at);
      work.run(n);
      job.run(n, 600 + n, String(600 + n), n, n, n, jobStates[n % 4], `job ${600 + n} customer ${n}`, at);
    }
    const step = db.prepare(
      `INSERT INTO "Step" (jobId, position, kind, key, name, minutes, grade, tools, cautions) VALUES (?, ?, 'operation', ?, ?, 12, 'workshop', '[]', '[]')`,
    );
    // The job whose page is read has a card.
    for (let n = 1; n <= 16; n++) step.run(count / 2, n, `o${n}`, `Operation ${n}`);
    db.prepare(
      `INSERT INTO "Part" (id, code, name, kind, onHandMilli, searchKey, createdAt) VALUES (1, 'MJ-125', 'Main jet 125', 'jet', 900000000, 'mj-125 main jet 125', ?)`,
    ).run(at);
    db.prepare(
      `INSERT INTO "Move" (partId, kind, quantityMilli, at) VALUES (1, 'opening', 900000000, ?)`,
    ).run(at);
    db.prepare(`INSERT INTO "PartBin" (partId, bin, onHandMilli) VALUES (1, '', 900000000)`).run();
  })();
  db.close();
}
