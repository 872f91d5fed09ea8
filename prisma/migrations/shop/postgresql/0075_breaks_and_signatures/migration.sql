-- CreateTable
CREATE TABLE "TimeBreak" (
    "id" SERIAL NOT NULL,
    "staffId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "startedAt" TIMESTAMP(3) NOT NULL,
    "endedAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "TimeBreak_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "TimeCorrection" (
    "id" SERIAL NOT NULL,
    "entryId" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "reason" TEXT NOT NULL,
    "fromStarted" TIMESTAMP(3) NOT NULL,
    "fromEnded" TIMESTAMP(3),
    "toStarted" TIMESTAMP(3) NOT NULL,
    "toEnded" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "TimeCorrection_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "HandoverSignature" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "signedBy" TEXT NOT NULL,
    "signature" TEXT NOT NULL DEFAULT '',
    "signedAt" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "HandoverSignature_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "TimeBreak_jobId_idx" ON "TimeBreak"("jobId");

-- CreateIndex
CREATE INDEX "TimeBreak_staffId_startedAt_idx" ON "TimeBreak"("staffId", "startedAt");

-- CreateIndex
CREATE INDEX "TimeCorrection_entryId_idx" ON "TimeCorrection"("entryId");

-- CreateIndex
CREATE INDEX "HandoverSignature_jobId_id_idx" ON "HandoverSignature"("jobId", "id");

-- AddForeignKey
ALTER TABLE "TimeBreak" ADD CONSTRAINT "TimeBreak_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeBreak" ADD CONSTRAINT "TimeBreak_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeCorrection" ADD CONSTRAINT "TimeCorrection_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "TimeEntry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "HandoverSignature" ADD CONSTRAINT "HandoverSignature_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TRIGGER "TimeCorrection_only_grows" BEFORE UPDATE OR DELETE ON "TimeCorrection"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "TimeCorrection_only_grows_whole" BEFORE TRUNCATE ON "TimeCorrection"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "HandoverSignature_only_grows" BEFORE UPDATE OR DELETE ON "HandoverSignature"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "HandoverSignature_only_grows_whole" BEFORE TRUNCATE ON "HandoverSignature"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
