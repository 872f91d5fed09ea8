-- AlterTable
ALTER TABLE "Mail" ADD COLUMN     "heldUntil" TIMESTAMP(3),
ADD COLUMN     "messageId" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "nextAt" TIMESTAMP(3),
ADD COLUMN     "tries" INTEGER NOT NULL DEFAULT 0;

-- CreateIndex
CREATE INDEX "Mail_state_id_idx" ON "Mail"("state", "id");
