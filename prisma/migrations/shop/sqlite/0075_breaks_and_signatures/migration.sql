-- CreateTable
CREATE TABLE "TimeBreak" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "staffId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "startedAt" DATETIME NOT NULL,
    "endedAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "TimeBreak_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TimeBreak_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TimeCorrection" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "entryId" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "reason" TEXT NOT NULL,
    "fromStarted" DATETIME NOT NULL,
    "fromEnded" DATETIME,
    "toStarted" DATETIME NOT NULL,
    "toEnded" DATETIME NOT NULL,
    CONSTRAINT "TimeCorrection_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "TimeEntry" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "HandoverSignature" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "signedBy" TEXT NOT NULL,
    "signature" TEXT NOT NULL DEFAULT '',
    "signedAt" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "HandoverSignature_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "TimeBreak_jobId_idx" ON "TimeBreak"("jobId");

-- CreateIndex
CREATE INDEX "TimeBreak_staffId_startedAt_idx" ON "TimeBreak"("staffId", "startedAt");

-- CreateIndex
CREATE INDEX "TimeCorrection_entryId_idx" ON "TimeCorrection"("entryId");

-- CreateIndex
CREATE INDEX "HandoverSignature_jobId_id_idx" ON "HandoverSignature"("jobId", "id");

-- Guards that the schema language cannot say.
CREATE TRIGGER "TimeCorrection_only_grows_update" BEFORE UPDATE ON "TimeCorrection"
BEGIN SELECT RAISE(ABORT, 'TimeCorrection only grows: write a new row instead'); END;

CREATE TRIGGER "TimeCorrection_only_grows_delete" BEFORE DELETE ON "TimeCorrection"
BEGIN SELECT RAISE(ABORT, 'TimeCorrection only grows: write a new row instead'); END;

CREATE TRIGGER "HandoverSignature_only_grows_update" BEFORE UPDATE ON "HandoverSignature"
BEGIN SELECT RAISE(ABORT, 'HandoverSignature only grows: write a new row instead'); END;

CREATE TRIGGER "HandoverSignature_only_grows_delete" BEFORE DELETE ON "HandoverSignature"
BEGIN SELECT RAISE(ABORT, 'HandoverSignature only grows: write a new row instead'); END;
