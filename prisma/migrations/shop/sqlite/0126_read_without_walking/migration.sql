-- CreateIndex
CREATE INDEX "Bike_plate_idx" ON "Bike"("plate");

-- CreateIndex
CREATE INDEX "Finding_state_idx" ON "Finding"("state");

-- CreateIndex
CREATE INDEX "Part_kind_family_sizeMilli_idx" ON "Part"("kind", "family", "sizeMilli");

-- CreateIndex
CREATE INDEX "Part_pointMilli_idx" ON "Part"("pointMilli");

-- CreateIndex
CREATE INDEX "Quote_validUntil_idx" ON "Quote"("validUntil");

-- CreateIndex
CREATE INDEX "Quote_grossMinor_idx" ON "Quote"("grossMinor");

-- CreateIndex
CREATE INDEX "Reservation_state_idx" ON "Reservation"("state");

-- CreateIndex
CREATE INDEX "TimeBreak_endedAt_idx" ON "TimeBreak"("endedAt");

-- CreateIndex
CREATE INDEX "TimeEntry_endedAt_idx" ON "TimeEntry"("endedAt");
