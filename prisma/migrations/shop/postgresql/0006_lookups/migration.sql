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
CREATE TRIGGER "Calibration_only_grows" BEFORE UPDATE OR DELETE ON "Calibration"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Calibration_only_grows_whole" BEFORE TRUNCATE ON "Calibration"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
