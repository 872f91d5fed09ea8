-- CreateTable
CREATE TABLE "InvoiceEdit" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "invoiceId" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "line" JSONB NOT NULL DEFAULT '{}',
    "reason" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "InvoiceEdit_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "InvoiceEdit_invoiceId_key_key" ON "InvoiceEdit"("invoiceId", "key");
