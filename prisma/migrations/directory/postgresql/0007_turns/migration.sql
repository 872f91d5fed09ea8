-- CreateTable
CREATE TABLE "Turn" (
    "shopId" TEXT NOT NULL,
    "work" TEXT NOT NULL,
    "holder" TEXT NOT NULL,
    "until" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "Turn_pkey" PRIMARY KEY ("shopId","work")
);

-- AddForeignKey
ALTER TABLE "Turn" ADD CONSTRAINT "Turn_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop"("id") ON DELETE CASCADE ON UPDATE CASCADE;
