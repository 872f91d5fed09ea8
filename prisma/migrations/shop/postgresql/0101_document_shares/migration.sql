-- CreateTable
CREATE TABLE "DocumentShare" (
    "id" SERIAL NOT NULL,
    "invoiceId" INTEGER NOT NULL,
    "issuedOn" TEXT NOT NULL,
    "job" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "netMinor" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,

    CONSTRAINT "DocumentShare_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "DocumentShare_issuedOn_invoiceId_idx" ON "DocumentShare"("issuedOn", "invoiceId");

-- CreateIndex
CREATE INDEX "DocumentShare_job_idx" ON "DocumentShare"("job");

-- CreateIndex
CREATE UNIQUE INDEX "DocumentShare_invoiceId_job_kind_key" ON "DocumentShare"("invoiceId", "job", "kind");

-- AddForeignKey
ALTER TABLE "DocumentShare" ADD CONSTRAINT "DocumentShare_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What was issued before: the same sums out of what was printed.
INSERT INTO "DocumentShare" ("invoiceId", "issuedOn", "job", "kind", "netMinor", "minutes")
SELECT i."id", i."issuedOn",
  COALESCE(l.value->>'job', i."frozen"->'jobs'->0->>'number', i."frozen"->'job'->>'number', ''),
  CASE WHEN i."basis" = 'counter' THEN 'counter' ELSE l.value->>'kind' END,
  SUM((l.value->>'netMinor')::INTEGER)::INTEGER,
  SUM(CASE
    WHEN l.value->>'kind' = 'labour' AND l.value->>'unit' = 'h'
    THEN ROUND((l.value->>'quantityMilli')::NUMERIC * 60 / 1000)::INTEGER
    ELSE 0 END)::INTEGER
FROM "Invoice" i, LATERAL jsonb_array_elements(i."frozen"->'lines') AS l(value)
WHERE i."state" = 'issued' AND i."issuedOn" IS NOT NULL
GROUP BY 1, 2, 3, 4;

CREATE TRIGGER "DocumentShare_only_grows" BEFORE UPDATE OR DELETE ON "DocumentShare"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "DocumentShare_only_grows_whole" BEFORE TRUNCATE ON "DocumentShare"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
