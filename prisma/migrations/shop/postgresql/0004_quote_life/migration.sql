-- AlterTable
ALTER TABLE "Quote" ADD COLUMN     "callOn" TEXT,
ADD COLUMN     "remindedAt" TIMESTAMP(3);

-- AlterTable
ALTER TABLE "QuoteRevision" ADD COLUMN     "facts" JSONB,
ADD COLUMN     "terms" JSONB;

-- CreateTable
CREATE TABLE "QuoteQuestion" (
    "id" SERIAL NOT NULL,
    "quoteId" INTEGER NOT NULL,
    "revision" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "askedAt" TIMESTAMP(3) NOT NULL,
    "answer" TEXT NOT NULL DEFAULT '',
    "answeredAt" TIMESTAMP(3),
    "answeredBy" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "QuoteQuestion_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "QuoteAlternative" (
    "id" SERIAL NOT NULL,
    "quoteId" INTEGER NOT NULL,
    "letter" TEXT NOT NULL,
    "name" TEXT NOT NULL DEFAULT '',
    "choices" JSONB NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "QuoteAlternative_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PriceBook" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "roundDownToMinor" INTEGER NOT NULL DEFAULT 0,
    "pricesFrom" TEXT,
    "pricesUntil" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "PriceBook_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "QuoteQuestion_quoteId_idx" ON "QuoteQuestion"("quoteId");

-- CreateIndex
CREATE INDEX "QuoteQuestion_answeredAt_idx" ON "QuoteQuestion"("answeredAt");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteAlternative_quoteId_letter_key" ON "QuoteAlternative"("quoteId", "letter");

-- CreateIndex
CREATE INDEX "Quote_sentAt_idx" ON "Quote"("sentAt");

-- AddForeignKey
ALTER TABLE "QuoteQuestion" ADD CONSTRAINT "QuoteQuestion_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteAlternative" ADD CONSTRAINT "QuoteAlternative_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
