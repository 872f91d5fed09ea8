-- AlterTable
ALTER TABLE "PackageRevision" ADD COLUMN "checked" JSONB;
ALTER TABLE "PackageRevision" ADD COLUMN "checkedBy" INTEGER NOT NULL DEFAULT 0;
