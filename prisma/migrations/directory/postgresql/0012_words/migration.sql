-- One word for one thing: what is written to a person is a mail.
ALTER TABLE "Letter" RENAME TO "Mail";
ALTER TABLE "Mail" RENAME CONSTRAINT "Letter_pkey" TO "Mail_pkey";
ALTER INDEX "Letter_nextAt_id_idx" RENAME TO "Mail_nextAt_id_idx";
ALTER INDEX "Letter_expiresAt_idx" RENAME TO "Mail_expiresAt_idx";
