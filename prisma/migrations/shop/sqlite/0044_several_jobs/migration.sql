-- CreateTable
CREATE TABLE "InvoiceJob" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "invoiceId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "basis" TEXT NOT NULL,
    CONSTRAINT "InvoiceJob_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "InvoiceJob_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "InvoiceJob_jobId_idx" ON "InvoiceJob"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "InvoiceJob_invoiceId_jobId_key" ON "InvoiceJob"("invoiceId", "jobId");

-- What an issued document charges never changes. A credit note's jobs are written as it is issued.
CREATE TRIGGER "InvoiceJob_comes_before_issue" BEFORE INSERT ON "InvoiceJob"
WHEN EXISTS (SELECT 1 FROM "Invoice" WHERE "id" = NEW."invoiceId" AND "state" = 'issued' AND "kind" = 'invoice')
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

CREATE TRIGGER "InvoiceJob_never_changes" BEFORE UPDATE ON "InvoiceJob"
WHEN EXISTS (SELECT 1 FROM "Invoice" WHERE "id" = OLD."invoiceId" AND "state" = 'issued')
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

CREATE TRIGGER "InvoiceJob_never_goes" BEFORE DELETE ON "InvoiceJob"
WHEN EXISTS (SELECT 1 FROM "Invoice" WHERE "id" = OLD."invoiceId" AND "state" = 'issued')
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;
