-- AlterTable
ALTER TABLE "PackageRevision" ADD COLUMN     "checked" JSONB,
ADD COLUMN     "checkedBy" INTEGER NOT NULL DEFAULT 0;
