-- CreateTable
CREATE TABLE "RunAnswer" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "answer" TEXT NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "calibrationId" INTEGER,
    "seenAt" TIMESTAMP(3),
    "seenBy" INTEGER,

    CONSTRAINT "RunAnswer_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "RunAnswer_bikeId_id_idx" ON "RunAnswer"("bikeId", "id");

-- CreateIndex
CREATE INDEX "RunAnswer_jobId_id_idx" ON "RunAnswer"("jobId", "id");

-- CreateIndex
CREATE INDEX "RunAnswer_seenAt_id_idx" ON "RunAnswer"("seenAt", "id");

-- AddForeignKey
ALTER TABLE "RunAnswer" ADD CONSTRAINT "RunAnswer_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RunAnswer" ADD CONSTRAINT "RunAnswer_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Guards that the schema language cannot say.
CREATE TRIGGER "RunAnswer_answer_words" BEFORE INSERT ON "RunAnswer"
FOR EACH ROW WHEN (NEW."answer" NOT IN ('runsWell', 'startsBadly', 'hesitates', 'tooHot', 'muchFuel', 'other'))
EXECUTE FUNCTION "refuse"('RunAnswer.answer is not one of its words');

CREATE TRIGGER "RunAnswer_only_grows" BEFORE UPDATE OF "jobId", "answer", "words", "at" ON "RunAnswer"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "RunAnswer_only_grows_delete" BEFORE DELETE ON "RunAnswer"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "RunAnswer_only_grows_whole" BEFORE TRUNCATE ON "RunAnswer"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
