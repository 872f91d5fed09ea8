-- AlterTable
ALTER TABLE "Customer" ADD COLUMN "noLetters" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "CustomerLink" ADD COLUMN "lastOpenedAt" DATETIME;
ALTER TABLE "CustomerLink" ADD COLUMN "openings" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "Mail" ADD COLUMN "letter" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Mail" ADD COLUMN "language" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Mail" ADD COLUMN "noun" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Mail" ADD COLUMN "nounId" INTEGER;

-- CreateTable
CREATE TABLE "Letter" (
    "kind" TEXT NOT NULL PRIMARY KEY,
    "on" BOOLEAN NOT NULL,
    "days" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "LetterText" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL,
    "language" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateIndex
CREATE UNIQUE INDEX "LetterText_kind_language_key" ON "LetterText"("kind", "language");

-- CreateIndex
CREATE INDEX "Job_finishedAt_idx" ON "Job"("finishedAt");

-- CreateIndex
CREATE INDEX "Mail_noun_nounId_letter_idx" ON "Mail"("noun", "nounId", "letter");

-- A link that was opened before openings were counted was opened once.
UPDATE "CustomerLink" SET "lastOpenedAt" = "openedAt", "openings" = 1 WHERE "openedAt" IS NOT NULL;
