-- CreateTable
CREATE TABLE "EndOfDay" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "day" TEXT NOT NULL,
    "fromDay" TEXT NOT NULL,
    "closedAt" DATETIME NOT NULL,
    "staffId" INTEGER,
    "frozen" JSONB NOT NULL,
    "hash" TEXT NOT NULL,
    "expectedMinor" INTEGER NOT NULL,
    "countedMinor" INTEGER NOT NULL,
    "differenceMinor" INTEGER NOT NULL,
    "leftMinor" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "DrawerMove" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "day" TEXT NOT NULL,
    "amountMinor" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "staffId" INTEGER,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL
);

-- CreateIndex
CREATE UNIQUE INDEX "EndOfDay_day_key" ON "EndOfDay"("day");

-- CreateIndex
CREATE INDEX "DrawerMove_day_idx" ON "DrawerMove"("day");

-- CreateIndex
CREATE INDEX "Payment_paidOn_idx" ON "Payment"("paidOn");

-- Guards that the schema language cannot say.
CREATE TRIGGER "EndOfDay_only_grows_update" BEFORE UPDATE ON "EndOfDay"
BEGIN SELECT RAISE(ABORT, 'EndOfDay only grows: write a new row instead'); END;

CREATE TRIGGER "EndOfDay_only_grows_delete" BEFORE DELETE ON "EndOfDay"
BEGIN SELECT RAISE(ABORT, 'EndOfDay only grows: write a new row instead'); END;

CREATE TRIGGER "DrawerMove_only_grows_update" BEFORE UPDATE ON "DrawerMove"
BEGIN SELECT RAISE(ABORT, 'DrawerMove only grows: write a new row instead'); END;

CREATE TRIGGER "DrawerMove_only_grows_delete" BEFORE DELETE ON "DrawerMove"
BEGIN SELECT RAISE(ABORT, 'DrawerMove only grows: write a new row instead'); END;
