-- CreateTable
CREATE TABLE "LedgerBook" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT DEFAULT 1,
    "startsOn" TEXT,
    "yearMonth" INTEGER NOT NULL,
    "stockToo" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "LedgerAccount" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "groupCategory" TEXT NOT NULL DEFAULT '',
    "groupCode" TEXT NOT NULL DEFAULT '',
    "openingMinor" INTEGER NOT NULL DEFAULT 0
);

-- CreateTable
CREATE TABLE "LedgerUse" (
    "use" TEXT NOT NULL PRIMARY KEY,
    "accountId" INTEGER NOT NULL,
    CONSTRAINT "LedgerUse_accountId_fkey" FOREIGN KEY ("accountId") REFERENCES "LedgerAccount" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "LedgerAccount_code_key" ON "LedgerAccount"("code");

-- CreateIndex
CREATE INDEX "LedgerUse_accountId_idx" ON "LedgerUse"("accountId");
