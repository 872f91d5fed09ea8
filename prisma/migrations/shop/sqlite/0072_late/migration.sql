-- AlterTable
ALTER TABLE "Booking" ADD COLUMN "expectedAt" DATETIME;
ALTER TABLE "Booking" ADD COLUMN "noShowAt" DATETIME;
