-- AlterTable
ALTER TABLE "Move" ADD COLUMN "bin" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "PartBin" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "partId" INTEGER NOT NULL,
    "bin" TEXT NOT NULL DEFAULT '',
    "onHandMilli" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "PartBin_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "PartBin_bin_idx" ON "PartBin"("bin");

-- CreateIndex
CREATE UNIQUE INDEX "PartBin_partId_bin_key" ON "PartBin"("partId", "bin");

-- All that moved so far lay in the part's one bin: the ledger learns it once, and then only grows again.
DROP TRIGGER "Move_only_grows_update";

UPDATE "Move" SET "bin" = (SELECT "bin" FROM "Part" WHERE "Part"."id" = "Move"."partId")
WHERE "partId" IN (SELECT "id" FROM "Part" WHERE "bin" <> '');

CREATE TRIGGER "Move_only_grows_update" BEFORE UPDATE ON "Move"
BEGIN SELECT RAISE(ABORT, 'Move only grows: write a new row instead'); END;

INSERT INTO "PartBin" ("partId", "bin", "onHandMilli")
SELECT "id", "bin", "onHandMilli" FROM "Part" WHERE "id" IN (SELECT "partId" FROM "Move") ORDER BY "id";

-- Guards that the schema language cannot say.

DROP TRIGGER "Move_kind_words_insert";

CREATE TRIGGER "Move_kind_words_insert" BEFORE INSERT ON "Move"
WHEN NEW."kind" NOT IN ('opening', 'receipt', 'use', 'returnToStock', 'returnToSupplier', 'count', 'scrap', 'split', 'betweenBins')
BEGIN SELECT RAISE(ABORT, 'Move.kind is not one of its words'); END;

DROP TRIGGER "Move_kind_words_update";

CREATE TRIGGER "Move_kind_words_update" BEFORE UPDATE OF "kind" ON "Move"
WHEN NEW."kind" NOT IN ('opening', 'receipt', 'use', 'returnToStock', 'returnToSupplier', 'count', 'scrap', 'split', 'betweenBins')
BEGIN SELECT RAISE(ABORT, 'Move.kind is not one of its words'); END;

CREATE TRIGGER "PartBin_never_below_insert" BEFORE INSERT ON "PartBin"
WHEN NEW."onHandMilli" < 0
BEGIN SELECT RAISE(ABORT, 'A bin holds less than nothing'); END;

CREATE TRIGGER "PartBin_never_below_update" BEFORE UPDATE ON "PartBin"
WHEN NEW."onHandMilli" < 0
BEGIN SELECT RAISE(ABORT, 'A bin holds less than nothing'); END;
