-- AlterTable
ALTER TABLE "Settings" ADD COLUMN "remindAfterDays" INTEGER;
ALTER TABLE "Settings" ADD COLUMN "remindBeforeDays" INTEGER;

-- CreateTable
CREATE TABLE "BookingWish" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "fromDay" TEXT,
    "notDays" JSONB NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "createdAt" DATETIME NOT NULL
);

-- CreateIndex
CREATE UNIQUE INDEX "BookingWish_revisionId_key" ON "BookingWish"("revisionId");

-- CreateIndex
CREATE INDEX "BookingWish_jobId_idx" ON "BookingWish"("jobId");
