-- CreateTable
CREATE TABLE "Severity" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "factor" REAL NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "JetFamily" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "thread" TEXT NOT NULL DEFAULT '',
    "convention" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateIndex
CREATE UNIQUE INDEX "Severity_name_key" ON "Severity"("name");

-- CreateIndex
CREATE UNIQUE INDEX "JetFamily_name_key" ON "JetFamily"("name");

-- Columns are added in place: a table that is made anew would lose its triggers.
ALTER TABLE "Bike" ADD COLUMN "severityId" INTEGER REFERENCES "Severity" ("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "Part" ADD COLUMN "replacedById" INTEGER REFERENCES "Part" ("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "FollowUp" ADD COLUMN "kmWhy" TEXT NOT NULL DEFAULT '';
ALTER TABLE "ModelCard" ADD COLUMN "mainFamily" TEXT NOT NULL DEFAULT '';
ALTER TABLE "ModelCard" ADD COLUMN "pilotFamily" TEXT NOT NULL DEFAULT '';

-- CreateIndex
CREATE INDEX "Part_replacedById_idx" ON "Part"("replacedById");

-- What a shop begins with: common practice, no source. It names and numbers them as it likes.
INSERT INTO "Severity" ("name", "factor") VALUES
    ('Road and gravel', 1.5),
    ('Rain and salt', 1.5),
    ('Dust', 2.5),
    ('Dust and water crossings', 4);
