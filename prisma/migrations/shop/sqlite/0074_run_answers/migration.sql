-- CreateTable
CREATE TABLE "RunAnswer" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "answer" TEXT NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "calibrationId" INTEGER,
    "seenAt" DATETIME,
    "seenBy" INTEGER,
    CONSTRAINT "RunAnswer_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "RunAnswer_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "RunAnswer_bikeId_id_idx" ON "RunAnswer"("bikeId", "id");

-- CreateIndex
CREATE INDEX "RunAnswer_jobId_id_idx" ON "RunAnswer"("jobId", "id");

-- CreateIndex
CREATE INDEX "RunAnswer_seenAt_id_idx" ON "RunAnswer"("seenAt", "id");

-- Guards that the schema language cannot say.
CREATE TRIGGER "RunAnswer_answer_words" BEFORE INSERT ON "RunAnswer"
WHEN NEW."answer" NOT IN ('runsWell', 'startsBadly', 'hesitates', 'tooHot', 'muchFuel', 'other')
BEGIN SELECT RAISE(ABORT, 'RunAnswer.answer is not one of its words'); END;

CREATE TRIGGER "RunAnswer_only_grows_update" BEFORE UPDATE OF "jobId", "answer", "words", "at" ON "RunAnswer"
BEGIN SELECT RAISE(ABORT, 'RunAnswer only grows: write a new row instead'); END;

CREATE TRIGGER "RunAnswer_only_grows_delete" BEFORE DELETE ON "RunAnswer"
BEGIN SELECT RAISE(ABORT, 'RunAnswer only grows: write a new row instead'); END;
