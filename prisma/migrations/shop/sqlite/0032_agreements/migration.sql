-- CreateTable
CREATE TABLE "JobAgreement" (
    "jobId" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL,
    "comebackOfId" INTEGER,
    "chargedBp" INTEGER NOT NULL DEFAULT 10000,
    "why" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "JobAgreement_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "JobAgreement_comebackOfId_fkey" FOREIGN KEY ("comebackOfId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "JobYes" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "saidBy" TEXT NOT NULL,
    "how" TEXT NOT NULL,
    "upToMinor" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "JobYes_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "JobAgreement_comebackOfId_idx" ON "JobAgreement"("comebackOfId");

-- CreateIndex
CREATE INDEX "JobYes_jobId_idx" ON "JobYes"("jobId");

-- Guards that the schema language cannot say.
CREATE TRIGGER "JobAgreement_kind_words_insert" BEFORE INSERT ON "JobAgreement"
WHEN NEW."kind" NOT IN ('word', 'comeback', 'ownBike')
BEGIN SELECT RAISE(ABORT, 'JobAgreement.kind is not one of its words'); END;

CREATE TRIGGER "JobAgreement_kind_words_update" BEFORE UPDATE OF "kind" ON "JobAgreement"
WHEN NEW."kind" NOT IN ('word', 'comeback', 'ownBike')
BEGIN SELECT RAISE(ABORT, 'JobAgreement.kind is not one of its words'); END;

CREATE TRIGGER "JobYes_how_words_insert" BEFORE INSERT ON "JobYes"
WHEN NEW."how" NOT IN ('phone', 'counter', 'message')
BEGIN SELECT RAISE(ABORT, 'JobYes.how is not one of its words'); END;

CREATE TRIGGER "JobYes_only_grows_update" BEFORE UPDATE ON "JobYes"
BEGIN SELECT RAISE(ABORT, 'JobYes only grows: write a new row instead'); END;

CREATE TRIGGER "JobYes_only_grows_delete" BEFORE DELETE ON "JobYes"
BEGIN SELECT RAISE(ABORT, 'JobYes only grows: write a new row instead'); END;
