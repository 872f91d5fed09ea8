-- CreateTable
CREATE TABLE "DocumentShare" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "invoiceId" INTEGER NOT NULL,
    "issuedOn" TEXT NOT NULL,
    "job" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "netMinor" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,
    CONSTRAINT "DocumentShare_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "DocumentShare_issuedOn_invoiceId_idx" ON "DocumentShare"("issuedOn", "invoiceId");

-- CreateIndex
CREATE INDEX "DocumentShare_job_idx" ON "DocumentShare"("job");

-- CreateIndex
CREATE UNIQUE INDEX "DocumentShare_invoiceId_job_kind_key" ON "DocumentShare"("invoiceId", "job", "kind");

-- What was issued before: the same sums out of what was printed.
INSERT INTO "DocumentShare" ("invoiceId", "issuedOn", "job", "kind", "netMinor", "minutes")
SELECT i."id", i."issuedOn",
  COALESCE(
    CAST(json_extract(l.value, '$.job') AS TEXT),
    CAST(json_extract(i."frozen", '$.jobs[0].number') AS TEXT),
    CAST(json_extract(i."frozen", '$.job.number') AS TEXT),
    ''),
  CASE WHEN i."basis" = 'counter' THEN 'counter' ELSE json_extract(l.value, '$.kind') END,
  SUM(json_extract(l.value, '$.netMinor')),
  SUM(CASE
    WHEN json_extract(l.value, '$.kind') = 'labour' AND json_extract(l.value, '$.unit') = 'h'
    THEN CAST(ROUND(json_extract(l.value, '$.quantityMilli') * 60 / 1000.0) AS INTEGER)
    ELSE 0 END)
FROM "Invoice" i, json_each(i."frozen", '$.lines') l
WHERE i."state" = 'issued' AND i."issuedOn" IS NOT NULL
GROUP BY 1, 2, 3, 4;

CREATE TRIGGER "DocumentShare_only_grows_update" BEFORE UPDATE ON "DocumentShare"
BEGIN SELECT RAISE(ABORT, 'DocumentShare only grows: write a new row instead'); END;

CREATE TRIGGER "DocumentShare_only_grows_delete" BEFORE DELETE ON "DocumentShare"
BEGIN SELECT RAISE(ABORT, 'DocumentShare only grows: write a new row instead'); END;
