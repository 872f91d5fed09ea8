-- AlterTable
ALTER TABLE "Quote" ADD COLUMN "callOn" TEXT;
ALTER TABLE "Quote" ADD COLUMN "findingId" INTEGER;
ALTER TABLE "Quote" ADD COLUMN "remindedAt" DATETIME;

-- AlterTable
ALTER TABLE "QuoteRevision" ADD COLUMN "facts" JSONB;
ALTER TABLE "QuoteRevision" ADD COLUMN "terms" JSONB;

-- CreateTable
CREATE TABLE "QuoteQuestion" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "quoteId" INTEGER NOT NULL,
    "revision" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "askedAt" DATETIME NOT NULL,
    "answer" TEXT NOT NULL DEFAULT '',
    "answeredAt" DATETIME,
    "answeredBy" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "QuoteQuestion_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "QuoteAlternative" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "quoteId" INTEGER NOT NULL,
    "letter" TEXT NOT NULL,
    "name" TEXT NOT NULL DEFAULT '',
    "choices" JSONB NOT NULL,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "QuoteAlternative_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PriceBook" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT DEFAULT 1,
    "roundDownToMinor" INTEGER NOT NULL DEFAULT 0,
    "pricesFrom" TEXT,
    "pricesUntil" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateIndex
CREATE INDEX "QuoteQuestion_quoteId_idx" ON "QuoteQuestion"("quoteId");

-- CreateIndex
CREATE INDEX "QuoteQuestion_answeredAt_idx" ON "QuoteQuestion"("answeredAt");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteAlternative_quoteId_letter_key" ON "QuoteAlternative"("quoteId", "letter");

-- CreateIndex
CREATE INDEX "Quote_sentAt_idx" ON "Quote"("sentAt");
