-- CreateTable
CREATE TABLE "Kit" (
    "id" SERIAL NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "fits" TEXT NOT NULL DEFAULT '',
    "priceMinor" INTEGER,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "searchKey" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Kit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "KitLine" (
    "id" SERIAL NOT NULL,
    "kitId" INTEGER NOT NULL,
    "partId" INTEGER NOT NULL,
    "quantityMilli" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "KitLine_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Kit_code_key" ON "Kit"("code");

-- CreateIndex
CREATE INDEX "Kit_active_code_idx" ON "Kit"("active", "code");

-- CreateIndex
CREATE INDEX "KitLine_partId_idx" ON "KitLine"("partId");

-- CreateIndex
CREATE UNIQUE INDEX "KitLine_kitId_partId_key" ON "KitLine"("kitId", "partId");

-- AddForeignKey
ALTER TABLE "KitLine" ADD CONSTRAINT "KitLine_kitId_fkey" FOREIGN KEY ("kitId") REFERENCES "Kit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KitLine" ADD CONSTRAINT "KitLine_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
