-- AlterTable
ALTER TABLE "TaxTerms" ADD COLUMN "basis" TEXT NOT NULL DEFAULT 'issued';
ALTER TABLE "TaxTerms" ADD COLUMN "depositsDue" TEXT NOT NULL DEFAULT '';
ALTER TABLE "TaxTerms" ADD COLUMN "periodMonths" INTEGER NOT NULL DEFAULT 3;

-- CreateTable
CREATE TABLE "InvoiceTax" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "invoiceId" INTEGER NOT NULL,
    "issuedOn" TEXT NOT NULL,
    "category" TEXT NOT NULL,
    "rateBp" REAL NOT NULL,
    "netMinor" INTEGER NOT NULL,
    "taxMinor" INTEGER NOT NULL,
    CONSTRAINT "InvoiceTax_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "InvoiceTax_invoiceId_category_rateBp_key" ON "InvoiceTax"("invoiceId", "category", "rateBp");

-- CreateIndex
CREATE INDEX "InvoiceTax_issuedOn_category_rateBp_idx" ON "InvoiceTax"("issuedOn", "category", "rateBp");

-- CreateIndex
CREATE INDEX "InvoiceTax_category_rateBp_id_idx" ON "InvoiceTax"("category", "rateBp", "id");

-- CreateIndex
CREATE INDEX "Invoice_issuedOn_id_idx" ON "Invoice"("issuedOn", "id");

-- What was issued so far.
INSERT INTO "InvoiceTax" ("invoiceId", "issuedOn", "category", "rateBp", "netMinor", "taxMinor")
SELECT "Invoice"."id", "Invoice"."issuedOn", "tax".value ->> '$.category', "tax".value ->> '$.rateBp',
  "tax".value ->> '$.taxableMinor', "tax".value ->> '$.taxMinor'
FROM "Invoice", json_each("Invoice"."frozen", '$.taxes') AS "tax"
WHERE "Invoice"."state" = 'issued' ORDER BY "Invoice"."id";

-- Whichever way a document is issued: its taxes are kept by rate, and never change.
CREATE TRIGGER "Invoice_taxes_insert" AFTER INSERT ON "Invoice"
WHEN NEW."state" = 'issued'
BEGIN
  INSERT INTO "InvoiceTax" ("invoiceId", "issuedOn", "category", "rateBp", "netMinor", "taxMinor")
  SELECT NEW."id", NEW."issuedOn", "tax".value ->> '$.category', "tax".value ->> '$.rateBp',
    "tax".value ->> '$.taxableMinor', "tax".value ->> '$.taxMinor'
  FROM json_each(NEW."frozen", '$.taxes') AS "tax";
END;

CREATE TRIGGER "Invoice_taxes_update" AFTER UPDATE ON "Invoice"
WHEN OLD."state" <> 'issued' AND NEW."state" = 'issued'
BEGIN
  INSERT INTO "InvoiceTax" ("invoiceId", "issuedOn", "category", "rateBp", "netMinor", "taxMinor")
  SELECT NEW."id", NEW."issuedOn", "tax".value ->> '$.category', "tax".value ->> '$.rateBp',
    "tax".value ->> '$.taxableMinor', "tax".value ->> '$.taxMinor'
  FROM json_each(NEW."frozen", '$.taxes') AS "tax";
END;

CREATE TRIGGER "InvoiceTax_only_grows_update" BEFORE UPDATE ON "InvoiceTax"
BEGIN SELECT RAISE(ABORT, 'InvoiceTax only grows: write a new row instead'); END;

CREATE TRIGGER "InvoiceTax_only_grows_delete" BEFORE DELETE ON "InvoiceTax"
BEGIN SELECT RAISE(ABORT, 'InvoiceTax only grows: write a new row instead'); END;
