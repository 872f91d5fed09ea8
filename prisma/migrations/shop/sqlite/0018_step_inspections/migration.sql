-- CreateTable
CREATE TABLE "StepInspection" (
    "stepId" INTEGER NOT NULL,
    "item" TEXT NOT NULL,

    PRIMARY KEY ("stepId", "item"),
    CONSTRAINT "StepInspection_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- Until now a step's English name said that it inspects the slide guides.
INSERT INTO "StepInspection" ("stepId", "item")
SELECT "id", 'slideGuides' FROM "Step" WHERE lower("name") LIKE '%guide%';
