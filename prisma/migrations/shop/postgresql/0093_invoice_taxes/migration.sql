-- AlterTable
ALTER TABLE "TaxTerms" ADD COLUMN     "basis" TEXT NOT NULL DEFAULT 'issued',
ADD COLUMN     "depositsDue" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "periodMonths" INTEGER NOT NULL DEFAULT 3;

-- CreateTable
CREATE TABLE "InvoiceTax" (
    "id" SERIAL NOT NULL,
    "invoiceId" INTEGER NOT NULL,
    "issuedOn" TEXT NOT NULL,
    "category" TEXT NOT NULL,
    "rateBp" DOUBLE PRECISION NOT NULL,
    "netMinor" INTEGER NOT NULL,
    "taxMinor" INTEGER NOT NULL,

    CONSTRAINT "InvoiceTax_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "InvoiceTax_invoiceId_category_rateBp_key" ON "InvoiceTax"("invoiceId", "category", "rateBp");

-- CreateIndex
CREATE INDEX "InvoiceTax_issuedOn_category_rateBp_idx" ON "InvoiceTax"("issuedOn", "category", "rateBp");

-- CreateIndex
CREATE INDEX "InvoiceTax_category_rateBp_id_idx" ON "InvoiceTax"("category", "rateBp", "id");

-- CreateIndex
CREATE INDEX "Invoice_issuedOn_id_idx" ON "Invoice"("issuedOn", "id");

-- AddForeignKey
ALTER TABLE "InvoiceTax" ADD CONSTRAINT "InvoiceTax_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What was issued so far.
INSERT INTO "InvoiceTax" ("invoiceId", "issuedOn", "category", "rateBp", "netMinor", "taxMinor")
SELECT "Invoice"."id", "Invoice"."issuedOn", "tax" ->> 'category', ("tax" ->> 'rateBp')::double precision,
  ("tax" ->> 'taxableMinor')::integer, ("tax" ->> 'taxMinor')::integer
FROM "Invoice", jsonb_array_elements("Invoice"."frozen" -> 'taxes') AS "tax"
WHERE "Invoice"."state" = 'issued' ORDER BY "Invoice"."id";

-- Whichever way a document is issued: its taxes are kept by rate, and never change. A function's body is read when it runs, so
-- it names its schema by the trigger's own table.
CREATE FUNCTION "keep_taxes"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  EXECUTE format('INSERT INTO %I."InvoiceTax" ("invoiceId", "issuedOn", "category", "rateBp", "netMinor", "taxMinor")
    SELECT $1, $2, "tax" ->> ''category'', ("tax" ->> ''rateBp'')::double precision,
      ("tax" ->> ''taxableMinor'')::integer, ("tax" ->> ''taxMinor'')::integer
    FROM jsonb_array_elements($3 -> ''taxes'') AS "tax"', TG_TABLE_SCHEMA)
  USING NEW."id", NEW."issuedOn", NEW."frozen";
  RETURN NULL;
END
$$;

CREATE TRIGGER "Invoice_taxes_insert" AFTER INSERT ON "Invoice"
FOR EACH ROW WHEN (NEW."state" = 'issued')
EXECUTE FUNCTION "keep_taxes"();

CREATE TRIGGER "Invoice_taxes_update" AFTER UPDATE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" <> 'issued' AND NEW."state" = 'issued')
EXECUTE FUNCTION "keep_taxes"();

CREATE TRIGGER "InvoiceTax_only_grows" BEFORE UPDATE OR DELETE ON "InvoiceTax"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "InvoiceTax_only_grows_whole" BEFORE TRUNCATE ON "InvoiceTax"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
