-- AlterTable
ALTER TABLE "ImportRun" ADD COLUMN "undoneAt" DATETIME;
ALTER TABLE "ImportRun" ADD COLUMN "undoneBy" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "ImportEntry" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "runId" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "act" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "was" JSONB,
    "openedMilli" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ImportEntry_runId_fkey" FOREIGN KEY ("runId") REFERENCES "ImportRun" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Merged" (
    "noun" TEXT NOT NULL,
    "goneId" INTEGER NOT NULL,
    "keptId" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,

    PRIMARY KEY ("noun", "goneId")
);

-- CreateTable
CREATE TABLE "KnownKey" (
    "noun" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,

    PRIMARY KEY ("noun", "key")
);

-- CreateIndex
CREATE INDEX "ImportEntry_runId_id_idx" ON "ImportEntry"("runId", "id");

-- CreateIndex
CREATE INDEX "ImportEntry_noun_nounId_idx" ON "ImportEntry"("noun", "nounId");

-- CreateIndex
CREATE INDEX "Merged_noun_keptId_idx" ON "Merged"("noun", "keptId");

-- CreateIndex
CREATE INDEX "KnownKey_noun_nounId_idx" ON "KnownKey"("noun", "nounId");

-- An issued document stays as it is, and so does a description of a part. Whose they are follows a merge, and nothing else.
DROP TRIGGER "Invoice_never_changes";

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
WHEN OLD."state" = 'issued' AND (
  NEW."state" IS NOT OLD."state" OR NEW."kind" IS NOT OLD."kind" OR NEW."number" IS NOT OLD."number" OR
  NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR NEW."issuedOn" IS NOT OLD."issuedOn" OR
  NEW."netMinor" IS NOT OLD."netMinor" OR NEW."taxMinor" IS NOT OLD."taxMinor" OR NEW."grossMinor" IS NOT OLD."grossMinor" OR
  NEW."prepaidMinor" IS NOT OLD."prepaidMinor" OR NEW."jobId" IS NOT OLD."jobId" OR NEW."saleId" IS NOT OLD."saleId" OR
  (NEW."customerId" IS NOT OLD."customerId" AND NOT EXISTS (
    SELECT 1 FROM "Merged" WHERE "noun" = 'customer' AND "goneId" = OLD."customerId" AND "keptId" = NEW."customerId")))
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

DROP TRIGGER "FittedPart_only_grows_update";

CREATE TRIGGER "FittedPart_only_grows_update" BEFORE UPDATE ON "FittedPart"
WHEN NEW."id" IS NOT OLD."id" OR NEW."carburettor" IS NOT OLD."carburettor" OR NEW."kind" IS NOT OLD."kind" OR
  NEW."state" IS NOT OLD."state" OR NEW."facts" IS NOT OLD."facts" OR NEW."how" IS NOT OLD."how" OR
  NEW."partId" IS NOT OLD."partId" OR NEW."jobId" IS NOT OLD."jobId" OR NEW."sheetId" IS NOT OLD."sheetId" OR
  NEW."takenAt" IS NOT OLD."takenAt" OR NEW."staffId" IS NOT OLD."staffId" OR NOT EXISTS (
    SELECT 1 FROM "Merged" WHERE "noun" = 'bike' AND "goneId" = OLD."bikeId" AND "keptId" = NEW."bikeId")
BEGIN SELECT RAISE(ABORT, 'FittedPart only grows: write a new row instead'); END;
