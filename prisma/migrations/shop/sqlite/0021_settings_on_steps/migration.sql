-- A step says which settings it makes; a reading says which setting it measures, and on which carburettor.
ALTER TABLE "Step" ADD COLUMN "makes" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "HoldPoint" ADD COLUMN "measures" TEXT NOT NULL DEFAULT '';
ALTER TABLE "HoldPoint" ADD COLUMN "carburettor" INTEGER;
-- A promised part that was not used says why.
ALTER TABLE "Reservation" ADD COLUMN "unusedWhy" TEXT NOT NULL DEFAULT '';
-- A step that opens or closes an access reads as what the hand does, and keeps the access's own name.
ALTER TABLE "Step" ADD COLUMN "access" TEXT NOT NULL DEFAULT '';
UPDATE "Step" SET "access" = "name" WHERE "kind" IN ('open', 'close');
UPDATE "Step" SET "name" = 'Open: ' || "name" WHERE "kind" = 'open';
UPDATE "Step" SET "name" = 'Close: ' || "name" WHERE "kind" = 'close';
