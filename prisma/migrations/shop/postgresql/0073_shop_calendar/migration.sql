-- AlterTable
ALTER TABLE "Settings" ADD COLUMN     "deliveryBy" TEXT NOT NULL DEFAULT '12:00';

-- AlterTable
ALTER TABLE "Staff" ADD COLUMN     "grades" JSONB NOT NULL DEFAULT '[]';

-- CreateTable
CREATE TABLE "ShopCalendar" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "tokenHash" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "ShopCalendar_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "ShopCalendar_tokenHash_key" ON "ShopCalendar"("tokenHash");
