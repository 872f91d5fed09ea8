-- CreateTable
CREATE TABLE "Intake" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "complaint" TEXT NOT NULL DEFAULT '',
    "changedBefore" TEXT NOT NULL DEFAULT '',
    "fuelUse" DOUBLE PRECISION,
    "note" TEXT NOT NULL DEFAULT '',
    "calibrationId" INTEGER,
    "withdrawnAt" TIMESTAMP(3),
    "withdrawnWhy" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Intake_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "IntakeObservation" (
    "id" SERIAL NOT NULL,
    "intakeId" INTEGER NOT NULL,
    "throttle" TEXT NOT NULL,
    "condition" TEXT NOT NULL,
    "engine" TEXT NOT NULL,
    "sign" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "IntakeObservation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "IntakeCylinder" (
    "id" SERIAL NOT NULL,
    "intakeId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "compressionKpa" DOUBLE PRECISION,
    "leakDownPercent" DOUBLE PRECISION,
    "intakeClearanceMm" DOUBLE PRECISION,
    "exhaustClearanceMm" DOUBLE PRECISION,
    "plug" TEXT,

    CONSTRAINT "IntakeCylinder_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Intake_bikeId_id_idx" ON "Intake"("bikeId", "id");

-- CreateIndex
CREATE INDEX "Intake_jobId_idx" ON "Intake"("jobId");

-- CreateIndex
CREATE INDEX "IntakeObservation_intakeId_idx" ON "IntakeObservation"("intakeId");

-- CreateIndex
CREATE UNIQUE INDEX "IntakeCylinder_intakeId_position_key" ON "IntakeCylinder"("intakeId", "position");

-- AddForeignKey
ALTER TABLE "Intake" ADD CONSTRAINT "Intake_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Intake" ADD CONSTRAINT "Intake_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "IntakeObservation" ADD CONSTRAINT "IntakeObservation_intakeId_fkey" FOREIGN KEY ("intakeId") REFERENCES "Intake"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "IntakeCylinder" ADD CONSTRAINT "IntakeCylinder_intakeId_fkey" FOREIGN KEY ("intakeId") REFERENCES "Intake"("id") ON DELETE CASCADE ON UPDATE CASCADE;
