-- CreateTable
CREATE TABLE "Calibration" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "modelCardId" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "source" TEXT NOT NULL,
    "regions" JSONB NOT NULL,
    "samples" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Calibration_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Calibration_modelCardId_id_idx" ON "Calibration"("modelCardId", "id");

-- CreateIndex
CREATE INDEX "Calibration_bikeId_idx" ON "Calibration"("bikeId");

-- AddForeignKey
ALTER TABLE "Calibration" ADD CONSTRAINT "Calibration_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Calibration" ADD CONSTRAINT "Calibration_modelCardId_fkey" FOREIGN KEY ("modelCardId") REFERENCES "ModelCard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
