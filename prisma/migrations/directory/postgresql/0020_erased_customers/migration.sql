-- CreateTable
CREATE TABLE "ErasedCustomer" (
    "shopId" TEXT NOT NULL,
    "customerId" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "ErasedCustomer_pkey" PRIMARY KEY ("shopId","customerId")
);

-- AddForeignKey
ALTER TABLE "ErasedCustomer" ADD CONSTRAINT "ErasedCustomer_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop"("id") ON DELETE CASCADE ON UPDATE CASCADE;
