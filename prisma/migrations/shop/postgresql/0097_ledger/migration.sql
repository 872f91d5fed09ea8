-- CreateTable
CREATE TABLE "LedgerBook" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "startsOn" TEXT,
    "yearMonth" INTEGER NOT NULL,
    "stockToo" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "LedgerBook_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LedgerAccount" (
    "id" SERIAL NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "groupCategory" TEXT NOT NULL DEFAULT '',
    "groupCode" TEXT NOT NULL DEFAULT '',
    "openingMinor" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "LedgerAccount_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LedgerUse" (
    "use" TEXT NOT NULL,
    "accountId" INTEGER NOT NULL,

    CONSTRAINT "LedgerUse_pkey" PRIMARY KEY ("use")
);

-- CreateIndex
CREATE UNIQUE INDEX "LedgerAccount_code_key" ON "LedgerAccount"("code");

-- CreateIndex
CREATE INDEX "LedgerUse_accountId_idx" ON "LedgerUse"("accountId");

-- AddForeignKey
ALTER TABLE "LedgerUse" ADD CONSTRAINT "LedgerUse_accountId_fkey" FOREIGN KEY ("accountId") REFERENCES "LedgerAccount"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
