-- AlterTable
ALTER TABLE "Settings" ADD COLUMN "effectsOnQuotes" BOOLEAN NOT NULL DEFAULT false;
