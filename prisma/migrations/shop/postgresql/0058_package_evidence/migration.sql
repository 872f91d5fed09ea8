-- CreateTable
CREATE TABLE "PackageEvidence" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "item" TEXT NOT NULL,
    "evidence" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "PackageEvidence_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "PackageEvidence_revisionId_idx" ON "PackageEvidence"("revisionId");

-- CreateIndex
CREATE INDEX "PackageEvidence_jobId_idx" ON "PackageEvidence"("jobId");

-- AddForeignKey
ALTER TABLE "PackageEvidence" ADD CONSTRAINT "PackageEvidence_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PackageRevision"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PackageEvidence" ADD CONSTRAINT "PackageEvidence_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
