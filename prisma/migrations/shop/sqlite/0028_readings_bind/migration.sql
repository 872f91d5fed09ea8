-- A reading says where along a part it was taken, on which carburettor where its hold point leaves that open, and its limits.
ALTER TABLE "HoldPoint" ADD COLUMN "station" REAL;
ALTER TABLE "Reading" ADD COLUMN "low" REAL;
ALTER TABLE "Reading" ADD COLUMN "high" REAL;
ALTER TABLE "Reading" ADD COLUMN "carburettor" INTEGER;
