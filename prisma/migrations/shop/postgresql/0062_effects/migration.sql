-- CreateTable
CREATE TABLE "Effect" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "side" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,
    "under" JSONB NOT NULL,
    "instrument" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "withdrawnAt" TIMESTAMP(3),
    "withdrawnWhy" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Effect_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Effect_bikeId_id_idx" ON "Effect"("bikeId", "id");

-- CreateIndex
CREATE INDEX "Effect_jobId_idx" ON "Effect"("jobId");

-- AddForeignKey
ALTER TABLE "Effect" ADD CONSTRAINT "Effect_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Effect" ADD CONSTRAINT "Effect_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
