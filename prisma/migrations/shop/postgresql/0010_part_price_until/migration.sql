-- AlterTable
ALTER TABLE "Part" ADD COLUMN     "priceUntil" TEXT;
