-- Guards that the schema language cannot say: ledgers that only grow, documents that never change. The words of an
-- enum need none here: they are types. No name is qualified: the search path says which schema this is made in.

CREATE FUNCTION "refuse"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '%', TG_ARGV[0];
END
$$;

CREATE FUNCTION "only_grows"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% only grows: write a new row instead', TG_TABLE_NAME;
END
$$;

CREATE TRIGGER "Move_only_grows" BEFORE UPDATE OR DELETE ON "Move"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Move_only_grows_whole" BEFORE TRUNCATE ON "Move"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Reading_only_grows" BEFORE UPDATE OR DELETE ON "Reading"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Reading_only_grows_whole" BEFORE TRUNCATE ON "Reading"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "AuditEntry_only_grows" BEFORE UPDATE OR DELETE ON "AuditEntry"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "AuditEntry_only_grows_whole" BEFORE TRUNCATE ON "AuditEntry"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Payment_only_grows" BEFORE UPDATE OR DELETE ON "Payment"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Payment_only_grows_whole" BEFORE TRUNCATE ON "Payment"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Acceptance_only_grows" BEFORE UPDATE OR DELETE ON "Acceptance"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Acceptance_only_grows_whole" BEFORE TRUNCATE ON "Acceptance"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" = 'issued' AND (
  NEW."state" IS DISTINCT FROM OLD."state" OR
  NEW."kind" IS DISTINCT FROM OLD."kind" OR
  NEW."number" IS DISTINCT FROM OLD."number" OR
  NEW."frozen" IS DISTINCT FROM OLD."frozen" OR
  NEW."hash" IS DISTINCT FROM OLD."hash" OR
  NEW."issuedOn" IS DISTINCT FROM OLD."issuedOn" OR
  NEW."netMinor" IS DISTINCT FROM OLD."netMinor" OR
  NEW."taxMinor" IS DISTINCT FROM OLD."taxMinor" OR
  NEW."grossMinor" IS DISTINCT FROM OLD."grossMinor" OR
  NEW."prepaidMinor" IS DISTINCT FROM OLD."prepaidMinor" OR
  NEW."customerId" IS DISTINCT FROM OLD."customerId" OR
  NEW."jobId" IS DISTINCT FROM OLD."jobId"))
EXECUTE FUNCTION "refuse"('An issued document never changes: write a credit note');

CREATE TRIGGER "Invoice_never_goes" BEFORE DELETE ON "Invoice"
FOR EACH ROW WHEN (OLD."state" = 'issued')
EXECUTE FUNCTION "refuse"('An issued document never goes: write a credit note');

CREATE TRIGGER "QuoteRevision_frozen_stays" BEFORE UPDATE ON "QuoteRevision"
FOR EACH ROW WHEN (OLD."frozen" IS NOT NULL AND (
  NEW."frozen" IS DISTINCT FROM OLD."frozen" OR
  NEW."hash" IS DISTINCT FROM OLD."hash" OR
  NEW."choices" IS DISTINCT FROM OLD."choices" OR
  NEW."conditions" IS DISTINCT FROM OLD."conditions" OR
  NEW."grossMinor" IS DISTINCT FROM OLD."grossMinor"))
EXECUTE FUNCTION "refuse"('A frozen revision never changes: make the next one');

CREATE TRIGGER "PackageRevision_published_stays" BEFORE UPDATE OF "recipe" ON "PackageRevision"
FOR EACH ROW WHEN (OLD."state" = 'published' AND NEW."recipe" IS DISTINCT FROM OLD."recipe")
EXECUTE FUNCTION "refuse"('A published revision never changes: make the next one');

CREATE TRIGGER "Part_never_oversold" BEFORE UPDATE ON "Part"
FOR EACH ROW WHEN (
  NEW."onHandMilli" < 0 OR NEW."reservedMilli" < 0 OR
  NEW."reservedMilli" > NEW."onHandMilli"::bigint + NEW."onOrderMilli")
EXECUTE FUNCTION "refuse"('Part promised or used beyond what there is');

-- A function's body is read when it runs, so it names its schema by the trigger's own table.
CREATE FUNCTION "one_running"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  "running" boolean;
BEGIN
  EXECUTE format('SELECT EXISTS (SELECT 1 FROM %I.%I WHERE "staffId" = $1 AND "endedAt" IS NULL)', TG_TABLE_SCHEMA, TG_TABLE_NAME)
  INTO "running" USING NEW."staffId";
  IF "running" THEN
    RAISE EXCEPTION 'This person has a running time entry';
  END IF;
  RETURN NEW;
END
$$;

CREATE TRIGGER "TimeEntry_one_running" BEFORE INSERT ON "TimeEntry"
FOR EACH ROW WHEN (NEW."endedAt" IS NULL)
EXECUTE FUNCTION "one_running"();

CREATE TRIGGER "TimeEntry_forward" BEFORE UPDATE ON "TimeEntry"
FOR EACH ROW WHEN (NEW."endedAt" IS NOT NULL AND NEW."endedAt" < NEW."startedAt")
EXECUTE FUNCTION "refuse"('A time entry ends after it starts');
