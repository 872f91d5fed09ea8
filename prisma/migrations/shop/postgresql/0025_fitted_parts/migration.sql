-- CreateTable
CREATE TABLE "FittedPart" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "carburettor" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "facts" JSONB NOT NULL,
    "how" TEXT NOT NULL,
    "partId" INTEGER,
    "jobId" INTEGER,
    "sheetId" INTEGER,
    "takenAt" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "FittedPart_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "FittedPart_bikeId_kind_id_idx" ON "FittedPart"("bikeId", "kind", "id");

-- CreateIndex
CREATE INDEX "FittedPart_jobId_idx" ON "FittedPart"("jobId");

-- CreateIndex
CREATE INDEX "FittedPart_sheetId_idx" ON "FittedPart"("sheetId");

-- AddForeignKey
ALTER TABLE "FittedPart" ADD CONSTRAINT "FittedPart_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A description of a part is never changed: a new one is written, and the earlier stays readable.
CREATE TRIGGER "FittedPart_only_grows" BEFORE UPDATE OR DELETE ON "FittedPart"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "FittedPart_only_grows_whole" BEFORE TRUNCATE ON "FittedPart"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
