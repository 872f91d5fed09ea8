-- Jets whose size is settled when the step that fits them is passed.
ALTER TABLE "Step" ADD COLUMN "unsettled" JSONB NOT NULL DEFAULT '[]';
-- Parts that are zero-rated, exempt or outside the tax's scope.
ALTER TABLE "Part" ADD COLUMN "taxCategory" TEXT NOT NULL DEFAULT '';
-- A quote below the least margin is sent only with a reason.
ALTER TABLE "QuoteRevision" ADD COLUMN "belowMargin" JSONB;
-- A new shop has no labour rate until it enters one; the example that was never saved is no rate of the shop's.
ALTER TABLE "LabourGrade" ADD COLUMN "rateSet" BOOLEAN NOT NULL DEFAULT true;
UPDATE "LabourGrade" SET "rateSet" = false
WHERE "code" = 'workshop' AND "ratePerHourMinor" = 10000 AND "costPerHourMinor" = 5000 AND "version" = 1;
-- A package revision whose fixed prices were turned to prices with tax in them, or without, says which it was made from.
ALTER TABLE "PackageRevision" ADD COLUMN "convertedFrom" INTEGER;
