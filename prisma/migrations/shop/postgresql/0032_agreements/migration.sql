-- CreateEnum
CREATE TYPE "AgreementKind" AS ENUM ('word', 'comeback', 'ownBike');

-- CreateEnum
CREATE TYPE "YesHow" AS ENUM ('phone', 'counter', 'message');

-- CreateTable
CREATE TABLE "JobAgreement" (
    "jobId" INTEGER NOT NULL,
    "kind" "AgreementKind" NOT NULL,
    "comebackOfId" INTEGER,
    "chargedBp" INTEGER NOT NULL DEFAULT 10000,
    "why" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "JobAgreement_pkey" PRIMARY KEY ("jobId")
);

-- CreateTable
CREATE TABLE "JobYes" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "saidBy" TEXT NOT NULL,
    "how" "YesHow" NOT NULL,
    "upToMinor" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "JobYes_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "JobAgreement_comebackOfId_idx" ON "JobAgreement"("comebackOfId");

-- CreateIndex
CREATE INDEX "JobYes_jobId_idx" ON "JobYes"("jobId");

-- AddForeignKey
ALTER TABLE "JobAgreement" ADD CONSTRAINT "JobAgreement_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobAgreement" ADD CONSTRAINT "JobAgreement_comebackOfId_fkey" FOREIGN KEY ("comebackOfId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobYes" ADD CONSTRAINT "JobYes_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TRIGGER "JobYes_only_grows" BEFORE UPDATE OR DELETE ON "JobYes"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "JobYes_only_grows_whole" BEFORE TRUNCATE ON "JobYes"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
