-- One word for one thing: what is written to a person is a mail.
ALTER TABLE "Letter" RENAME TO "Mail";
DROP INDEX "Letter_nextAt_id_idx";
DROP INDEX "Letter_expiresAt_idx";
CREATE INDEX "Mail_nextAt_id_idx" ON "Mail"("nextAt", "id");
CREATE INDEX "Mail_expiresAt_idx" ON "Mail"("expiresAt");
