-- AlterTable
ALTER TABLE "Acceptance" ADD COLUMN     "language" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "Customer" ADD COLUMN     "language" TEXT NOT NULL DEFAULT '';
