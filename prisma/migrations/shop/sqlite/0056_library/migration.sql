-- AlterTable
ALTER TABLE "FollowUp" ADD COLUMN "recheck" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "PackageRevision" ADD COLUMN "picked" JSONB NOT NULL DEFAULT '[]';

-- CreateTable
CREATE TABLE "LibraryEntry" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "key" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "families" TEXT NOT NULL DEFAULT '',
    "data" JSONB NOT NULL,
    "print" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "searchKey" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "LibraryEdition" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "entryId" INTEGER NOT NULL,
    "print" TEXT NOT NULL,
    "data" JSONB NOT NULL,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "LibraryEdition_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "LibraryEntry" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "LibraryLeft" (
    "packageId" INTEGER NOT NULL,
    "entryKey" TEXT NOT NULL,
    "print" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,

    PRIMARY KEY ("packageId", "entryKey", "print")
);

-- CreateIndex
CREATE UNIQUE INDEX "LibraryEntry_key_key" ON "LibraryEntry"("key");

-- CreateIndex
CREATE INDEX "LibraryEntry_active_kind_place_name_idx" ON "LibraryEntry"("active", "kind", "place", "name");

-- CreateIndex
CREATE UNIQUE INDEX "LibraryEdition_entryId_print_key" ON "LibraryEdition"("entryId", "print");

-- The words of the enum, and texts that only grow.
CREATE TRIGGER "LibraryEntry_kind_words_insert" BEFORE INSERT ON "LibraryEntry"
WHEN NEW."kind" NOT IN ('access', 'operation', 'caution', 'check')
BEGIN SELECT RAISE(ABORT, 'LibraryEntry.kind is not one of its words'); END;

CREATE TRIGGER "LibraryEntry_kind_words_update" BEFORE UPDATE OF "kind" ON "LibraryEntry"
WHEN NEW."kind" NOT IN ('access', 'operation', 'caution', 'check')
BEGIN SELECT RAISE(ABORT, 'LibraryEntry.kind is not one of its words'); END;

CREATE TRIGGER "LibraryEdition_only_grows_update" BEFORE UPDATE ON "LibraryEdition"
BEGIN SELECT RAISE(ABORT, 'LibraryEdition only grows: write a new row instead'); END;

CREATE TRIGGER "LibraryEdition_only_grows_delete" BEFORE DELETE ON "LibraryEdition"
BEGIN SELECT RAISE(ABORT, 'LibraryEdition only grows: write a new row instead'); END;
