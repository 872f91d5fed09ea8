-- CreateTable
CREATE TABLE "TaxTerms" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "inCompanyRegister" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "TaxTerms_pkey" PRIMARY KEY ("id")
);
