-- AlterTable
ALTER TABLE "Booking" ADD COLUMN "arrivedAt" DATETIME;

-- CreateTable
CREATE TABLE "Arrival" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "bookingId" INTEGER,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "fuelEighths" INTEGER,
    "keys" INTEGER,
    "accessories" TEXT NOT NULL DEFAULT '',
    "words" TEXT NOT NULL DEFAULT '',
    "signedAt" DATETIME,
    "signedBy" TEXT NOT NULL DEFAULT '',
    "signature" TEXT NOT NULL DEFAULT '',
    "replacesId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Arrival_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Arrival_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Arrival_bookingId_fkey" FOREIGN KEY ("bookingId") REFERENCES "Booking" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Arrival_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "Arrival" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ArrivalDamage" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "arrivalId" INTEGER NOT NULL,
    "firstId" INTEGER,
    "side" TEXT NOT NULL,
    "part" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "x" INTEGER,
    "y" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "ArrivalDamage_arrivalId_fkey" FOREIGN KEY ("arrivalId") REFERENCES "Arrival" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "Arrival_replacesId_key" ON "Arrival"("replacesId");

-- CreateIndex
CREATE INDEX "Arrival_bikeId_id_idx" ON "Arrival"("bikeId", "id");

-- CreateIndex
CREATE INDEX "Arrival_jobId_idx" ON "Arrival"("jobId");

-- CreateIndex
CREATE INDEX "Arrival_bookingId_idx" ON "Arrival"("bookingId");

-- CreateIndex
CREATE INDEX "ArrivalDamage_arrivalId_idx" ON "ArrivalDamage"("arrivalId");

-- CreateIndex
CREATE INDEX "ArrivalDamage_firstId_idx" ON "ArrivalDamage"("firstId");

-- Guards that the schema language cannot say: what was taken down of a bike stays, and is signed once.
CREATE TRIGGER "Arrival_never_changes" BEFORE UPDATE ON "Arrival"
WHEN NEW."at" IS NOT OLD."at" OR
  NEW."odometerKm" IS NOT OLD."odometerKm" OR
  NEW."fuelEighths" IS NOT OLD."fuelEighths" OR
  NEW."keys" IS NOT OLD."keys" OR
  NEW."accessories" IS NOT OLD."accessories" OR
  NEW."words" IS NOT OLD."words" OR
  NEW."replacesId" IS NOT OLD."replacesId" OR
  (OLD."signedAt" IS NOT NULL AND (
    NEW."signedAt" IS NOT OLD."signedAt" OR
    NEW."signedBy" IS NOT OLD."signedBy" OR
    NEW."signature" IS NOT OLD."signature"))
BEGIN SELECT RAISE(ABORT, 'An arrival never changes: write a new one that replaces it'); END;

CREATE TRIGGER "Arrival_is_kept" BEFORE DELETE ON "Arrival"
BEGIN SELECT RAISE(ABORT, 'An arrival never changes: write a new one that replaces it'); END;

CREATE TRIGGER "ArrivalDamage_only_grows_update" BEFORE UPDATE ON "ArrivalDamage"
BEGIN SELECT RAISE(ABORT, 'ArrivalDamage only grows: write a new row instead'); END;

CREATE TRIGGER "ArrivalDamage_only_grows_delete" BEFORE DELETE ON "ArrivalDamage"
BEGIN SELECT RAISE(ABORT, 'ArrivalDamage only grows: write a new row instead'); END;

CREATE TRIGGER "ArrivalDamage_not_after_signing" BEFORE INSERT ON "ArrivalDamage"
WHEN (SELECT "signedAt" FROM "Arrival" WHERE "id" = NEW."arrivalId") IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'This arrival is signed: write a new one that replaces it'); END;

DROP TRIGGER "Photo_noun_words";

CREATE TRIGGER "Photo_noun_words" BEFORE INSERT ON "Photo"
WHEN NEW."noun" NOT IN ('part', 'bike', 'step', 'finding', 'damage', 'pairBefore', 'pairAfter')
BEGIN SELECT RAISE(ABORT, 'Photo.noun is not one of its words'); END;
