-- CreateTable
CREATE TABLE "Calibration" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "modelCardId" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "source" TEXT NOT NULL,
    "regions" JSONB NOT NULL,
    "samples" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Calibration_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Calibration_modelCardId_fkey" FOREIGN KEY ("modelCardId") REFERENCES "ModelCard" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Calibration_modelCardId_id_idx" ON "Calibration"("modelCardId", "id");

-- CreateIndex
CREATE INDEX "Calibration_bikeId_idx" ON "Calibration"("bikeId");
