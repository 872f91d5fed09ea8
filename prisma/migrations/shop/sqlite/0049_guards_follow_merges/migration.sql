-- Both guards once more, with the columns that other migrations added: a database may have had those before or after 0048.
DROP TRIGGER "Invoice_never_changes";

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
WHEN OLD."state" = 'issued' AND (
  NEW."state" IS NOT OLD."state" OR NEW."kind" IS NOT OLD."kind" OR NEW."number" IS NOT OLD."number" OR
  NEW."written" IS NOT OLD."written" OR NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR
  NEW."issuedOn" IS NOT OLD."issuedOn" OR NEW."netMinor" IS NOT OLD."netMinor" OR NEW."taxMinor" IS NOT OLD."taxMinor" OR
  NEW."grossMinor" IS NOT OLD."grossMinor" OR NEW."prepaidMinor" IS NOT OLD."prepaidMinor" OR
  NEW."jobId" IS NOT OLD."jobId" OR NEW."saleId" IS NOT OLD."saleId" OR
  (NEW."customerId" IS NOT OLD."customerId" AND NOT EXISTS (
    SELECT 1 FROM "Merged" WHERE "noun" = 'customer' AND "goneId" = OLD."customerId" AND "keptId" = NEW."customerId")))
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

DROP TRIGGER "FittedPart_only_grows_update";

CREATE TRIGGER "FittedPart_only_grows_update" BEFORE UPDATE ON "FittedPart"
WHEN NEW."id" IS NOT OLD."id" OR NEW."carburettor" IS NOT OLD."carburettor" OR NEW."kind" IS NOT OLD."kind" OR
  NEW."state" IS NOT OLD."state" OR NEW."facts" IS NOT OLD."facts" OR NEW."how" IS NOT OLD."how" OR
  NEW."onCard" IS NOT OLD."onCard" OR NEW."partId" IS NOT OLD."partId" OR NEW."jobId" IS NOT OLD."jobId" OR
  NEW."sheetId" IS NOT OLD."sheetId" OR NEW."takenAt" IS NOT OLD."takenAt" OR NEW."staffId" IS NOT OLD."staffId" OR
  NOT EXISTS (SELECT 1 FROM "Merged" WHERE "noun" = 'bike' AND "goneId" = OLD."bikeId" AND "keptId" = NEW."bikeId")
BEGIN SELECT RAISE(ABORT, 'FittedPart only grows: write a new row instead'); END;
