-- Guards that the schema language cannot say: ledgers that only grow. The words of an
-- enum need none here: they are types. No name is qualified: the search path says which schema this is made in.

CREATE FUNCTION "only_grows"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% only grows: write a new row instead', TG_TABLE_NAME;
END
$$;

CREATE TRIGGER "SecurityEvent_only_grows" BEFORE UPDATE OR DELETE ON "SecurityEvent"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "SecurityEvent_only_grows_whole" BEFORE TRUNCATE ON "SecurityEvent"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
