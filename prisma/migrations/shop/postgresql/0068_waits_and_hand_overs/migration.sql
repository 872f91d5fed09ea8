-- CreateEnum
CREATE TYPE "WaitReason" AS ENUM ('parts', 'customer', 'ride', 'outside');

-- CreateTable
CREATE TABLE "StepNote" (
    "id" SERIAL NOT NULL,
    "stepId" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "StepNote_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "JobWait" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "reason" "WaitReason" NOT NULL,
    "untilOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "endedAt" TIMESTAMP(3),

    CONSTRAINT "JobWait_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "JobHandOver" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "fromId" INTEGER,
    "toId" INTEGER NOT NULL,
    "note" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "takenAt" TIMESTAMP(3),

    CONSTRAINT "JobHandOver_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "StepNote_stepId_idx" ON "StepNote"("stepId");

-- CreateIndex
CREATE INDEX "JobWait_jobId_idx" ON "JobWait"("jobId");

-- CreateIndex
CREATE INDEX "JobWait_endedAt_idx" ON "JobWait"("endedAt");

-- CreateIndex
CREATE INDEX "JobHandOver_jobId_idx" ON "JobHandOver"("jobId");

-- CreateIndex
CREATE INDEX "JobHandOver_toId_takenAt_idx" ON "JobHandOver"("toId", "takenAt");

-- AddForeignKey
ALTER TABLE "StepNote" ADD CONSTRAINT "StepNote_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobWait" ADD CONSTRAINT "JobWait_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobHandOver" ADD CONSTRAINT "JobHandOver_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobHandOver" ADD CONSTRAINT "JobHandOver_toId_fkey" FOREIGN KEY ("toId") REFERENCES "Staff"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TRIGGER "StepNote_only_grows" BEFORE UPDATE OR DELETE ON "StepNote"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "StepNote_only_grows_whole" BEFORE TRUNCATE ON "StepNote"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
