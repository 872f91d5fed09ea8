-- AlterEnum: nothing below may use the new word, since it counts only once this is committed.
ALTER TYPE "MoveKind" ADD VALUE 'betweenBins';

-- AlterTable
ALTER TABLE "Move" ADD COLUMN     "bin" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "PartBin" (
    "id" SERIAL NOT NULL,
    "partId" INTEGER NOT NULL,
    "bin" TEXT NOT NULL DEFAULT '',
    "onHandMilli" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "PartBin_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "PartBin_bin_idx" ON "PartBin"("bin");

-- CreateIndex
CREATE UNIQUE INDEX "PartBin_partId_bin_key" ON "PartBin"("partId", "bin");

-- AddForeignKey
ALTER TABLE "PartBin" ADD CONSTRAINT "PartBin_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- All that moved so far lay in the part's one bin: the ledger learns it once, and then only grows again.
ALTER TABLE "Move" DISABLE TRIGGER "Move_only_grows";

UPDATE "Move" SET "bin" = "Part"."bin" FROM "Part" WHERE "Part"."id" = "Move"."partId" AND "Part"."bin" <> '';

ALTER TABLE "Move" ENABLE TRIGGER "Move_only_grows";

INSERT INTO "PartBin" ("partId", "bin", "onHandMilli")
SELECT "id", "bin", "onHandMilli" FROM "Part" WHERE "id" IN (SELECT "partId" FROM "Move") ORDER BY "id";

-- A guard that the schema language cannot say.
CREATE TRIGGER "PartBin_never_below" BEFORE INSERT OR UPDATE ON "PartBin"
FOR EACH ROW WHEN (NEW."onHandMilli" < 0) EXECUTE FUNCTION "refuse"('A bin holds less than nothing');
