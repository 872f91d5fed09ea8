-- CreateTable
CREATE TABLE "StepNote" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "stepId" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "StepNote_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "JobWait" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "untilOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "endedAt" DATETIME,
    CONSTRAINT "JobWait_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "JobHandOver" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "fromId" INTEGER,
    "toId" INTEGER NOT NULL,
    "note" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "takenAt" DATETIME,
    CONSTRAINT "JobHandOver_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "JobHandOver_toId_fkey" FOREIGN KEY ("toId") REFERENCES "Staff" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
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

-- Guards that the schema language cannot say.
CREATE TRIGGER "JobWait_reason_words_insert" BEFORE INSERT ON "JobWait"
WHEN NEW."reason" NOT IN ('parts', 'customer', 'ride', 'outside')
BEGIN SELECT RAISE(ABORT, 'JobWait.reason is not one of its words'); END;

CREATE TRIGGER "JobWait_reason_words_update" BEFORE UPDATE OF "reason" ON "JobWait"
WHEN NEW."reason" NOT IN ('parts', 'customer', 'ride', 'outside')
BEGIN SELECT RAISE(ABORT, 'JobWait.reason is not one of its words'); END;

CREATE TRIGGER "StepNote_only_grows_update" BEFORE UPDATE ON "StepNote"
BEGIN SELECT RAISE(ABORT, 'StepNote only grows: write a new row instead'); END;

CREATE TRIGGER "StepNote_only_grows_delete" BEFORE DELETE ON "StepNote"
BEGIN SELECT RAISE(ABORT, 'StepNote only grows: write a new row instead'); END;
