-- AlterTable: columns are added, since a table made anew would lose its triggers.
ALTER TABLE "Calibration" ADD COLUMN "jobId" INTEGER;
ALTER TABLE "Calibration" ADD COLUMN "heldBecause" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "LessonVerdict" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "calibrationId" INTEGER NOT NULL,
    "act" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "LessonVerdict_calibrationId_fkey" FOREIGN KEY ("calibrationId") REFERENCES "Calibration" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "LessonVerdict_calibrationId_id_idx" ON "LessonVerdict"("calibrationId", "id");

-- What was decided about lessons only grows.
CREATE TRIGGER "LessonVerdict_only_grows_update" BEFORE UPDATE ON "LessonVerdict"
BEGIN SELECT RAISE(ABORT, 'LessonVerdict only grows: write a new row instead'); END;

CREATE TRIGGER "LessonVerdict_only_grows_delete" BEFORE DELETE ON "LessonVerdict"
BEGIN SELECT RAISE(ABORT, 'LessonVerdict only grows: write a new row instead'); END;
