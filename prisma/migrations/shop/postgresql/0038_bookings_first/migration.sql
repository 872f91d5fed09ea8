-- DropForeignKey
ALTER TABLE "Booking" DROP CONSTRAINT "Booking_jobId_fkey";

-- AlterTable
ALTER TABLE "Booking" ADD COLUMN     "bikeId" INTEGER,
ADD COLUMN     "customerId" INTEGER,
ADD COLUMN     "guestName" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "guestPhone" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "words" TEXT NOT NULL DEFAULT '',
ALTER COLUMN "jobId" DROP NOT NULL;

-- CreateIndex
CREATE INDEX "Booking_customerId_idx" ON "Booking"("customerId");

-- CreateIndex
CREATE INDEX "Booking_bikeId_idx" ON "Booking"("bikeId");

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A booking is for a job, or says what for.
CREATE TRIGGER "Booking_for_something" BEFORE INSERT OR UPDATE ON "Booking"
FOR EACH ROW WHEN (NEW."jobId" IS NULL AND NEW."words" = '')
EXECUTE FUNCTION "refuse"('A booking is for a job, or says what for');
