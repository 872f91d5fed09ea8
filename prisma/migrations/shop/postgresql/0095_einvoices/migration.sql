-- CreateTable
CREATE TABLE "EinvoiceSeller" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "on" BOOLEAN NOT NULL DEFAULT false,
    "street" TEXT NOT NULL DEFAULT '',
    "city" TEXT NOT NULL DEFAULT '',
    "postcode" TEXT NOT NULL DEFAULT '',
    "registerNumber" TEXT NOT NULL DEFAULT '',
    "scheme" TEXT NOT NULL DEFAULT '',
    "electronicAddress" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "EinvoiceSeller_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "EinvoiceBuyer" (
    "customerId" INTEGER NOT NULL,
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

    CONSTRAINT "EinvoiceBuyer_pkey" PRIMARY KEY ("customerId")
);

-- CreateTable
CREATE TABLE "EinvoiceOrder" (
    "invoiceId" INTEGER NOT NULL,
    "number" TEXT NOT NULL,

    CONSTRAINT "EinvoiceOrder_pkey" PRIMARY KEY ("invoiceId")
);

-- AddForeignKey
ALTER TABLE "EinvoiceBuyer" ADD CONSTRAINT "EinvoiceBuyer_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EinvoiceOrder" ADD CONSTRAINT "EinvoiceOrder_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What an issued document says never changes. The schema is the table's own, whatever the session's search path is.
CREATE FUNCTION "keep_issued_order"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  issued boolean;
BEGIN
  EXECUTE format('SELECT EXISTS (SELECT 1 FROM %I."Invoice" WHERE "id" = $1 AND "state" = ''issued'')', TG_TABLE_SCHEMA)
    INTO issued USING (CASE WHEN TG_OP = 'INSERT' THEN NEW."invoiceId" ELSE OLD."invoiceId" END);
  IF issued THEN
    RAISE EXCEPTION 'An issued document never changes: write a credit note';
  END IF;
  IF TG_OP = 'DELETE' THEN
    RETURN OLD;
  END IF;
  RETURN NEW;
END
$$;

CREATE TRIGGER "EinvoiceOrder_never_changes" BEFORE INSERT OR UPDATE OR DELETE ON "EinvoiceOrder"
FOR EACH ROW EXECUTE FUNCTION "keep_issued_order"();
