-- AlterTable
ALTER TABLE "Customer" ADD COLUMN     "noLetters" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "CustomerLink" ADD COLUMN     "lastOpenedAt" TIMESTAMP(3),
ADD COLUMN     "openings" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "Mail" ADD COLUMN     "language" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "letter" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "noun" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "nounId" INTEGER;

-- CreateTable
CREATE TABLE "Letter" (
    "kind" TEXT NOT NULL,
    "on" BOOLEAN NOT NULL,
    "days" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Letter_pkey" PRIMARY KEY ("kind")
);

-- CreateTable
CREATE TABLE "LetterText" (
    "id" SERIAL NOT NULL,
    "kind" TEXT NOT NULL,
    "language" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "LetterText_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "LetterText_kind_language_key" ON "LetterText"("kind", "language");

-- CreateIndex
CREATE INDEX "Job_finishedAt_idx" ON "Job"("finishedAt");

-- CreateIndex
CREATE INDEX "Mail_noun_nounId_letter_idx" ON "Mail"("noun", "nounId", "letter");

-- A link that was opened before openings were counted was opened once.
UPDATE "CustomerLink" SET "lastOpenedAt" = "openedAt", "openings" = 1 WHERE "openedAt" IS NOT NULL;
