-- Counts of the former kind named what was tried in full, of any length: they are thrown away.
DROP TABLE "Attempt";
CREATE TABLE "Attempt" (
    "key" TEXT NOT NULL,
    "windowStart" TIMESTAMP(3) NOT NULL,
    "lastAt" TIMESTAMP(3) NOT NULL,
    "count" INTEGER NOT NULL,
    "madeFrom" TEXT,

    CONSTRAINT "Attempt_pkey" PRIMARY KEY ("key")
);
CREATE INDEX "Attempt_madeFrom_lastAt_idx" ON "Attempt"("madeFrom", "lastAt");
CREATE INDEX "Attempt_lastAt_idx" ON "Attempt"("lastAt");

CREATE TABLE "KnownDevice" (
    "tokenHash" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "lastSeenAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "KnownDevice_pkey" PRIMARY KEY ("tokenHash")
);
CREATE INDEX "KnownDevice_personId_lastSeenAt_idx" ON "KnownDevice"("personId", "lastSeenAt");
ALTER TABLE "KnownDevice" ADD CONSTRAINT "KnownDevice_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "Shop" ADD COLUMN "openedBy" TEXT;
UPDATE "Shop" SET "openedBy" = (
    SELECT MIN("personId") FROM "SecurityEvent" WHERE "act" = 'opened a shop' AND "SecurityEvent"."shopId" = "Shop"."id"
);
CREATE INDEX "Shop_openedBy_idx" ON "Shop"("openedBy");
