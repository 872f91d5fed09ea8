-- AlterTable
ALTER TABLE "Settings" ADD COLUMN     "remindAfterDays" INTEGER,
ADD COLUMN     "remindBeforeDays" INTEGER;

-- CreateTable
CREATE TABLE "BookingWish" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "fromDay" TEXT,
    "notDays" JSONB NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "BookingWish_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "BookingWish_revisionId_key" ON "BookingWish"("revisionId");

-- CreateIndex
CREATE INDEX "BookingWish_jobId_idx" ON "BookingWish"("jobId");
