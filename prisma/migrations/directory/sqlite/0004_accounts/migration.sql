-- Columns are added in place: making the tables anew would drop rows that others refer to.
ALTER TABLE "Session" ADD COLUMN "address" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Shop" ADD COLUMN "ownersNeedFactor" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "SecondFactor" (
    "personId" TEXT NOT NULL PRIMARY KEY,
    "secret" TEXT,
    "since" DATETIME,
    "offered" TEXT,
    "offeredAt" DATETIME,
    "lastStep" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "SecondFactor_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "RecoveryCode" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "personId" TEXT NOT NULL,
    "codeHash" TEXT NOT NULL,
    "madeAt" DATETIME NOT NULL,
    "usedAt" DATETIME,
    CONSTRAINT "RecoveryCode_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Letter" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL,
    "to" TEXT NOT NULL,
    "detail" JSONB NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "nextAt" DATETIME NOT NULL,
    "tries" INTEGER NOT NULL DEFAULT 0,
    "expiresAt" DATETIME NOT NULL,
    "failure" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "SignUp" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "shopName" TEXT NOT NULL,
    "country" TEXT NOT NULL,
    "altitudeM" INTEGER,
    "tokenHash" TEXT,
    "createdAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "ShopInMaking" (
    "database" TEXT NOT NULL PRIMARY KEY,
    "startedAt" DATETIME NOT NULL
);

-- CreateIndex
CREATE UNIQUE INDEX "RecoveryCode_personId_codeHash_key" ON "RecoveryCode"("personId", "codeHash");

-- CreateIndex
CREATE INDEX "Letter_nextAt_id_idx" ON "Letter"("nextAt", "id");

-- CreateIndex
CREATE INDEX "Letter_expiresAt_idx" ON "Letter"("expiresAt");

-- CreateIndex
CREATE UNIQUE INDEX "SignUp_tokenHash_key" ON "SignUp"("tokenHash");

-- CreateIndex
CREATE INDEX "SignUp_expiresAt_idx" ON "SignUp"("expiresAt");

-- CreateIndex
CREATE INDEX "SecurityEvent_personId_id_idx" ON "SecurityEvent"("personId", "id");
