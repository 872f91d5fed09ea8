-- CreateEnum
CREATE TYPE "LibraryKind" AS ENUM ('access', 'operation', 'caution', 'check');

-- AlterTable
ALTER TABLE "FollowUp" ADD COLUMN     "recheck" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "PackageRevision" ADD COLUMN     "picked" JSONB NOT NULL DEFAULT '[]';

-- CreateTable
CREATE TABLE "LibraryEntry" (
    "id" SERIAL NOT NULL,
    "key" TEXT NOT NULL,
    "kind" "LibraryKind" NOT NULL,
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "families" TEXT NOT NULL DEFAULT '',
    "data" JSONB NOT NULL,
    "print" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "searchKey" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "LibraryEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LibraryEdition" (
    "id" SERIAL NOT NULL,
    "entryId" INTEGER NOT NULL,
    "print" TEXT NOT NULL,
    "data" JSONB NOT NULL,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "LibraryEdition_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LibraryLeft" (
    "packageId" INTEGER NOT NULL,
    "entryKey" TEXT NOT NULL,
    "print" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "LibraryLeft_pkey" PRIMARY KEY ("packageId","entryKey","print")
);

-- CreateIndex
CREATE UNIQUE INDEX "LibraryEntry_key_key" ON "LibraryEntry"("key");

-- CreateIndex
CREATE INDEX "LibraryEntry_active_kind_place_name_idx" ON "LibraryEntry"("active", "kind", "place", "name");

-- CreateIndex
CREATE UNIQUE INDEX "LibraryEdition_entryId_print_key" ON "LibraryEdition"("entryId", "print");

-- AddForeignKey
ALTER TABLE "LibraryEdition" ADD CONSTRAINT "LibraryEdition_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "LibraryEntry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Texts that only grow.
CREATE TRIGGER "LibraryEdition_only_grows" BEFORE UPDATE OR DELETE ON "LibraryEdition"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "LibraryEdition_only_grows_whole" BEFORE TRUNCATE ON "LibraryEdition"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
