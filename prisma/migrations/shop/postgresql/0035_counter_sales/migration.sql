-- AlterEnum
ALTER TYPE "InvoiceKind" ADD VALUE 'receipt';

-- DropForeignKey
ALTER TABLE "Invoice" DROP CONSTRAINT "Invoice_customerId_fkey";

-- DropForeignKey
ALTER TABLE "Invoice" DROP CONSTRAINT "Invoice_jobId_fkey";

-- DropForeignKey
ALTER TABLE "Payment" DROP CONSTRAINT "Payment_jobId_fkey";

-- AlterTable
ALTER TABLE "Invoice" ADD COLUMN     "saleId" INTEGER,
ALTER COLUMN "jobId" DROP NOT NULL,
ALTER COLUMN "customerId" DROP NOT NULL;

-- AlterTable
ALTER TABLE "Move" ADD COLUMN     "saleId" INTEGER;

-- AlterTable
ALTER TABLE "Payment" ADD COLUMN     "saleId" INTEGER,
ALTER COLUMN "jobId" DROP NOT NULL;

-- CreateTable
CREATE TABLE "Sale" (
    "id" SERIAL NOT NULL,
    "soldAt" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "Sale_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Invoice_saleId_idx" ON "Invoice"("saleId");

-- CreateIndex
CREATE INDEX "Move_saleId_idx" ON "Move"("saleId");

-- CreateIndex
CREATE INDEX "Payment_saleId_idx" ON "Payment"("saleId");

-- AddForeignKey
ALTER TABLE "Invoice" ADD CONSTRAINT "Invoice_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invoice" ADD CONSTRAINT "Invoice_saleId_fkey" FOREIGN KEY ("saleId") REFERENCES "Sale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invoice" ADD CONSTRAINT "Invoice_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Payment" ADD CONSTRAINT "Payment_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Payment" ADD CONSTRAINT "Payment_saleId_fkey" FOREIGN KEY ("saleId") REFERENCES "Sale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

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
  NEW."customerId" IS DISTINCT FROM OLD."customerId" OR
  NEW."jobId" IS DISTINCT FROM OLD."jobId" OR
  NEW."saleId" IS DISTINCT FROM OLD."saleId"))
EXECUTE FUNCTION "refuse"('An issued document never changes: write a credit note');
