-- CreateTable
CREATE TABLE "ShopExport" (
    "shopId" TEXT NOT NULL PRIMARY KEY,
    "askedBy" TEXT NOT NULL,
    "askedAt" DATETIME NOT NULL,
    "madeBy" TEXT,
    "heldUntil" DATETIME,
    "done" INTEGER NOT NULL DEFAULT 0,
    "of" INTEGER NOT NULL DEFAULT 0,
    "readyAt" DATETIME,
    "file" TEXT NOT NULL DEFAULT '',
    "bytes" REAL NOT NULL DEFAULT 0,
    "failure" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "ShopExport_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ShopErasure" (
    "shopId" TEXT NOT NULL PRIMARY KEY,
    "askedBy" TEXT NOT NULL,
    "askedAt" DATETIME NOT NULL,
    "dueAt" DATETIME NOT NULL,
    CONSTRAINT "ShopErasure_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "ShopExport_askedAt_idx" ON "ShopExport"("askedAt");

-- CreateIndex
CREATE INDEX "ShopErasure_dueAt_idx" ON "ShopErasure"("dueAt");
