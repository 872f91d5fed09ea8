-- CreateTable
CREATE TABLE "InvoiceJob" (
    "id" SERIAL NOT NULL,
    "invoiceId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "basis" TEXT NOT NULL,

    CONSTRAINT "InvoiceJob_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "InvoiceJob_jobId_idx" ON "InvoiceJob"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "InvoiceJob_invoiceId_jobId_key" ON "InvoiceJob"("invoiceId", "jobId");

-- AddForeignKey
ALTER TABLE "InvoiceJob" ADD CONSTRAINT "InvoiceJob_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "InvoiceJob" ADD CONSTRAINT "InvoiceJob_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What an issued document charges never changes. A credit note's jobs are written as it is issued. The schema is the table's own,
-- whatever the session's search path is.
CREATE FUNCTION "keep_charged_jobs"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  issued boolean;
BEGIN
  EXECUTE format('SELECT EXISTS (SELECT 1 FROM %I."Invoice" WHERE "id" = $1 AND "state" = ''issued'' AND ($2 OR "kind" = ''invoice''))', TG_TABLE_SCHEMA)
    INTO issued USING (CASE WHEN TG_OP = 'INSERT' THEN NEW."invoiceId" ELSE OLD."invoiceId" END), TG_OP <> 'INSERT';
  IF issued THEN
    RAISE EXCEPTION 'An issued document never changes: write a credit note';
  END IF;
  IF TG_OP = 'DELETE' THEN
    RETURN OLD;
  END IF;
  RETURN NEW;
END
$$;

CREATE TRIGGER "InvoiceJob_never_changes" BEFORE INSERT OR UPDATE OR DELETE ON "InvoiceJob"
FOR EACH ROW EXECUTE FUNCTION "keep_charged_jobs"();
