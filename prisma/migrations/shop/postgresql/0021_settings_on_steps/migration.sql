-- A step says which settings it makes; a reading says which setting it measures, and on which carburettor.
ALTER TABLE "Step" ADD COLUMN "makes" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "HoldPoint" ADD COLUMN "measures" TEXT NOT NULL DEFAULT '';
ALTER TABLE "HoldPoint" ADD COLUMN "carburettor" INTEGER;
-- A promised part that was not used says why.
ALTER TABLE "Reservation" ADD COLUMN "unusedWhy" TEXT NOT NULL DEFAULT '';
