-- AlterTable
ALTER TABLE "Shop" ADD COLUMN "changes" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "Shop" ADD COLUMN "lookedAt" DATETIME;

-- CreateTable
CREATE TABLE "DueWork" (
    "shopId" TEXT NOT NULL,
    "work" TEXT NOT NULL,
    "dueAt" DATETIME,
    "looks" INTEGER NOT NULL DEFAULT 0,
    "basis" INTEGER NOT NULL DEFAULT 1,

    PRIMARY KEY ("shopId", "work"),
    CONSTRAINT "DueWork_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Shop_lookedAt_idx" ON "Shop"("lookedAt");

-- CreateIndex
CREATE INDEX "DueWork_work_dueAt_idx" ON "DueWork"("work", "dueAt");
