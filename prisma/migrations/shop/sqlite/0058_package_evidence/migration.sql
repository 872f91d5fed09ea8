-- CreateTable
CREATE TABLE "PackageEvidence" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "revisionId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "item" TEXT NOT NULL,
    "evidence" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "PackageEvidence_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "PackageRevision" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "PackageEvidence_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "PackageEvidence_revisionId_idx" ON "PackageEvidence"("revisionId");

-- CreateIndex
CREATE INDEX "PackageEvidence_jobId_idx" ON "PackageEvidence"("jobId");
