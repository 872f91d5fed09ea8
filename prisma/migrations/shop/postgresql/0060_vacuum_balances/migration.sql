-- CreateTable
CREATE TABLE "VacuumBalance" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "stepId" INTEGER,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "rpm" INTEGER,
    "unit" TEXT NOT NULL,
    "band" DOUBLE PRECISION NOT NULL,
    "bandFrom" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "VacuumBalance_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "VacuumReading" (
    "id" SERIAL NOT NULL,
    "balanceId" INTEGER NOT NULL,
    "carburettor" INTEGER NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "VacuumReading_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "VacuumBalance_bikeId_id_idx" ON "VacuumBalance"("bikeId", "id");

-- CreateIndex
CREATE INDEX "VacuumBalance_jobId_idx" ON "VacuumBalance"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "VacuumReading_balanceId_carburettor_key" ON "VacuumReading"("balanceId", "carburettor");

-- AddForeignKey
ALTER TABLE "VacuumBalance" ADD CONSTRAINT "VacuumBalance_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "VacuumBalance" ADD CONSTRAINT "VacuumBalance_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "VacuumReading" ADD CONSTRAINT "VacuumReading_balanceId_fkey" FOREIGN KEY ("balanceId") REFERENCES "VacuumBalance"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What gauges said only grows; a balance goes with its bike where two are merged.
CREATE TRIGGER "VacuumReading_only_grows" BEFORE UPDATE OR DELETE ON "VacuumReading"
FOR EACH ROW EXECUTE FUNCTION "refuse"('VacuumReading only grows: read the gauges again instead');

CREATE TRIGGER "VacuumBalance_only_grows" BEFORE UPDATE ON "VacuumBalance"
FOR EACH ROW WHEN (
  NEW."id" IS DISTINCT FROM OLD."id" OR NEW."at" IS DISTINCT FROM OLD."at" OR NEW."rpm" IS DISTINCT FROM OLD."rpm" OR
  NEW."unit" IS DISTINCT FROM OLD."unit" OR NEW."band" IS DISTINCT FROM OLD."band" OR
  NEW."bandFrom" IS DISTINCT FROM OLD."bandFrom")
EXECUTE FUNCTION "refuse"('VacuumBalance only grows: read the gauges again instead');
