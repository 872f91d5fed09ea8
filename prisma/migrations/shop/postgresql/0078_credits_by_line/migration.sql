-- AlterTable
ALTER TABLE "Invoice" ADD COLUMN "kept" JSONB;
ALTER TABLE "Invoice" ADD COLUMN "takenBack" BOOLEAN NOT NULL DEFAULT false;

-- So far a credit note took all of its invoice back.
UPDATE "Invoice" SET "takenBack" = true WHERE "id" IN (SELECT "creditsId" FROM "Invoice" WHERE "creditsId" IS NOT NULL);
