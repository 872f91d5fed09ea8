-- AlterTable
ALTER TABLE "Settings" ADD COLUMN     "ownTerms" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "Phrase" (
    "id" SERIAL NOT NULL,
    "language" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "said" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Phrase_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Phrase_language_key_key" ON "Phrase"("language", "key");
