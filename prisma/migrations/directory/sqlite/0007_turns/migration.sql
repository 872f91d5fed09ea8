-- CreateTable
CREATE TABLE "Turn" (
    "shopId" TEXT NOT NULL,
    "work" TEXT NOT NULL,
    "holder" TEXT NOT NULL,
    "until" DATETIME NOT NULL,

    PRIMARY KEY ("shopId", "work"),
    CONSTRAINT "Turn_shopId_fkey" FOREIGN KEY ("shopId") REFERENCES "Shop" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
