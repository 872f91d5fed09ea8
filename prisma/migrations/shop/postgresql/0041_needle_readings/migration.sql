-- AlterTable
ALTER TABLE "HoldPoint" ADD COLUMN "takenBackTo" INTEGER;

-- AlterTable
ALTER TABLE "FittedPart" ADD COLUMN "onCard" TEXT NOT NULL DEFAULT '';
