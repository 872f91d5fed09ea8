-- A quote is a list of works: every revision so far is one package under the empty key.
CREATE TABLE "QuoteWork" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "revisionId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "key" TEXT NOT NULL DEFAULT '',
    "kind" TEXT NOT NULL,
    "packageRevisionId" INTEGER,
    "data" JSONB,
    CONSTRAINT "QuoteWork_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "QuoteWork_packageRevisionId_fkey" FOREIGN KEY ("packageRevisionId") REFERENCES "PackageRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

INSERT INTO "QuoteWork" ("revisionId", "position", "key", "kind", "packageRevisionId")
SELECT "id", 1, '', 'package', "packageRevisionId" FROM "QuoteRevision" ORDER BY "id";

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_QuoteRevision" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "quoteId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "choices" JSONB NOT NULL,
    "conditions" JSONB NOT NULL,
    "terms" JSONB,
    "facts" JSONB,
    "frozen" JSONB,
    "belowMargin" JSONB,
    "hash" TEXT,
    "frozenAt" DATETIME,
    "netMinor" INTEGER NOT NULL DEFAULT 0,
    "taxMinor" INTEGER NOT NULL DEFAULT 0,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "depositMinor" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "QuoteRevision_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_QuoteRevision" ("belowMargin", "choices", "conditions", "createdAt", "depositMinor", "facts", "frozen", "frozenAt", "grossMinor", "hash", "id", "minutes", "netMinor", "number", "quoteId", "taxMinor", "terms") SELECT "belowMargin", "choices", "conditions", "createdAt", "depositMinor", "facts", "frozen", "frozenAt", "grossMinor", "hash", "id", "minutes", "netMinor", "number", "quoteId", "taxMinor", "terms" FROM "QuoteRevision";
DROP TABLE "QuoteRevision";
ALTER TABLE "new_QuoteRevision" RENAME TO "QuoteRevision";
CREATE UNIQUE INDEX "QuoteRevision_quoteId_number_key" ON "QuoteRevision"("quoteId", "number");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

CREATE INDEX "QuoteWork_packageRevisionId_idx" ON "QuoteWork"("packageRevisionId");
CREATE UNIQUE INDEX "QuoteWork_revisionId_key_key" ON "QuoteWork"("revisionId", "key");

-- Guards that the schema language cannot say; the first stood on the table that was made anew.
CREATE TRIGGER "QuoteRevision_frozen_stays" BEFORE UPDATE ON "QuoteRevision"
WHEN OLD."frozen" IS NOT NULL AND (
  NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR NEW."choices" IS NOT OLD."choices" OR
  NEW."conditions" IS NOT OLD."conditions" OR NEW."grossMinor" IS NOT OLD."grossMinor")
BEGIN SELECT RAISE(ABORT, 'A frozen revision never changes: make the next one'); END;

CREATE TRIGGER "QuoteWork_kind_words_insert" BEFORE INSERT ON "QuoteWork"
WHEN NEW."kind" NOT IN ('package', 'written', 'parts', 'text')
BEGIN SELECT RAISE(ABORT, 'QuoteWork.kind is not one of its words'); END;

CREATE TRIGGER "QuoteWork_kind_words_update" BEFORE UPDATE OF "kind" ON "QuoteWork"
WHEN NEW."kind" NOT IN ('package', 'written', 'parts', 'text')
BEGIN SELECT RAISE(ABORT, 'QuoteWork.kind is not one of its words'); END;

CREATE TRIGGER "QuoteWork_frozen_stays" BEFORE UPDATE ON "QuoteWork"
WHEN EXISTS (SELECT 1 FROM "QuoteRevision" WHERE "id" = OLD."revisionId" AND "frozen" IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'A frozen revision never changes: make the next one'); END;

CREATE TRIGGER "QuoteWork_frozen_remains" BEFORE DELETE ON "QuoteWork"
WHEN EXISTS (SELECT 1 FROM "QuoteRevision" WHERE "id" = OLD."revisionId" AND "frozen" IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'A frozen revision never changes: make the next one'); END;
