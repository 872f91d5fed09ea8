-- AlterTable
ALTER TABLE "Booking" ADD COLUMN     "arrivedAt" TIMESTAMP(3);

-- CreateTable
CREATE TABLE "Arrival" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "bookingId" INTEGER,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "fuelEighths" INTEGER,
    "keys" INTEGER,
    "accessories" TEXT NOT NULL DEFAULT '',
    "words" TEXT NOT NULL DEFAULT '',
    "signedAt" TIMESTAMP(3),
    "signedBy" TEXT NOT NULL DEFAULT '',
    "signature" TEXT NOT NULL DEFAULT '',
    "replacesId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Arrival_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ArrivalDamage" (
    "id" SERIAL NOT NULL,
    "arrivalId" INTEGER NOT NULL,
    "firstId" INTEGER,
    "side" TEXT NOT NULL,
    "part" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "x" INTEGER,
    "y" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "ArrivalDamage_pkey" PRIMARY KEY ("id")
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

-- AddForeignKey
ALTER TABLE "Arrival" ADD CONSTRAINT "Arrival_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Arrival" ADD CONSTRAINT "Arrival_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Arrival" ADD CONSTRAINT "Arrival_bookingId_fkey" FOREIGN KEY ("bookingId") REFERENCES "Booking"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Arrival" ADD CONSTRAINT "Arrival_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "Arrival"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ArrivalDamage" ADD CONSTRAINT "ArrivalDamage_arrivalId_fkey" FOREIGN KEY ("arrivalId") REFERENCES "Arrival"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Guards that the schema language cannot say: what was taken down of a bike stays, and is signed once.
CREATE TRIGGER "Arrival_never_changes" BEFORE UPDATE ON "Arrival"
FOR EACH ROW WHEN (
  NEW."at" IS DISTINCT FROM OLD."at" OR
  NEW."odometerKm" IS DISTINCT FROM OLD."odometerKm" OR
  NEW."fuelEighths" IS DISTINCT FROM OLD."fuelEighths" OR
  NEW."keys" IS DISTINCT FROM OLD."keys" OR
  NEW."accessories" IS DISTINCT FROM OLD."accessories" OR
  NEW."words" IS DISTINCT FROM OLD."words" OR
  NEW."replacesId" IS DISTINCT FROM OLD."replacesId" OR
  (OLD."signedAt" IS NOT NULL AND (
    NEW."signedAt" IS DISTINCT FROM OLD."signedAt" OR
    NEW."signedBy" IS DISTINCT FROM OLD."signedBy" OR
    NEW."signature" IS DISTINCT FROM OLD."signature")))
EXECUTE FUNCTION "refuse"('An arrival never changes: write a new one that replaces it');

CREATE TRIGGER "Arrival_is_kept" BEFORE DELETE ON "Arrival"
FOR EACH ROW EXECUTE FUNCTION "refuse"('An arrival never changes: write a new one that replaces it');

CREATE TRIGGER "ArrivalDamage_only_grows" BEFORE UPDATE OR DELETE ON "ArrivalDamage"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "ArrivalDamage_only_grows_whole" BEFORE TRUNCATE ON "ArrivalDamage"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

-- At run time no schema is searched: the function names the one of the table that it guards.
CREATE FUNCTION "arrival_is_open"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE signed BOOLEAN;
BEGIN
  EXECUTE format('SELECT "signedAt" IS NOT NULL FROM %I."Arrival" WHERE "id" = $1', TG_TABLE_SCHEMA)
  INTO signed USING NEW."arrivalId";
  IF signed THEN
    RAISE EXCEPTION 'This arrival is signed: write a new one that replaces it';
  END IF;
  RETURN NEW;
END
$$;

CREATE TRIGGER "ArrivalDamage_not_after_signing" BEFORE INSERT ON "ArrivalDamage"
FOR EACH ROW EXECUTE FUNCTION "arrival_is_open"();

DROP TRIGGER "Photo_noun_words" ON "Photo";

CREATE TRIGGER "Photo_noun_words" BEFORE INSERT ON "Photo"
FOR EACH ROW WHEN (NEW."noun" NOT IN ('part', 'bike', 'step', 'finding', 'damage', 'pairBefore', 'pairAfter'))
EXECUTE FUNCTION "refuse"('Photo.noun is not one of its words');
