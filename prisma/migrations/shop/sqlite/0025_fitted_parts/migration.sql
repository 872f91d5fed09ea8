-- CreateTable
CREATE TABLE "FittedPart" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "carburettor" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "facts" JSONB NOT NULL,
    "how" TEXT NOT NULL,
    "partId" INTEGER,
    "jobId" INTEGER,
    "sheetId" INTEGER,
    "takenAt" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "FittedPart_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "FittedPart_bikeId_kind_id_idx" ON "FittedPart"("bikeId", "kind", "id");

-- CreateIndex
CREATE INDEX "FittedPart_jobId_idx" ON "FittedPart"("jobId");

-- CreateIndex
CREATE INDEX "FittedPart_sheetId_idx" ON "FittedPart"("sheetId");

-- A description of a part is never changed: a new one is written, and the earlier stays readable.
CREATE TRIGGER "FittedPart_only_grows_update" BEFORE UPDATE ON "FittedPart"
BEGIN SELECT RAISE(ABORT, 'FittedPart only grows: write a new row instead'); END;

CREATE TRIGGER "FittedPart_only_grows_delete" BEFORE DELETE ON "FittedPart"
BEGIN SELECT RAISE(ABORT, 'FittedPart only grows: write a new row instead'); END;
