-- AlterTable
ALTER TABLE "Calibration" ADD COLUMN     "heldBecause" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "jobId" INTEGER;

-- CreateTable
CREATE TABLE "LessonVerdict" (
    "id" SERIAL NOT NULL,
    "calibrationId" INTEGER NOT NULL,
    "act" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "LessonVerdict_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "LessonVerdict_calibrationId_id_idx" ON "LessonVerdict"("calibrationId", "id");

-- AddForeignKey
ALTER TABLE "LessonVerdict" ADD CONSTRAINT "LessonVerdict_calibrationId_fkey" FOREIGN KEY ("calibrationId") REFERENCES "Calibration"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What was decided about lessons only grows.
CREATE TRIGGER "LessonVerdict_only_grows" BEFORE UPDATE OR DELETE ON "LessonVerdict"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "LessonVerdict_only_grows_whole" BEFORE TRUNCATE ON "LessonVerdict"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
