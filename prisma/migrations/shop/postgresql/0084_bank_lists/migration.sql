-- CreateTable
CREATE TABLE "BankFormat" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "columns" JSONB NOT NULL,
    "dates" TEXT NOT NULL,
    "mark" TEXT NOT NULL,

    CONSTRAINT "BankFormat_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BankList" (
    "id" SERIAL NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "fileName" TEXT NOT NULL,
    "added" INTEGER NOT NULL,
    "known" INTEGER NOT NULL,
    "unread" INTEGER NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "BankList_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BankLine" (
    "id" SERIAL NOT NULL,
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

    CONSTRAINT "BankLine_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BankDecision" (
    "id" SERIAL NOT NULL,
    "lineId" INTEGER NOT NULL,
    "act" TEXT NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "BankDecision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BankPayment" (
    "paymentId" INTEGER NOT NULL,
    "decisionId" INTEGER NOT NULL,

    CONSTRAINT "BankPayment_pkey" PRIMARY KEY ("paymentId")
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

-- AddForeignKey
ALTER TABLE "BankLine" ADD CONSTRAINT "BankLine_listId_fkey" FOREIGN KEY ("listId") REFERENCES "BankList"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BankDecision" ADD CONSTRAINT "BankDecision_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "BankLine"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BankPayment" ADD CONSTRAINT "BankPayment_paymentId_fkey" FOREIGN KEY ("paymentId") REFERENCES "Payment"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BankPayment" ADD CONSTRAINT "BankPayment_decisionId_fkey" FOREIGN KEY ("decisionId") REFERENCES "BankDecision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Guards that the schema language cannot say.
CREATE TRIGGER "BankList_only_grows" BEFORE UPDATE OR DELETE ON "BankList"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankList_only_grows_whole" BEFORE TRUNCATE ON "BankList"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankDecision_only_grows" BEFORE UPDATE OR DELETE ON "BankDecision"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankDecision_only_grows_whole" BEFORE TRUNCATE ON "BankDecision"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankPayment_only_grows" BEFORE UPDATE OR DELETE ON "BankPayment"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankPayment_only_grows_whole" BEFORE TRUNCATE ON "BankPayment"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankLine_only_grows" BEFORE UPDATE OF "listId", "row", "bookedOn", "amountMinor", "text", "payer", "key", "rowKey" ON "BankLine"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankLine_only_grows_delete" BEFORE DELETE ON "BankLine"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankLine_only_grows_whole" BEFORE TRUNCATE ON "BankLine"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BankLine_state_words" BEFORE INSERT OR UPDATE OF "state" ON "BankLine"
FOR EACH ROW WHEN (NEW."state" NOT IN ('waiting', 'booked', 'aside'))
EXECUTE FUNCTION "refuse"('BankLine.state is not one of its words');

CREATE TRIGGER "BankDecision_act_words" BEFORE INSERT ON "BankDecision"
FOR EACH ROW WHEN (NEW."act" NOT IN ('booked', 'aside', 'reopened'))
EXECUTE FUNCTION "refuse"('BankDecision.act is not one of its words');
