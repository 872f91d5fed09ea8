-- CreateIndex
CREATE INDEX "Once_at_idx" ON "Once"("at");
