-- AlterTable
ALTER TABLE "Settings" ADD COLUMN     "firstSteps" BOOLEAN NOT NULL DEFAULT true;
