-- CreateTable
CREATE TABLE "EinvoiceSeller" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT DEFAULT 1,
    "on" BOOLEAN NOT NULL DEFAULT false,
    "street" TEXT NOT NULL DEFAULT '',
    "city" TEXT NOT NULL DEFAULT '',
    "postcode" TEXT NOT NULL DEFAULT '',
    "registerNumber" TEXT NOT NULL DEFAULT '',
    "scheme" TEXT NOT NULL DEFAULT '',
    "electronicAddress" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "EinvoiceBuyer" (
    "customerId" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "on" BOOLEAN NOT NULL DEFAULT false,
    "country" TEXT NOT NULL,
    "street" TEXT NOT NULL DEFAULT '',
    "city" TEXT NOT NULL DEFAULT '',
    "postcode" TEXT NOT NULL DEFAULT '',
    "registerNumber" TEXT NOT NULL DEFAULT '',
    "scheme" TEXT NOT NULL DEFAULT '',
    "electronicAddress" TEXT NOT NULL DEFAULT '',
    "reference" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "EinvoiceBuyer_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "EinvoiceOrder" (
    "invoiceId" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "number" TEXT NOT NULL,
    CONSTRAINT "EinvoiceOrder_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- What an issued document says never changes.
CREATE TRIGGER "EinvoiceOrder_comes_before_issue" BEFORE INSERT ON "EinvoiceOrder"
WHEN EXISTS (SELECT 1 FROM "Invoice" WHERE "id" = NEW."invoiceId" AND "state" = 'issued')
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

CREATE TRIGGER "EinvoiceOrder_never_changes" BEFORE UPDATE ON "EinvoiceOrder"
WHEN EXISTS (SELECT 1 FROM "Invoice" WHERE "id" = OLD."invoiceId" AND "state" = 'issued')
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

CREATE TRIGGER "EinvoiceOrder_never_goes" BEFORE DELETE ON "EinvoiceOrder"
WHEN EXISTS (SELECT 1 FROM "Invoice" WHERE "id" = OLD."invoiceId" AND "state" = 'issued')
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;
