-- A quote is a list of works: every revision so far is one package under the empty key.
CREATE TYPE "WorkKind" AS ENUM ('package', 'written', 'parts', 'text');

CREATE TABLE "QuoteWork" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "key" TEXT NOT NULL DEFAULT '',
    "kind" "WorkKind" NOT NULL,
    "packageRevisionId" INTEGER,
    "data" JSONB,

    CONSTRAINT "QuoteWork_pkey" PRIMARY KEY ("id")
);

INSERT INTO "QuoteWork" ("revisionId", "position", "key", "kind", "packageRevisionId")
SELECT "id", 1, '', 'package', "packageRevisionId" FROM "QuoteRevision" ORDER BY "id";

ALTER TABLE "QuoteRevision" DROP CONSTRAINT "QuoteRevision_packageRevisionId_fkey";
DROP INDEX "QuoteRevision_packageRevisionId_idx";
ALTER TABLE "QuoteRevision" DROP COLUMN "packageRevisionId";

CREATE INDEX "QuoteWork_packageRevisionId_idx" ON "QuoteWork"("packageRevisionId");
CREATE UNIQUE INDEX "QuoteWork_revisionId_key_key" ON "QuoteWork"("revisionId", "key");
ALTER TABLE "QuoteWork" ADD CONSTRAINT "QuoteWork_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "QuoteWork" ADD CONSTRAINT "QuoteWork_packageRevisionId_fkey" FOREIGN KEY ("packageRevisionId") REFERENCES "PackageRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A function's body is read when it runs, so it names its schema by the trigger's own table.
CREATE FUNCTION "work_frozen"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  "frozen" boolean;
BEGIN
  EXECUTE format('SELECT EXISTS (SELECT 1 FROM %I."QuoteRevision" WHERE "id" = $1 AND "frozen" IS NOT NULL)', TG_TABLE_SCHEMA)
  INTO "frozen" USING OLD."revisionId";
  IF "frozen" THEN
    RAISE EXCEPTION 'A frozen revision never changes: make the next one';
  END IF;
  IF TG_OP = 'DELETE' THEN
    RETURN OLD;
  END IF;
  RETURN NEW;
END
$$;

CREATE TRIGGER "QuoteWork_frozen_stays" BEFORE UPDATE OR DELETE ON "QuoteWork"
FOR EACH ROW EXECUTE FUNCTION "work_frozen"();
