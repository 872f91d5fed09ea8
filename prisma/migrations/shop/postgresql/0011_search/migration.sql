-- What a record is found by, in a table of its own for each noun with a trigram index: a substring of three letters or more
-- is a look-up, not a scan. The text is copied out of the nouns' tables so that a part's codes of every supplier and its
-- size stand beside its own words, and so that the schema engine, which knows no such index, is told of these tables alone
-- (lib/db/engine.ts). No name is qualified: the search path says which schema this is made in; a function's body is read
-- when it runs, so it names its schema by the trigger's own table.

CREATE TABLE "CustomerSearch" ("id" integer PRIMARY KEY, "words" text NOT NULL);
CREATE TABLE "BikeSearch" ("id" integer PRIMARY KEY, "words" text NOT NULL);
CREATE TABLE "QuoteSearch" ("id" integer PRIMARY KEY, "words" text NOT NULL);
CREATE TABLE "JobSearch" ("id" integer PRIMARY KEY, "words" text NOT NULL);
CREATE TABLE "InvoiceSearch" ("id" integer PRIMARY KEY, "words" text NOT NULL);
CREATE TABLE "PartSearch" ("id" integer PRIMARY KEY, "words" text NOT NULL, "size" integer);
CREATE INDEX "PartSearch_size_idx" ON "PartSearch" ("size");

CREATE FUNCTION "search_keep"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP <> 'INSERT' THEN
    EXECUTE format('DELETE FROM %I.%I WHERE "id" = $1', TG_TABLE_SCHEMA, TG_TABLE_NAME || 'Search') USING OLD."id";
  END IF;
  IF TG_OP <> 'DELETE' THEN
    EXECUTE format('INSERT INTO %I.%I ("id", "words") VALUES ($1, $2)', TG_TABLE_SCHEMA, TG_TABLE_NAME || 'Search')
    USING NEW."id", NEW."searchKey";
  END IF;
  RETURN NULL;
END
$$;

-- A line break parts the codes: no typed word holds one.
CREATE FUNCTION "search_keep_part"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  "changed" integer[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN
    "changed" := "changed" || CASE TG_TABLE_NAME WHEN 'Part' THEN (to_jsonb(OLD)->>'id')::integer ELSE (to_jsonb(OLD)->>'partId')::integer END;
  END IF;
  IF TG_OP <> 'DELETE' THEN
    "changed" := "changed" || CASE TG_TABLE_NAME WHEN 'Part' THEN (to_jsonb(NEW)->>'id')::integer ELSE (to_jsonb(NEW)->>'partId')::integer END;
  END IF;
  EXECUTE format('DELETE FROM %I."PartSearch" WHERE "id" = ANY ($1)', TG_TABLE_SCHEMA) USING "changed";
  EXECUTE format($insert$INSERT INTO %1$I."PartSearch" ("id", "words", "size")
    SELECT p."id", p."searchKey" || coalesce(chr(10) || (SELECT string_agg(s."codeKey", chr(10)) FROM %1$I."PartSupplier" s WHERE s."partId" = p."id"), ''), p."sizeMilli"
    FROM %1$I."Part" p WHERE p."id" = ANY ($1)$insert$, TG_TABLE_SCHEMA) USING "changed";
  RETURN NULL;
END
$$;

CREATE TRIGGER "Customer_search" AFTER INSERT OR DELETE ON "Customer"
FOR EACH ROW EXECUTE FUNCTION "search_keep"();
CREATE TRIGGER "Customer_search_update" AFTER UPDATE ON "Customer"
FOR EACH ROW WHEN (NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey")
EXECUTE FUNCTION "search_keep"();
INSERT INTO "CustomerSearch" ("id", "words") SELECT "id", "searchKey" FROM "Customer";

CREATE TRIGGER "Bike_search" AFTER INSERT OR DELETE ON "Bike"
FOR EACH ROW EXECUTE FUNCTION "search_keep"();
CREATE TRIGGER "Bike_search_update" AFTER UPDATE ON "Bike"
FOR EACH ROW WHEN (NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey")
EXECUTE FUNCTION "search_keep"();
INSERT INTO "BikeSearch" ("id", "words") SELECT "id", "searchKey" FROM "Bike";

CREATE TRIGGER "Quote_search" AFTER INSERT OR DELETE ON "Quote"
FOR EACH ROW EXECUTE FUNCTION "search_keep"();
CREATE TRIGGER "Quote_search_update" AFTER UPDATE ON "Quote"
FOR EACH ROW WHEN (NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey")
EXECUTE FUNCTION "search_keep"();
INSERT INTO "QuoteSearch" ("id", "words") SELECT "id", "searchKey" FROM "Quote";

CREATE TRIGGER "Job_search" AFTER INSERT OR DELETE ON "Job"
FOR EACH ROW EXECUTE FUNCTION "search_keep"();
CREATE TRIGGER "Job_search_update" AFTER UPDATE ON "Job"
FOR EACH ROW WHEN (NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey")
EXECUTE FUNCTION "search_keep"();
INSERT INTO "JobSearch" ("id", "words") SELECT "id", "searchKey" FROM "Job";

CREATE TRIGGER "Invoice_search" AFTER INSERT OR DELETE ON "Invoice"
FOR EACH ROW EXECUTE FUNCTION "search_keep"();
CREATE TRIGGER "Invoice_search_update" AFTER UPDATE ON "Invoice"
FOR EACH ROW WHEN (NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey")
EXECUTE FUNCTION "search_keep"();
INSERT INTO "InvoiceSearch" ("id", "words") SELECT "id", "searchKey" FROM "Invoice";

CREATE TRIGGER "Part_search" AFTER INSERT OR DELETE ON "Part"
FOR EACH ROW EXECUTE FUNCTION "search_keep_part"();
CREATE TRIGGER "Part_search_update" AFTER UPDATE ON "Part"
FOR EACH ROW WHEN (NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey" OR NEW."sizeMilli" IS DISTINCT FROM OLD."sizeMilli")
EXECUTE FUNCTION "search_keep_part"();
CREATE TRIGGER "PartSupplier_search" AFTER INSERT OR DELETE ON "PartSupplier"
FOR EACH ROW EXECUTE FUNCTION "search_keep_part"();
CREATE TRIGGER "PartSupplier_search_update" AFTER UPDATE ON "PartSupplier"
FOR EACH ROW WHEN (NEW."partId" <> OLD."partId" OR NEW."codeKey" <> OLD."codeKey")
EXECUTE FUNCTION "search_keep_part"();
INSERT INTO "PartSearch" ("id", "words", "size")
SELECT p."id", p."searchKey" || coalesce(chr(10) || (SELECT string_agg(s."codeKey", chr(10)) FROM "PartSupplier" s WHERE s."partId" = p."id"), ''), p."sizeMilli"
FROM "Part" p;

-- The trigram indexes need the extension pg_trgm. It is one per database and the shops are schemas, so it stands in a
-- schema that is no shop's (no shop's name holds a hyphen) and outlives every shop; its operator class is named with that
-- schema, since no search path holds it. Where the server does not let us make it, searching finds the same and scans
-- for it; once an administrator has made it (CREATE EXTENSION pg_trgm), the next start makes the indexes by this function.
CREATE FUNCTION "search_index"() RETURNS boolean LANGUAGE plpgsql AS $$
DECLARE
  "place" text;
  "noun" text;
BEGIN
  IF NOT EXISTS (SELECT 1 FROM pg_extension WHERE extname = 'pg_trgm') THEN
    -- Two shops may be made at once, and the second finds it made.
    PERFORM pg_advisory_xact_lock(hashtext('throttlewright pg_trgm'));
    CREATE SCHEMA IF NOT EXISTS "shared-trigrams";
    CREATE EXTENSION IF NOT EXISTS pg_trgm WITH SCHEMA "shared-trigrams";
  END IF;
  SELECT nspname INTO "place" FROM pg_extension JOIN pg_namespace n ON n.oid = extnamespace WHERE extname = 'pg_trgm';
  FOREACH "noun" IN ARRAY ARRAY['Customer', 'Bike', 'Quote', 'Job', 'Invoice', 'Part'] LOOP
    -- Without fastupdate, because its list of pending rows is read through at every search until a vacuum comes.
    -- Asked first, because CREATE INDEX waits for writers even where IF NOT EXISTS finds it.
    IF to_regclass(format('%I.%I', current_schema(), "noun" || 'Search_words_idx')) IS NULL THEN
      EXECUTE format('CREATE INDEX %I ON %I USING gin ("words" %I.gin_trgm_ops) WITH (fastupdate = off)', "noun" || 'Search_words_idx', "noun" || 'Search', "place");
    END IF;
  END LOOP;
  RETURN true;
EXCEPTION WHEN insufficient_privilege OR feature_not_supported OR undefined_file THEN
  RETURN false;
END
$$;

SELECT "search_index"();
