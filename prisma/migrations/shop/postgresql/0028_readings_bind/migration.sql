-- A reading says where along a part it was taken, on which carburettor where its hold point leaves that open, and its limits.
ALTER TABLE "HoldPoint" ADD COLUMN "station" DOUBLE PRECISION;
ALTER TABLE "Reading" ADD COLUMN "low" DOUBLE PRECISION;
ALTER TABLE "Reading" ADD COLUMN "high" DOUBLE PRECISION;
ALTER TABLE "Reading" ADD COLUMN "carburettor" INTEGER;
