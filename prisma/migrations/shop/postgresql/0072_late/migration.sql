-- AlterTable
ALTER TABLE "Booking" ADD COLUMN     "expectedAt" TIMESTAMP(3),
ADD COLUMN     "noShowAt" TIMESTAMP(3);
