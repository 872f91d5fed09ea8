-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Booking" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER,
    "customerId" INTEGER,
    "bikeId" INTEGER,
    "guestName" TEXT NOT NULL DEFAULT '',
    "guestPhone" TEXT NOT NULL DEFAULT '',
    "words" TEXT NOT NULL DEFAULT '',
    "bayId" INTEGER NOT NULL,
    "staffId" INTEGER NOT NULL,
    "startsAt" DATETIME NOT NULL,
    "endsAt" DATETIME NOT NULL,
    "dropOffAt" DATETIME,
    "pickUpAt" DATETIME,
    "state" TEXT NOT NULL DEFAULT 'held',
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Booking_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Booking_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Booking_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Booking_bayId_fkey" FOREIGN KEY ("bayId") REFERENCES "Bay" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Booking_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Booking" ("bayId", "dropOffAt", "endsAt", "id", "jobId", "note", "pickUpAt", "staffId", "startsAt", "state", "version") SELECT "bayId", "dropOffAt", "endsAt", "id", "jobId", "note", "pickUpAt", "staffId", "startsAt", "state", "version" FROM "Booking";
DROP TABLE "Booking";
ALTER TABLE "new_Booking" RENAME TO "Booking";
CREATE INDEX "Booking_bayId_startsAt_idx" ON "Booking"("bayId", "startsAt");
CREATE INDEX "Booking_staffId_startsAt_idx" ON "Booking"("staffId", "startsAt");
CREATE INDEX "Booking_jobId_idx" ON "Booking"("jobId");
CREATE INDEX "Booking_customerId_idx" ON "Booking"("customerId");
CREATE INDEX "Booking_bikeId_idx" ON "Booking"("bikeId");
CREATE INDEX "Booking_state_startsAt_idx" ON "Booking"("state", "startsAt");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

CREATE TRIGGER "Booking_state_words_insert" BEFORE INSERT ON "Booking"
WHEN NEW."state" NOT IN ('held', 'done', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'Booking.state is not one of its words'); END;

CREATE TRIGGER "Booking_state_words_update" BEFORE UPDATE OF "state" ON "Booking"
WHEN NEW."state" NOT IN ('held', 'done', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'Booking.state is not one of its words'); END;

-- A booking is for a job, or says what for.
CREATE TRIGGER "Booking_for_something_insert" BEFORE INSERT ON "Booking"
WHEN NEW."jobId" IS NULL AND NEW."words" = ''
BEGIN SELECT RAISE(ABORT, 'A booking is for a job, or says what for'); END;

CREATE TRIGGER "Booking_for_something_update" BEFORE UPDATE OF "jobId", "words" ON "Booking"
WHEN NEW."jobId" IS NULL AND NEW."words" = ''
BEGIN SELECT RAISE(ABORT, 'A booking is for a job, or says what for'); END;
