-- FTS5 merges a segment by itself once a tenth of it is deleted: one changed row of a large import then took up to 200 ms. What is
-- deleted is merged away in short steps instead (lib/db/searchMerge.ts).
INSERT INTO "CustomerSearch" ("CustomerSearch", rank) VALUES ('deletemerge', 0);
INSERT INTO "BikeSearch" ("BikeSearch", rank) VALUES ('deletemerge', 0);
INSERT INTO "QuoteSearch" ("QuoteSearch", rank) VALUES ('deletemerge', 0);
INSERT INTO "JobSearch" ("JobSearch", rank) VALUES ('deletemerge', 0);
INSERT INTO "InvoiceSearch" ("InvoiceSearch", rank) VALUES ('deletemerge', 0);
INSERT INTO "PartSearch" ("PartSearch", rank) VALUES ('deletemerge', 0);
