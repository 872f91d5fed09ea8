-- CreateTable
CREATE TABLE "BooksClosing" (
    "id" SERIAL NOT NULL,
    "throughDay" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "BooksClosing_pkey" PRIMARY KEY ("id")
);

-- Guards that the schema language cannot say.
CREATE TRIGGER "BooksClosing_words" BEFORE INSERT ON "BooksClosing"
FOR EACH ROW WHEN (NEW."act" NOT IN ('closed', 'reopened') OR NEW."throughDay" !~ '^([0-9]{4}-[0-1][0-9]-[0-3][0-9])?$')
EXECUTE FUNCTION "refuse"('BooksClosing.act or throughDay is not one of its words');

CREATE TRIGGER "BooksClosing_only_grows" BEFORE UPDATE OR DELETE ON "BooksClosing"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "BooksClosing_only_grows_whole" BEFORE TRUNCATE ON "BooksClosing"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

-- Whichever way a document or money is written: none is dated inside a closed period. A function's body is read when it
-- runs, so it names its schema by the trigger's own table. Its argument is the column of the day.
CREATE FUNCTION "in_open_period"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  "through" text;
BEGIN
  EXECUTE format('SELECT "throughDay" FROM %I."BooksClosing" ORDER BY "id" DESC LIMIT 1', TG_TABLE_SCHEMA)
  INTO "through";
  IF to_jsonb(NEW) ->> TG_ARGV[0] <= "through" COLLATE "C" THEN
    RAISE EXCEPTION 'The day lies in a closed period';
  END IF;
  RETURN NEW;
END
$$;

CREATE TRIGGER "Invoice_in_open_period_insert" BEFORE INSERT ON "Invoice"
FOR EACH ROW WHEN (NEW."state" = 'issued')
EXECUTE FUNCTION "in_open_period"('issuedOn');

CREATE TRIGGER "Invoice_in_open_period_update" BEFORE UPDATE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" <> 'issued' AND NEW."state" = 'issued')
EXECUTE FUNCTION "in_open_period"('issuedOn');

CREATE TRIGGER "Payment_in_open_period" BEFORE INSERT ON "Payment"
FOR EACH ROW EXECUTE FUNCTION "in_open_period"('paidOn');
