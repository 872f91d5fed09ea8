-- AlterTable
ALTER TABLE "Bike" ADD COLUMN     "severityId" INTEGER;

-- AlterTable
ALTER TABLE "FollowUp" ADD COLUMN     "kmWhy" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "ModelCard" ADD COLUMN     "mainFamily" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "pilotFamily" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "Part" ADD COLUMN     "replacedById" INTEGER;

-- CreateTable
CREATE TABLE "Severity" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "factor" DOUBLE PRECISION NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Severity_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "JetFamily" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "thread" TEXT NOT NULL DEFAULT '',
    "convention" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "JetFamily_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Severity_name_key" ON "Severity"("name");

-- CreateIndex
CREATE UNIQUE INDEX "JetFamily_name_key" ON "JetFamily"("name");

-- CreateIndex
CREATE INDEX "Part_replacedById_idx" ON "Part"("replacedById");

-- AddForeignKey
ALTER TABLE "Bike" ADD CONSTRAINT "Bike_severityId_fkey" FOREIGN KEY ("severityId") REFERENCES "Severity"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Part" ADD CONSTRAINT "Part_replacedById_fkey" FOREIGN KEY ("replacedById") REFERENCES "Part"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- What a shop begins with: common practice, no source. It names and numbers them as it likes.
INSERT INTO "Severity" ("name", "factor") VALUES
    ('Road and gravel', 1.5),
    ('Rain and salt', 1.5),
    ('Dust', 2.5),
    ('Dust and water crossings', 4);
