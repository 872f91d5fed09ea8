-- AlterTable
ALTER TABLE "Shop" ADD COLUMN     "sample" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "SampleShop" (
    "personId" TEXT NOT NULL,
    "askedAt" TIMESTAMP(3) NOT NULL,
    "madeBy" TEXT,
    "shopId" TEXT,
    "failure" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "SampleShop_pkey" PRIMARY KEY ("personId")
);

-- CreateIndex
CREATE UNIQUE INDEX "SampleShop_shopId_key" ON "SampleShop"("shopId");

-- CreateIndex
CREATE INDEX "SampleShop_shopId_askedAt_idx" ON "SampleShop"("shopId", "askedAt");
