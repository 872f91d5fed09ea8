-- CreateTable
CREATE TABLE "ReminderTerms" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT DEFAULT 1,
    "days1" INTEGER,
    "days2" INTEGER,
    "days3" INTEGER,
    "fee1Minor" INTEGER NOT NULL DEFAULT 0,
    "fee2Minor" INTEGER NOT NULL DEFAULT 0,
    "fee3Minor" INTEGER NOT NULL DEFAULT 0,
    "automatic1" BOOLEAN NOT NULL DEFAULT false,
    "automatic2" BOOLEAN NOT NULL DEFAULT false,
    "automatic3" BOOLEAN NOT NULL DEFAULT false,
    "feeTaxMark" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "Reminder" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "invoiceId" INTEGER NOT NULL,
    "level" INTEGER NOT NULL,
    "turn" INTEGER NOT NULL DEFAULT 0,
    "onDay" TEXT NOT NULL,
    "leftMinor" INTEGER NOT NULL,
    "feeMinor" INTEGER NOT NULL,
    "automatic" BOOLEAN NOT NULL,
    "mailId" INTEGER,
    "frozen" JSONB NOT NULL,
    "hash" TEXT NOT NULL,
    "staffId" INTEGER,
    "at" DATETIME NOT NULL,
    CONSTRAINT "Reminder_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ReminderFeeWaived" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "reminderId" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "ReminderFeeWaived_reminderId_fkey" FOREIGN KEY ("reminderId") REFERENCES "Reminder" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ReminderStop" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "invoiceId" INTEGER,
    "customerId" INTEGER,
    "reason" TEXT NOT NULL,
    "untilOn" TEXT,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "endedAt" DATETIME,
    "endedBy" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "ReminderStop_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ReminderStop_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "Reminder_invoiceId_turn_level_key" ON "Reminder"("invoiceId", "turn", "level");

-- CreateIndex
CREATE UNIQUE INDEX "ReminderFeeWaived_reminderId_key" ON "ReminderFeeWaived"("reminderId");

-- CreateIndex
CREATE INDEX "ReminderStop_invoiceId_idx" ON "ReminderStop"("invoiceId");

-- CreateIndex
CREATE INDEX "ReminderStop_customerId_idx" ON "ReminderStop"("customerId");

-- A reminder that the rounds wrote by themselves so far was the first one, after as many days as the letter said.
INSERT INTO "ReminderTerms" ("id", "days1", "days2", "days3", "automatic1")
SELECT 1, "days", "days" + 14, "days" + 28, "on" FROM "Letter" WHERE "kind" = 'paymentReminder' AND "days" IS NOT NULL;

CREATE TRIGGER "Reminder_only_grows_update" BEFORE UPDATE ON "Reminder"
BEGIN SELECT RAISE(ABORT, 'Reminder only grows: write a new row instead'); END;

CREATE TRIGGER "Reminder_only_grows_delete" BEFORE DELETE ON "Reminder"
BEGIN SELECT RAISE(ABORT, 'Reminder only grows: write a new row instead'); END;

CREATE TRIGGER "ReminderFeeWaived_only_grows_update" BEFORE UPDATE ON "ReminderFeeWaived"
BEGIN SELECT RAISE(ABORT, 'ReminderFeeWaived only grows: write a new row instead'); END;

CREATE TRIGGER "ReminderFeeWaived_only_grows_delete" BEFORE DELETE ON "ReminderFeeWaived"
BEGIN SELECT RAISE(ABORT, 'ReminderFeeWaived only grows: write a new row instead'); END;

DROP TRIGGER "MailAttachment_words";

CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
WHEN NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking', 'statement', 'reminder') OR NEW."form" NOT IN ('pdf', 'csv', 'ics', 'xml')
BEGIN SELECT RAISE(ABORT, 'MailAttachment names no document'); END;
