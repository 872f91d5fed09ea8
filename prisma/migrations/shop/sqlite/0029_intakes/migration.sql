-- CreateTable
CREATE TABLE "Intake" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "complaint" TEXT NOT NULL DEFAULT '',
    "changedBefore" TEXT NOT NULL DEFAULT '',
    "fuelUse" REAL,
    "note" TEXT NOT NULL DEFAULT '',
    "calibrationId" INTEGER,
    "withdrawnAt" DATETIME,
    "withdrawnWhy" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Intake_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Intake_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "IntakeObservation" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "intakeId" INTEGER NOT NULL,
    "throttle" TEXT NOT NULL,
    "condition" TEXT NOT NULL,
    "engine" TEXT NOT NULL,
    "sign" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "IntakeObservation_intakeId_fkey" FOREIGN KEY ("intakeId") REFERENCES "Intake" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "IntakeCylinder" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "intakeId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "compressionKpa" REAL,
    "leakDownPercent" REAL,
    "intakeClearanceMm" REAL,
    "exhaustClearanceMm" REAL,
    "plug" TEXT,
    CONSTRAINT "IntakeCylinder_intakeId_fkey" FOREIGN KEY ("intakeId") REFERENCES "Intake" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Intake_bikeId_id_idx" ON "Intake"("bikeId", "id");

-- CreateIndex
CREATE INDEX "Intake_jobId_idx" ON "Intake"("jobId");

-- CreateIndex
CREATE INDEX "IntakeObservation_intakeId_idx" ON "IntakeObservation"("intakeId");

-- CreateIndex
CREATE UNIQUE INDEX "IntakeCylinder_intakeId_position_key" ON "IntakeCylinder"("intakeId", "position");
