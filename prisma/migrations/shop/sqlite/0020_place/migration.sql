-- AlterTable
ALTER TABLE "Settings" ADD COLUMN "latitude" REAL;
ALTER TABLE "Settings" ADD COLUMN "longitude" REAL;
