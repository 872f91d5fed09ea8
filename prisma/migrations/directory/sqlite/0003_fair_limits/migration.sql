-- Counts of the former kind named what was tried in full, of any length: they are thrown away.
DROP TABLE "Attempt";
CREATE TABLE "Attempt" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "windowStart" DATETIME NOT NULL,
    "lastAt" DATETIME NOT NULL,
    "count" INTEGER NOT NULL,
    "madeFrom" TEXT
);
CREATE INDEX "Attempt_madeFrom_lastAt_idx" ON "Attempt"("madeFrom", "lastAt");
CREATE INDEX "Attempt_lastAt_idx" ON "Attempt"("lastAt");

CREATE TABLE "KnownDevice" (
    "tokenHash" TEXT NOT NULL PRIMARY KEY,
    "personId" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "lastSeenAt" DATETIME NOT NULL,
    CONSTRAINT "KnownDevice_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX "KnownDevice_personId_lastSeenAt_idx" ON "KnownDevice"("personId", "lastSeenAt");

ALTER TABLE "Shop" ADD COLUMN "openedBy" TEXT;
UPDATE "Shop" SET "openedBy" = (
    SELECT MIN("personId") FROM "SecurityEvent" WHERE "act" = 'opened a shop' AND "SecurityEvent"."shopId" = "Shop"."id"
);
CREATE INDEX "Shop_openedBy_idx" ON "Shop"("openedBy");
