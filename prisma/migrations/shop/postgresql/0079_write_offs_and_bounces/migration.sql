-- AlterEnum
ALTER TYPE "PaymentKind" ADD VALUE 'writeOff';
ALTER TYPE "PaymentKind" ADD VALUE 'bounced';

-- AlterTable
ALTER TABLE "Payment" ADD COLUMN     "reversesId" INTEGER;

-- CreateIndex
CREATE UNIQUE INDEX "Payment_reversesId_key" ON "Payment"("reversesId");
