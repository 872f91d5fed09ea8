-- CreateIndex
CREATE INDEX "Finding_stepId_idx" ON "Finding"("stepId");

-- CreateIndex
CREATE INDEX "FollowUp_jobId_idx" ON "FollowUp"("jobId");

-- CreateIndex
CREATE INDEX "Invoice_creditsId_idx" ON "Invoice"("creditsId");

-- CreateIndex
CREATE INDEX "Quote_variationOfId_idx" ON "Quote"("variationOfId");

-- CreateIndex
CREATE INDEX "QuoteRevision_packageRevisionId_idx" ON "QuoteRevision"("packageRevisionId");

-- CreateIndex
CREATE INDEX "Reservation_stepId_idx" ON "Reservation"("stepId");

-- CreateIndex
CREATE INDEX "TimeEntry_stepId_idx" ON "TimeEntry"("stepId");

-- CreateIndex
CREATE INDEX "TimeEntry_staffId_endedAt_idx" ON "TimeEntry"("staffId", "endedAt");

-- What was learned only grows.
CREATE TRIGGER "Calibration_only_grows_update" BEFORE UPDATE ON "Calibration"
BEGIN SELECT RAISE(ABORT, 'Calibration only grows: write a new row instead'); END;

CREATE TRIGGER "Calibration_only_grows_delete" BEFORE DELETE ON "Calibration"
BEGIN SELECT RAISE(ABORT, 'Calibration only grows: write a new row instead'); END;
