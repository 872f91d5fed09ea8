-- CreateTable
CREATE TABLE "BankFormat" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT DEFAULT 1,
    "columns" JSONB NOT NULL,
    "dates" TEXT NOT NULL,
    "mark" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "BankList" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "at" DATETIME NOT NULL,
    "fileName" TEXT NOT NULL,
    "added" INTEGER NOT NULL,
    "known" INTEGER NOT NULL,
    "unread" INTEGER NOT NULL,
    "staffId" INTEGER
);

-- CreateTable
CREATE TABLE "BankLine" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "listId" INTEGER NOT NULL,
    "row" INTEGER NOT NULL,
    "bookedOn" TEXT NOT NULL,
    "amountMinor" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "payer" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "rowKey" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "BankLine_listId_fkey" FOREIGN KEY ("listId") REFERENCES "BankList" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "BankDecision" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "lineId" INTEGER NOT NULL,
    "act" TEXT NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "BankDecision_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "BankLine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "BankPayment" (
    "paymentId" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "decisionId" INTEGER NOT NULL,
    CONSTRAINT "BankPayment_paymentId_fkey" FOREIGN KEY ("paymentId") REFERENCES "Payment" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "BankPayment_decisionId_fkey" FOREIGN KEY ("decisionId") REFERENCES "BankDecision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "BankLine_key_key" ON "BankLine"("key");

-- CreateIndex
CREATE UNIQUE INDEX "BankLine_rowKey_key" ON "BankLine"("rowKey");

-- CreateIndex
CREATE INDEX "BankLine_state_id_idx" ON "BankLine"("state", "id");

-- CreateIndex
CREATE INDEX "BankLine_listId_idx" ON "BankLine"("listId");

-- CreateIndex
CREATE INDEX "BankDecision_lineId_idx" ON "BankDecision"("lineId");

-- CreateIndex
CREATE INDEX "BankPayment_decisionId_idx" ON "BankPayment"("decisionId");

-- Guards that the schema language cannot say.
CREATE TRIGGER "BankList_only_grows_update" BEFORE UPDATE ON "BankList"
BEGIN SELECT RAISE(ABORT, 'BankList only grows: write a new row instead'); END;

CREATE TRIGGER "BankList_only_grows_delete" BEFORE DELETE ON "BankList"
BEGIN SELECT RAISE(ABORT, 'BankList only grows: write a new row instead'); END;

CREATE TRIGGER "BankDecision_only_grows_update" BEFORE UPDATE ON "BankDecision"
BEGIN SELECT RAISE(ABORT, 'BankDecision only grows: write a new row instead'); END;

CREATE TRIGGER "BankDecision_only_grows_delete" BEFORE DELETE ON "BankDecision"
BEGIN SELECT RAISE(ABORT, 'BankDecision only grows: write a new row instead'); END;

CREATE TRIGGER "BankPayment_only_grows_update" BEFORE UPDATE ON "BankPayment"
BEGIN SELECT RAISE(ABORT, 'BankPayment only grows: write a new row instead'); END;

CREATE TRIGGER "BankPayment_only_grows_delete" BEFORE DELETE ON "BankPayment"
BEGIN SELECT RAISE(ABORT, 'BankPayment only grows: write a new row instead'); END;

CREATE TRIGGER "BankLine_only_grows_update" BEFORE UPDATE OF "listId", "row", "bookedOn", "amountMinor", "text", "payer", "key", "rowKey" ON "BankLine"
BEGIN SELECT RAISE(ABORT, 'BankLine only grows: write a new row instead'); END;

CREATE TRIGGER "BankLine_only_grows_delete" BEFORE DELETE ON "BankLine"
BEGIN SELECT RAISE(ABORT, 'BankLine only grows: write a new row instead'); END;

CREATE TRIGGER "BankLine_state_words_insert" BEFORE INSERT ON "BankLine"
WHEN NEW."state" NOT IN ('waiting', 'booked', 'aside')
BEGIN SELECT RAISE(ABORT, 'BankLine.state is not one of its words'); END;

CREATE TRIGGER "BankLine_state_words_update" BEFORE UPDATE OF "state" ON "BankLine"
WHEN NEW."state" NOT IN ('waiting', 'booked', 'aside')
BEGIN SELECT RAISE(ABORT, 'BankLine.state is not one of its words'); END;

CREATE TRIGGER "BankDecision_act_words_insert" BEFORE INSERT ON "BankDecision"
WHEN NEW."act" NOT IN ('booked', 'aside', 'reopened')
BEGIN SELECT RAISE(ABORT, 'BankDecision.act is not one of its words'); END;
