-- What a record is found by, as trigrams: a substring of three letters or more is a look-up, not a scan. A table of its
-- own for each noun, because that was measured to be quicker than one for all, both to write and to ask. They hold no
-- text (content=''), only where each trigram stands; keys are folded already, so cases are told apart. A row stands under
-- the negative of its record's id: trigrams are walked upwards, and so the newest come first. A word of two letters is
-- found by all trigrams that begin with it: the vocabulary tables (fts5vocab reads the index and stores nothing) tell
-- which there are, and the line break at the end of a text gives its last two letters a trigram too.
-- A migration that ever builds one of these nouns' tables anew must make its triggers anew too. lib/db/engine.ts names
-- the tables made here to the schema engine.

CREATE VIRTUAL TABLE "CustomerSearch" USING fts5("words", content='', contentless_delete=1, tokenize='trigram case_sensitive 1');
CREATE VIRTUAL TABLE "CustomerTrigram" USING fts5vocab("CustomerSearch", 'row');

CREATE TRIGGER "Customer_search_insert" AFTER INSERT ON "Customer"
BEGIN INSERT INTO "CustomerSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10)); END;

CREATE TRIGGER "Customer_search_update" AFTER UPDATE OF "id", "searchKey" ON "Customer"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey"
BEGIN
  DELETE FROM "CustomerSearch" WHERE rowid = -OLD."id";
  INSERT INTO "CustomerSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10));
END;

CREATE TRIGGER "Customer_search_delete" AFTER DELETE ON "Customer"
BEGIN DELETE FROM "CustomerSearch" WHERE rowid = -OLD."id"; END;

INSERT INTO "CustomerSearch" (rowid, "words") SELECT -"id", "searchKey" || char(10) FROM "Customer" ORDER BY "id" DESC;
INSERT INTO "CustomerSearch" ("CustomerSearch") VALUES ('optimize');

CREATE VIRTUAL TABLE "BikeSearch" USING fts5("words", content='', contentless_delete=1, tokenize='trigram case_sensitive 1');
CREATE VIRTUAL TABLE "BikeTrigram" USING fts5vocab("BikeSearch", 'row');

CREATE TRIGGER "Bike_search_insert" AFTER INSERT ON "Bike"
BEGIN INSERT INTO "BikeSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10)); END;

CREATE TRIGGER "Bike_search_update" AFTER UPDATE OF "id", "searchKey" ON "Bike"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey"
BEGIN
  DELETE FROM "BikeSearch" WHERE rowid = -OLD."id";
  INSERT INTO "BikeSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10));
END;

CREATE TRIGGER "Bike_search_delete" AFTER DELETE ON "Bike"
BEGIN DELETE FROM "BikeSearch" WHERE rowid = -OLD."id"; END;

INSERT INTO "BikeSearch" (rowid, "words") SELECT -"id", "searchKey" || char(10) FROM "Bike" ORDER BY "id" DESC;
INSERT INTO "BikeSearch" ("BikeSearch") VALUES ('optimize');

CREATE VIRTUAL TABLE "QuoteSearch" USING fts5("words", content='', contentless_delete=1, tokenize='trigram case_sensitive 1');
CREATE VIRTUAL TABLE "QuoteTrigram" USING fts5vocab("QuoteSearch", 'row');

CREATE TRIGGER "Quote_search_insert" AFTER INSERT ON "Quote"
BEGIN INSERT INTO "QuoteSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10)); END;

CREATE TRIGGER "Quote_search_update" AFTER UPDATE OF "id", "searchKey" ON "Quote"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey"
BEGIN
  DELETE FROM "QuoteSearch" WHERE rowid = -OLD."id";
  INSERT INTO "QuoteSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10));
END;

CREATE TRIGGER "Quote_search_delete" AFTER DELETE ON "Quote"
BEGIN DELETE FROM "QuoteSearch" WHERE rowid = -OLD."id"; END;

INSERT INTO "QuoteSearch" (rowid, "words") SELECT -"id", "searchKey" || char(10) FROM "Quote" ORDER BY "id" DESC;
INSERT INTO "QuoteSearch" ("QuoteSearch") VALUES ('optimize');

CREATE VIRTUAL TABLE "JobSearch" USING fts5("words", content='', contentless_delete=1, tokenize='trigram case_sensitive 1');
CREATE VIRTUAL TABLE "JobTrigram" USING fts5vocab("JobSearch", 'row');

CREATE TRIGGER "Job_search_insert" AFTER INSERT ON "Job"
BEGIN INSERT INTO "JobSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10)); END;

CREATE TRIGGER "Job_search_update" AFTER UPDATE OF "id", "searchKey" ON "Job"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey"
BEGIN
  DELETE FROM "JobSearch" WHERE rowid = -OLD."id";
  INSERT INTO "JobSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10));
END;

CREATE TRIGGER "Job_search_delete" AFTER DELETE ON "Job"
BEGIN DELETE FROM "JobSearch" WHERE rowid = -OLD."id"; END;

INSERT INTO "JobSearch" (rowid, "words") SELECT -"id", "searchKey" || char(10) FROM "Job" ORDER BY "id" DESC;
INSERT INTO "JobSearch" ("JobSearch") VALUES ('optimize');

CREATE VIRTUAL TABLE "InvoiceSearch" USING fts5("words", content='', contentless_delete=1, tokenize='trigram case_sensitive 1');
CREATE VIRTUAL TABLE "InvoiceTrigram" USING fts5vocab("InvoiceSearch", 'row');

CREATE TRIGGER "Invoice_search_insert" AFTER INSERT ON "Invoice"
BEGIN INSERT INTO "InvoiceSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10)); END;

CREATE TRIGGER "Invoice_search_update" AFTER UPDATE OF "id", "searchKey" ON "Invoice"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey"
BEGIN
  DELETE FROM "InvoiceSearch" WHERE rowid = -OLD."id";
  INSERT INTO "InvoiceSearch" (rowid, "words") VALUES (-NEW."id", NEW."searchKey" || char(10));
END;

CREATE TRIGGER "Invoice_search_delete" AFTER DELETE ON "Invoice"
BEGIN DELETE FROM "InvoiceSearch" WHERE rowid = -OLD."id"; END;

INSERT INTO "InvoiceSearch" (rowid, "words") SELECT -"id", "searchKey" || char(10) FROM "Invoice" ORDER BY "id" DESC;
INSERT INTO "InvoiceSearch" ("InvoiceSearch") VALUES ('optimize');

-- A part is found by every supplier's code for it too, and by its size. A line break parts the codes: no typed word holds one.
CREATE VIRTUAL TABLE "PartSearch" USING fts5("words", "size", content='', contentless_delete=1, tokenize='trigram case_sensitive 1');
CREATE VIRTUAL TABLE "PartTrigram" USING fts5vocab("PartSearch", 'row');

CREATE TRIGGER "Part_search_insert" AFTER INSERT ON "Part"
BEGIN INSERT INTO "PartSearch" (rowid, "words", "size") VALUES (-NEW."id", NEW."searchKey" || char(10), '=' || NEW."sizeMilli" || '='); END;

CREATE TRIGGER "Part_search_update" AFTER UPDATE OF "id", "searchKey", "sizeMilli" ON "Part"
WHEN NEW."id" <> OLD."id" OR NEW."searchKey" <> OLD."searchKey" OR NEW."sizeMilli" IS NOT OLD."sizeMilli"
BEGIN
  DELETE FROM "PartSearch" WHERE rowid = -OLD."id";
  INSERT INTO "PartSearch" (rowid, "words", "size")
  SELECT -"id", "searchKey" || char(10) || coalesce((SELECT group_concat("codeKey" || char(10), '') FROM "PartSupplier" WHERE "partId" = "Part"."id"), ''), '=' || "sizeMilli" || '='
  FROM "Part" WHERE "id" = NEW."id";
END;

CREATE TRIGGER "Part_search_delete" AFTER DELETE ON "Part"
BEGIN DELETE FROM "PartSearch" WHERE rowid = -OLD."id"; END;

CREATE TRIGGER "PartSupplier_search_insert" AFTER INSERT ON "PartSupplier" WHEN NEW."codeKey" <> ''
BEGIN
  DELETE FROM "PartSearch" WHERE rowid = -NEW."partId";
  INSERT INTO "PartSearch" (rowid, "words", "size")
  SELECT -"id", "searchKey" || char(10) || coalesce((SELECT group_concat("codeKey" || char(10), '') FROM "PartSupplier" WHERE "partId" = "Part"."id"), ''), '=' || "sizeMilli" || '='
  FROM "Part" WHERE "id" = NEW."partId";
END;

CREATE TRIGGER "PartSupplier_search_update" AFTER UPDATE OF "partId", "codeKey" ON "PartSupplier"
WHEN NEW."partId" <> OLD."partId" OR NEW."codeKey" <> OLD."codeKey"
BEGIN
  DELETE FROM "PartSearch" WHERE rowid = -OLD."partId";
  INSERT INTO "PartSearch" (rowid, "words", "size")
  SELECT -"id", "searchKey" || char(10) || coalesce((SELECT group_concat("codeKey" || char(10), '') FROM "PartSupplier" WHERE "partId" = "Part"."id"), ''), '=' || "sizeMilli" || '='
  FROM "Part" WHERE "id" = OLD."partId";
  DELETE FROM "PartSearch" WHERE rowid = -NEW."partId";
  INSERT INTO "PartSearch" (rowid, "words", "size")
  SELECT -"id", "searchKey" || char(10) || coalesce((SELECT group_concat("codeKey" || char(10), '') FROM "PartSupplier" WHERE "partId" = "Part"."id"), ''), '=' || "sizeMilli" || '='
  FROM "Part" WHERE "id" = NEW."partId";
END;

CREATE TRIGGER "PartSupplier_search_delete" AFTER DELETE ON "PartSupplier" WHEN OLD."codeKey" <> ''
BEGIN
  DELETE FROM "PartSearch" WHERE rowid = -OLD."partId";
  INSERT INTO "PartSearch" (rowid, "words", "size")
  SELECT -"id", "searchKey" || char(10) || coalesce((SELECT group_concat("codeKey" || char(10), '') FROM "PartSupplier" WHERE "partId" = "Part"."id"), ''), '=' || "sizeMilli" || '='
  FROM "Part" WHERE "id" = OLD."partId";
END;

INSERT INTO "PartSearch" (rowid, "words", "size")
SELECT -"id", "searchKey" || char(10) || coalesce((SELECT group_concat("codeKey" || char(10), '') FROM "PartSupplier" WHERE "partId" = "Part"."id"), ''), '=' || "sizeMilli" || '='
FROM "Part" ORDER BY "id" DESC;
INSERT INTO "PartSearch" ("PartSearch") VALUES ('optimize');
