-- AlterTable
ALTER TABLE "Session" ADD COLUMN     "address" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "Shop" ADD COLUMN     "ownersNeedFactor" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "SecondFactor" (
    "personId" TEXT NOT NULL,
    "secret" TEXT,
    "since" TIMESTAMP(3),
    "offered" TEXT,
    "offeredAt" TIMESTAMP(3),
    "lastStep" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "SecondFactor_pkey" PRIMARY KEY ("personId")
);

-- CreateTable
CREATE TABLE "RecoveryCode" (
    "id" SERIAL NOT NULL,
    "personId" TEXT NOT NULL,
    "codeHash" TEXT NOT NULL,
    "madeAt" TIMESTAMP(3) NOT NULL,
    "usedAt" TIMESTAMP(3),

    CONSTRAINT "RecoveryCode_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Letter" (
    "id" SERIAL NOT NULL,
    "kind" TEXT NOT NULL,
    "to" TEXT NOT NULL,
    "detail" JSONB NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "nextAt" TIMESTAMP(3) NOT NULL,
    "tries" INTEGER NOT NULL DEFAULT 0,
    "expiresAt" TIMESTAMP(3) NOT NULL,
    "failure" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Letter_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SignUp" (
    "id" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "shopName" TEXT NOT NULL,
    "country" TEXT NOT NULL,
    "altitudeM" INTEGER,
    "tokenHash" TEXT,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "expiresAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "SignUp_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ShopInMaking" (
    "database" TEXT NOT NULL,
    "startedAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "ShopInMaking_pkey" PRIMARY KEY ("database")
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

-- AddForeignKey
ALTER TABLE "SecondFactor" ADD CONSTRAINT "SecondFactor_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RecoveryCode" ADD CONSTRAINT "RecoveryCode_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person"("id") ON DELETE CASCADE ON UPDATE CASCADE;
