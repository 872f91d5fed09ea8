-- AlterTable
ALTER TABLE "Move" ADD COLUMN "saleId" INTEGER;

-- CreateTable
CREATE TABLE "Sale" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "soldAt" DATETIME NOT NULL,
    "staffId" INTEGER
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Invoice" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL DEFAULT 'invoice',
    "number" INTEGER,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "jobId" INTEGER,
    "saleId" INTEGER,
    "customerId" INTEGER,
    "creditsId" INTEGER,
    "basis" TEXT NOT NULL DEFAULT 'fixed',
    "issuedOn" TEXT,
    "dueOn" TEXT,
    "frozen" JSONB,
    "hash" TEXT,
    "netMinor" INTEGER NOT NULL DEFAULT 0,
    "taxMinor" INTEGER NOT NULL DEFAULT 0,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "prepaidMinor" INTEGER NOT NULL DEFAULT 0,
    "paidMinor" INTEGER NOT NULL DEFAULT 0,
    "reason" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL DEFAULT '',
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Invoice_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Invoice_saleId_fkey" FOREIGN KEY ("saleId") REFERENCES "Sale" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Invoice_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Invoice_creditsId_fkey" FOREIGN KEY ("creditsId") REFERENCES "Invoice" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Invoice" ("basis", "createdAt", "creditsId", "customerId", "dueOn", "frozen", "grossMinor", "hash", "id", "issuedOn", "jobId", "kind", "netMinor", "number", "paidMinor", "prepaidMinor", "reason", "searchKey", "state", "taxMinor", "version") SELECT "basis", "createdAt", "creditsId", "customerId", "dueOn", "frozen", "grossMinor", "hash", "id", "issuedOn", "jobId", "kind", "netMinor", "number", "paidMinor", "prepaidMinor", "reason", "searchKey", "state", "taxMinor", "version" FROM "Invoice";
DROP TABLE "Invoice";
ALTER TABLE "new_Invoice" RENAME TO "Invoice";
CREATE INDEX "Invoice_state_id_idx" ON "Invoice"("state", "id");
CREATE INDEX "Invoice_jobId_idx" ON "Invoice"("jobId");
CREATE INDEX "Invoice_saleId_idx" ON "Invoice"("saleId");
CREATE INDEX "Invoice_customerId_idx" ON "Invoice"("customerId");
CREATE INDEX "Invoice_creditsId_idx" ON "Invoice"("creditsId");
CREATE UNIQUE INDEX "Invoice_kind_number_key" ON "Invoice"("kind", "number");
CREATE TABLE "new_Payment" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL,
    "jobId" INTEGER,
    "saleId" INTEGER,
    "invoiceId" INTEGER,
    "method" TEXT NOT NULL,
    "amountMinor" INTEGER NOT NULL,
    "roundingMinor" INTEGER NOT NULL DEFAULT 0,
    "paidOn" TEXT NOT NULL,
    "reference" TEXT NOT NULL DEFAULT '',
    "staffId" INTEGER,
    "at" DATETIME NOT NULL,
    CONSTRAINT "Payment_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Payment_saleId_fkey" FOREIGN KEY ("saleId") REFERENCES "Sale" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Payment_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Payment" ("amountMinor", "at", "id", "invoiceId", "jobId", "kind", "method", "paidOn", "reference", "roundingMinor", "staffId") SELECT "amountMinor", "at", "id", "invoiceId", "jobId", "kind", "method", "paidOn", "reference", "roundingMinor", "staffId" FROM "Payment";
DROP TABLE "Payment";
ALTER TABLE "new_Payment" RENAME TO "Payment";
CREATE INDEX "Payment_jobId_idx" ON "Payment"("jobId");
CREATE INDEX "Payment_saleId_idx" ON "Payment"("saleId");
CREATE INDEX "Payment_invoiceId_idx" ON "Payment"("invoiceId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "Move_saleId_idx" ON "Move"("saleId");

-- The guards and the search of the two tables went with the tables they stood on.

CREATE TRIGGER "Invoice_kind_words_insert" BEFORE INSERT ON "Invoice"
WHEN NEW."kind" NOT IN ('invoice', 'creditNote', 'receipt')
BEGIN SELECT RAISE(ABORT, 'Invoice.kind is not one of its words'); END;

CREATE TRIGGER "Invoice_kind_words_update" BEFORE UPDATE OF "kind" ON "Invoice"
WHEN NEW."kind" NOT IN ('invoice', 'creditNote', 'receipt')
BEGIN SELECT RAISE(ABORT, 'Invoice.kind is not one of its words'); END;

CREATE TRIGGER "Invoice_state_words_insert" BEFORE INSERT ON "Invoice"
WHEN NEW."state" NOT IN ('draft', 'issued')
BEGIN SELECT RAISE(ABORT, 'Invoice.state is not one of its words'); END;

CREATE TRIGGER "Invoice_state_words_update" BEFORE UPDATE OF "state" ON "Invoice"
WHEN NEW."state" NOT IN ('draft', 'issued')
BEGIN SELECT RAISE(ABORT, 'Invoice.state is not one of its words'); END;

CREATE TRIGGER "Payment_kind_words_insert" BEFORE INSERT ON "Payment"
WHEN NEW."kind" NOT IN ('deposit', 'payment', 'refund')
BEGIN SELECT RAISE(ABORT, 'Payment.kind is not one of its words'); END;

CREATE TRIGGER "Payment_kind_words_update" BEFORE UPDATE OF "kind" ON "Payment"
WHEN NEW."kind" NOT IN ('deposit', 'payment', 'refund')
BEGIN SELECT RAISE(ABORT, 'Payment.kind is not one of its words'); END;

CREATE TRIGGER "Payment_only_grows_update" BEFORE UPDATE ON "Payment"
BEGIN SELECT RAISE(ABORT, 'Payment only grows: write a new row instead'); END;

CREATE TRIGGER "Payment_only_grows_delete" BEFORE DELETE ON "Payment"
BEGIN SELECT RAISE(ABORT, 'Payment only grows: write a new row instead'); END;

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
WHEN OLD."state" = 'issued' AND (
  NEW."state" IS NOT OLD."state" OR NEW."kind" IS NOT OLD."kind" OR NEW."number" IS NOT OLD."number" OR
  NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR NEW."issuedOn" IS NOT OLD."issuedOn" OR
  NEW."netMinor" IS NOT OLD."netMinor" OR NEW."taxMinor" IS NOT OLD."taxMinor" OR NEW."grossMinor" IS NOT OLD."grossMinor" OR
  NEW."prepaidMinor" IS NOT OLD."prepaidMinor" OR NEW."customerId" IS NOT OLD."customerId" OR NEW."jobId" IS NOT OLD."jobId" OR
  NEW."saleId" IS NOT OLD."saleId")
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

CREATE TRIGGER "Invoice_never_goes" BEFORE DELETE ON "Invoice"
WHEN OLD."state" = 'issued'
BEGIN SELECT RAISE(ABORT, 'An issued document never goes: write a credit note'); END;

CREATE TRIGGER "Invoice_search_insert" AFTER INSERT ON "Invoice"
BEGIN INSERT INTO "InvoiceSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10)); END;

CREATE TRIGGER "Invoice_search_update" AFTER UPDATE OF "id", "searchKey" ON "Invoice"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey"
BEGIN
  DELETE FROM "InvoiceSearch" WHERE rowid = -OLD."id";
  INSERT INTO "InvoiceSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10));
END;

CREATE TRIGGER "Invoice_search_delete" AFTER DELETE ON "Invoice"
BEGIN DELETE FROM "InvoiceSearch" WHERE rowid = -OLD."id"; END;
