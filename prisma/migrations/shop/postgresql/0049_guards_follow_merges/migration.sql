-- The guard once more, with the column that another migration added: a database may have had that before or after 0048.
DROP TRIGGER "Invoice_never_changes" ON "Invoice";

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" = 'issued' AND (
  NEW."state" IS DISTINCT FROM OLD."state" OR
  NEW."kind" IS DISTINCT FROM OLD."kind" OR
  NEW."number" IS DISTINCT FROM OLD."number" OR
  NEW."written" IS DISTINCT FROM OLD."written" OR
  NEW."frozen" IS DISTINCT FROM OLD."frozen" OR
  NEW."hash" IS DISTINCT FROM OLD."hash" OR
  NEW."issuedOn" IS DISTINCT FROM OLD."issuedOn" OR
  NEW."netMinor" IS DISTINCT FROM OLD."netMinor" OR
  NEW."taxMinor" IS DISTINCT FROM OLD."taxMinor" OR
  NEW."grossMinor" IS DISTINCT FROM OLD."grossMinor" OR
  NEW."prepaidMinor" IS DISTINCT FROM OLD."prepaidMinor" OR
  NEW."jobId" IS DISTINCT FROM OLD."jobId" OR
  NEW."saleId" IS DISTINCT FROM OLD."saleId"))
EXECUTE FUNCTION "refuse"('An issued document never changes: write a credit note');
