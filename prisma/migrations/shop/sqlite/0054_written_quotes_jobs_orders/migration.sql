-- AlterTable
ALTER TABLE "Quote" ADD COLUMN "written" TEXT NOT NULL DEFAULT '';

-- So far a number was written as it is.
UPDATE "Quote" SET "written" = CAST("number" AS TEXT);

-- CreateIndex
CREATE UNIQUE INDEX "Quote_written_key" ON "Quote"("written");

-- AlterTable
ALTER TABLE "Job" ADD COLUMN "written" TEXT NOT NULL DEFAULT '';

-- So far a number was written as it is.
UPDATE "Job" SET "written" = CAST("number" AS TEXT);

-- CreateIndex
CREATE UNIQUE INDEX "Job_written_key" ON "Job"("written");

-- AlterTable
ALTER TABLE "PurchaseOrder" ADD COLUMN "written" TEXT NOT NULL DEFAULT '';

-- So far a number was written as it is.
UPDATE "PurchaseOrder" SET "written" = CAST("number" AS TEXT);

-- CreateIndex
CREATE UNIQUE INDEX "PurchaseOrder_written_key" ON "PurchaseOrder"("written");
