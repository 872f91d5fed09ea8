-- AlterTable
ALTER TABLE "Shop" ADD COLUMN     "changes" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "lookedAt" TIMESTAMP(3);

-- CreateTable
CREATE TABLE "DueWork" (
    "shopId" TEXT NOT NULL,
    "work" TEXT NOT NULL,
    "dueAt" TIMESTAMP(3),
    "looks" INTEGER NOT NULL DEFAULT 0,
    "basis" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "DueWork_pkey" PRIMARY KEY ("shopId","work")
);

-- CreateIndex
CREATE INDEX "DueWork_work_dueAt_idx" ON "DueWork"("work", "dueAt");

-- CreateIndex
CREATE INDEX "Shop_lookedAt_idx" ON "Shop"("lookedAt");

-- AddForeignKey
ALTER TABLE "DueWork" ADD CONSTRAINT "DueWork_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop"("id") ON DELETE CASCADE ON UPDATE CASCADE;
