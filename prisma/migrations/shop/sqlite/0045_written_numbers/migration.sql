-- AlterTable
ALTER TABLE "Counter" ADD COLUMN "prefix" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Counter" ADD COLUMN "yearly" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "Invoice" ADD COLUMN "written" TEXT NOT NULL DEFAULT '';

-- So far a number was written as it is.
UPDATE "Invoice" SET "written" = CAST("number" AS TEXT) WHERE "number" IS NOT NULL;

DROP TRIGGER "Invoice_never_changes";

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
WHEN OLD."state" = 'issued' AND (
  NEW."state" IS NOT OLD."state" OR NEW."kind" IS NOT OLD."kind" OR NEW."number" IS NOT OLD."number" OR NEW."written" IS NOT OLD."written" OR
  NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR NEW."issuedOn" IS NOT OLD."issuedOn" OR
  NEW."netMinor" IS NOT OLD."netMinor" OR NEW."taxMinor" IS NOT OLD."taxMinor" OR NEW."grossMinor" IS NOT OLD."grossMinor" OR
  NEW."prepaidMinor" IS NOT OLD."prepaidMinor" OR NEW."customerId" IS NOT OLD."customerId" OR NEW."jobId" IS NOT OLD."jobId" OR
  NEW."saleId" IS NOT OLD."saleId")
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;
