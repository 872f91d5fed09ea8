-- CreateTable
CREATE TABLE "InvoiceEdit" (
    "id" SERIAL NOT NULL,
    "invoiceId" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "line" JSONB NOT NULL DEFAULT '{}',
    "reason" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "InvoiceEdit_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "InvoiceEdit_invoiceId_key_key" ON "InvoiceEdit"("invoiceId", "key");

-- AddForeignKey
ALTER TABLE "InvoiceEdit" ADD CONSTRAINT "InvoiceEdit_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE CASCADE ON UPDATE CASCADE;
