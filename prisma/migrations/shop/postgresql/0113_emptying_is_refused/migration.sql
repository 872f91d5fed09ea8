-- Tables that only grow are kept from being emptied at once as well, like their neighbours; SQLite has no TRUNCATE.
CREATE TRIGGER "VacuumReading_only_grows_whole" BEFORE TRUNCATE ON "VacuumReading"
FOR EACH STATEMENT EXECUTE FUNCTION "refuse"('VacuumReading only grows: read the gauges again instead');

CREATE TRIGGER "VacuumBalance_only_grows_whole" BEFORE TRUNCATE ON "VacuumBalance"
FOR EACH STATEMENT EXECUTE FUNCTION "refuse"('VacuumBalance only grows: read the gauges again instead');
