-- AlterTable
ALTER TABLE "Mail" ADD COLUMN "tries" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "Mail" ADD COLUMN "nextAt" DATETIME;
ALTER TABLE "Mail" ADD COLUMN "heldUntil" DATETIME;
ALTER TABLE "Mail" ADD COLUMN "messageId" TEXT NOT NULL DEFAULT '';

-- CreateIndex
CREATE INDEX "Mail_state_id_idx" ON "Mail"("state", "id");
