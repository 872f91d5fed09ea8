-- CreateTable
CREATE TABLE "BankAccount" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "form" TEXT NOT NULL,
    "holder" TEXT NOT NULL,
    "branch" TEXT NOT NULL DEFAULT '',
    "number" TEXT NOT NULL DEFAULT '',
    "iban" TEXT NOT NULL DEFAULT '',
    "bic" TEXT NOT NULL DEFAULT '',
    "kid" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "BankAccount_pkey" PRIMARY KEY ("id")
);
