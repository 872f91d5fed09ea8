-- CreateIndex
CREATE INDEX "Move_at_idx" ON "Move"("at");
