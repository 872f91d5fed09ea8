-- CreateTable
CREATE TABLE "ReminderTerms" (
    "id" INTEGER NOT NULL DEFAULT 1,
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
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "ReminderTerms_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Reminder" (
    "id" SERIAL NOT NULL,
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
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "Reminder_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ReminderFeeWaived" (
    "id" SERIAL NOT NULL,
    "reminderId" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "ReminderFeeWaived_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ReminderStop" (
    "id" SERIAL NOT NULL,
    "invoiceId" INTEGER,
    "customerId" INTEGER,
    "reason" TEXT NOT NULL,
    "untilOn" TEXT,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "endedAt" TIMESTAMP(3),
    "endedBy" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "ReminderStop_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Reminder_invoiceId_turn_level_key" ON "Reminder"("invoiceId", "turn", "level");

-- CreateIndex
CREATE UNIQUE INDEX "ReminderFeeWaived_reminderId_key" ON "ReminderFeeWaived"("reminderId");

-- CreateIndex
CREATE INDEX "ReminderStop_invoiceId_idx" ON "ReminderStop"("invoiceId");

-- CreateIndex
CREATE INDEX "ReminderStop_customerId_idx" ON "ReminderStop"("customerId");

-- AddForeignKey
ALTER TABLE "Reminder" ADD CONSTRAINT "Reminder_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReminderFeeWaived" ADD CONSTRAINT "ReminderFeeWaived_reminderId_fkey" FOREIGN KEY ("reminderId") REFERENCES "Reminder"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReminderStop" ADD CONSTRAINT "ReminderStop_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReminderStop" ADD CONSTRAINT "ReminderStop_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A reminder that the rounds wrote by themselves so far was the first one, after as many days as the letter said.
INSERT INTO "ReminderTerms" ("id", "days1", "days2", "days3", "automatic1")
SELECT 1, "days", "days" + 14, "days" + 28, "on" FROM "Letter" WHERE "kind" = 'paymentReminder' AND "days" IS NOT NULL;

CREATE TRIGGER "Reminder_only_grows" BEFORE UPDATE OR DELETE ON "Reminder"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Reminder_only_grows_whole" BEFORE TRUNCATE ON "Reminder"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "ReminderFeeWaived_only_grows" BEFORE UPDATE OR DELETE ON "ReminderFeeWaived"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "ReminderFeeWaived_only_grows_whole" BEFORE TRUNCATE ON "ReminderFeeWaived"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

DROP TRIGGER "MailAttachment_words" ON "MailAttachment";

CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
FOR EACH ROW WHEN (NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking', 'statement', 'reminder') OR NEW."form" NOT IN ('pdf', 'csv', 'ics', 'xml'))
EXECUTE FUNCTION "refuse"('MailAttachment names no document');
