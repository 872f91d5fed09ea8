-- CreateTable
CREATE TABLE "PhotoPair" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "subject" TEXT NOT NULL,
    "throttle" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "PhotoPair_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PhotoPair_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "PhotoPair_bikeId_id_idx" ON "PhotoPair"("bikeId", "id");

-- CreateIndex
CREATE INDEX "PhotoPair_jobId_idx" ON "PhotoPair"("jobId");

-- A photo may be of either side of a pair as well.
DROP TRIGGER "Photo_noun_words";

CREATE TRIGGER "Photo_noun_words" BEFORE INSERT ON "Photo"
WHEN NEW."noun" NOT IN ('part', 'bike', 'step', 'finding', 'pairBefore', 'pairAfter')
BEGIN SELECT RAISE(ABORT, 'Photo.noun is not one of its words'); END;
