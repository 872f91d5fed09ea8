-- AlterTable
ALTER TABLE "ImportRun" ADD COLUMN     "undoneAt" TIMESTAMP(3),
ADD COLUMN     "undoneBy" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "ImportEntry" (
    "id" SERIAL NOT NULL,
    "runId" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "act" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "was" JSONB,
    "openedMilli" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "ImportEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Merged" (
    "noun" TEXT NOT NULL,
    "goneId" INTEGER NOT NULL,
    "keptId" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "Merged_pkey" PRIMARY KEY ("noun","goneId")
);

-- CreateTable
CREATE TABLE "KnownKey" (
    "noun" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,

    CONSTRAINT "KnownKey_pkey" PRIMARY KEY ("noun","key")
);

-- CreateIndex
CREATE INDEX "ImportEntry_runId_id_idx" ON "ImportEntry"("runId", "id");

-- CreateIndex
CREATE INDEX "ImportEntry_noun_nounId_idx" ON "ImportEntry"("noun", "nounId");

-- CreateIndex
CREATE INDEX "Merged_noun_keptId_idx" ON "Merged"("noun", "keptId");

-- CreateIndex
CREATE INDEX "KnownKey_noun_nounId_idx" ON "KnownKey"("noun", "nounId");

-- AddForeignKey
ALTER TABLE "ImportEntry" ADD CONSTRAINT "ImportEntry_runId_fkey" FOREIGN KEY ("runId") REFERENCES "ImportRun"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- An issued document stays as it is, and so does a description of a part. Whose they are follows a merge, and nothing else.
-- A function's body is read when it runs, so it names its schema by the trigger's own table.
CREATE FUNCTION "follows_merge"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  "follows" boolean;
BEGIN
  EXECUTE format('SELECT EXISTS (SELECT 1 FROM %I."Merged" WHERE "noun" = $1 AND "goneId" = $2 AND "keptId" = $3)', TG_TABLE_SCHEMA)
  INTO "follows" USING TG_ARGV[0], (to_jsonb(OLD) ->> TG_ARGV[1])::int, (to_jsonb(NEW) ->> TG_ARGV[1])::int;
  IF NOT "follows" OR (to_jsonb(NEW) - TG_ARGV[1]) IS DISTINCT FROM (to_jsonb(OLD) - TG_ARGV[1]) THEN
    RAISE EXCEPTION '%', TG_ARGV[2];
  END IF;
  RETURN NEW;
END
$$;

DROP TRIGGER "Invoice_never_changes" ON "Invoice";

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" = 'issued' AND (
  NEW."state" IS DISTINCT FROM OLD."state" OR
  NEW."kind" IS DISTINCT FROM OLD."kind" OR
  NEW."number" IS DISTINCT FROM OLD."number" OR
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

CREATE TRIGGER "Invoice_customer_stays" BEFORE UPDATE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" = 'issued' AND NEW."customerId" IS DISTINCT FROM OLD."customerId")
EXECUTE FUNCTION "follows_merge"('customer', 'customerId', 'An issued document never changes: write a credit note');

DROP TRIGGER "FittedPart_only_grows" ON "FittedPart";

CREATE TRIGGER "FittedPart_only_grows" BEFORE DELETE ON "FittedPart"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "FittedPart_stays" BEFORE UPDATE ON "FittedPart"
FOR EACH ROW EXECUTE FUNCTION "follows_merge"('bike', 'bikeId', 'FittedPart only grows: write a new row instead');
