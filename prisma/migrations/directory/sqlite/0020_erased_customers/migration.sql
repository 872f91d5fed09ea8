-- CreateTable
CREATE TABLE "ErasedCustomer" (
    "shopId" TEXT NOT NULL,
    "customerId" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,

    PRIMARY KEY ("shopId", "customerId"),
    CONSTRAINT "ErasedCustomer_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
