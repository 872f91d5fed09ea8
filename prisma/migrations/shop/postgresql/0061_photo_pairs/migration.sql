-- CreateTable
CREATE TABLE "PhotoPair" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "subject" TEXT NOT NULL,
    "throttle" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "PhotoPair_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "PhotoPair_bikeId_id_idx" ON "PhotoPair"("bikeId", "id");

-- CreateIndex
CREATE INDEX "PhotoPair_jobId_idx" ON "PhotoPair"("jobId");

-- AddForeignKey
ALTER TABLE "PhotoPair" ADD CONSTRAINT "PhotoPair_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PhotoPair" ADD CONSTRAINT "PhotoPair_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- A photo may be of either side of a pair as well.
DROP TRIGGER "Photo_noun_words" ON "Photo";

CREATE TRIGGER "Photo_noun_words" BEFORE INSERT ON "Photo"
FOR EACH ROW WHEN (NEW."noun" NOT IN ('part', 'bike', 'step', 'finding', 'pairBefore', 'pairAfter'))
EXECUTE FUNCTION "refuse"('Photo.noun is not one of its words');
