-- What of an erased customer is kept, and until when.
ALTER TABLE "Settings" ADD COLUMN "keepYears" INTEGER;

-- CreateTable
CREATE TABLE "KeptRecord" (
    "id" SERIAL NOT NULL,
    "customerId" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "day" TEXT NOT NULL,
    "minimisedAt" TIMESTAMP(3),

    CONSTRAINT "KeptRecord_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "KeptRecord_minimisedAt_day_idx" ON "KeptRecord"("minimisedAt", "day");

-- CreateIndex
CREATE INDEX "KeptRecord_customerId_idx" ON "KeptRecord"("customerId");

-- CreateIndex
CREATE UNIQUE INDEX "KeptRecord_noun_nounId_key" ON "KeptRecord"("noun", "nounId");

-- Customers who were erased before: their documents are reckoned from the newest of them.
INSERT INTO "KeptRecord" ("customerId", "noun", "nounId", "day")
SELECT i."customerId", 'invoice', i."id",
  (SELECT MAX(n."issuedOn") FROM "Invoice" n WHERE n."customerId" = i."customerId" AND n."state" = 'issued')
FROM "Invoice" i JOIN "Customer" c ON c."id" = i."customerId"
WHERE i."state" = 'issued' AND c."name" = 'Erased customer ' || c."id";

INSERT INTO "KeptRecord" ("customerId", "noun", "nounId", "day")
SELECT q."customerId", 'revision', r."id",
  COALESCE((SELECT MAX(n."issuedOn") FROM "Invoice" n WHERE n."customerId" = q."customerId" AND n."state" = 'issued'), '2026-12-31')
FROM "QuoteRevision" r JOIN "Quote" q ON q."id" = r."quoteId" JOIN "Customer" c ON c."id" = q."customerId"
WHERE c."name" = 'Erased customer ' || c."id"
  AND (EXISTS (SELECT 1 FROM "Acceptance" a WHERE a."revisionId" = r."id") OR EXISTS (SELECT 1 FROM "Job" j WHERE j."revisionId" = r."id"));

INSERT INTO "KeptRecord" ("customerId", "noun", "nounId", "day")
SELECT j."customerId", 'job', j."id",
  COALESCE((SELECT MAX(n."issuedOn") FROM "Invoice" n WHERE n."customerId" = j."customerId" AND n."state" = 'issued'), '2026-12-31')
FROM "Job" j JOIN "Customer" c ON c."id" = j."customerId" WHERE c."name" = 'Erased customer ' || c."id";
