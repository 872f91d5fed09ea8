-- CreateTable
CREATE TABLE "VacuumBalance" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "stepId" INTEGER,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "rpm" INTEGER,
    "unit" TEXT NOT NULL,
    "band" REAL NOT NULL,
    "bandFrom" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "VacuumBalance_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "VacuumBalance_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "VacuumReading" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "balanceId" INTEGER NOT NULL,
    "carburettor" INTEGER NOT NULL,
    "value" REAL NOT NULL,
    CONSTRAINT "VacuumReading_balanceId_fkey" FOREIGN KEY ("balanceId") REFERENCES "VacuumBalance" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "VacuumBalance_bikeId_id_idx" ON "VacuumBalance"("bikeId", "id");

-- CreateIndex
CREATE INDEX "VacuumBalance_jobId_idx" ON "VacuumBalance"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "VacuumReading_balanceId_carburettor_key" ON "VacuumReading"("balanceId", "carburettor");

-- What gauges said only grows; a balance goes with its bike where two are merged.
CREATE TRIGGER "VacuumReading_only_grows_update" BEFORE UPDATE ON "VacuumReading"
BEGIN SELECT RAISE(ABORT, 'VacuumReading only grows: read the gauges again instead'); END;

CREATE TRIGGER "VacuumReading_only_grows_delete" BEFORE DELETE ON "VacuumReading"
BEGIN SELECT RAISE(ABORT, 'VacuumReading only grows: read the gauges again instead'); END;

CREATE TRIGGER "VacuumBalance_only_grows_update" BEFORE UPDATE ON "VacuumBalance"
WHEN NEW."id" IS NOT OLD."id" OR NEW."at" IS NOT OLD."at" OR NEW."rpm" IS NOT OLD."rpm" OR NEW."unit" IS NOT OLD."unit" OR
  NEW."band" IS NOT OLD."band" OR NEW."bandFrom" IS NOT OLD."bandFrom"
BEGIN SELECT RAISE(ABORT, 'VacuumBalance only grows: read the gauges again instead'); END;
