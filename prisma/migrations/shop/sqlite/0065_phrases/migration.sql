-- AlterTable
ALTER TABLE "Settings" ADD COLUMN "ownTerms" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "Phrase" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "language" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "said" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateIndex
CREATE UNIQUE INDEX "Phrase_language_key_key" ON "Phrase"("language", "key");
