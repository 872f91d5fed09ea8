-- CreateTable
CREATE TABLE "ShopExport" (
    "shopId" TEXT NOT NULL,
    "askedBy" TEXT NOT NULL,
    "askedAt" TIMESTAMP(3) NOT NULL,
    "madeBy" TEXT,
    "heldUntil" TIMESTAMP(3),
    "done" INTEGER NOT NULL DEFAULT 0,
    "of" INTEGER NOT NULL DEFAULT 0,
    "readyAt" TIMESTAMP(3),
    "file" TEXT NOT NULL DEFAULT '',
    "bytes" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "failure" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "ShopExport_pkey" PRIMARY KEY ("shopId")
);

-- CreateTable
CREATE TABLE "ShopErasure" (
    "shopId" TEXT NOT NULL,
    "askedBy" TEXT NOT NULL,
    "askedAt" TIMESTAMP(3) NOT NULL,
    "dueAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "ShopErasure_pkey" PRIMARY KEY ("shopId")
);

-- CreateIndex
CREATE INDEX "ShopExport_askedAt_idx" ON "ShopExport"("askedAt");

-- CreateIndex
CREATE INDEX "ShopErasure_dueAt_idx" ON "ShopErasure"("dueAt");

-- AddForeignKey
ALTER TABLE "ShopExport" ADD CONSTRAINT "ShopExport_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ShopErasure" ADD CONSTRAINT "ShopErasure_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop"("id") ON DELETE CASCADE ON UPDATE CASCADE;
