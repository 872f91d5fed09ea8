-- CreateTable
CREATE TABLE "BooksClosing" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "throughDay" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "personName" TEXT NOT NULL,
    "at" DATETIME NOT NULL
);

-- Guards that the schema language cannot say.
CREATE TRIGGER "BooksClosing_words" BEFORE INSERT ON "BooksClosing"
WHEN NEW."act" NOT IN ('closed', 'reopened') OR NOT (NEW."throughDay" = '' OR NEW."throughDay" GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]-[0-3][0-9]')
BEGIN SELECT RAISE(ABORT, 'BooksClosing.act or throughDay is not one of its words'); END;

CREATE TRIGGER "BooksClosing_only_grows_update" BEFORE UPDATE ON "BooksClosing"
BEGIN SELECT RAISE(ABORT, 'BooksClosing only grows: write a new row instead'); END;

CREATE TRIGGER "BooksClosing_only_grows_delete" BEFORE DELETE ON "BooksClosing"
BEGIN SELECT RAISE(ABORT, 'BooksClosing only grows: write a new row instead'); END;

-- Whichever way a document or money is written: none is dated inside a closed period.
CREATE TRIGGER "Invoice_in_open_period_insert" BEFORE INSERT ON "Invoice"
WHEN NEW."state" = 'issued' AND NEW."issuedOn" <= (SELECT "throughDay" FROM "BooksClosing" ORDER BY "id" DESC LIMIT 1)
BEGIN SELECT RAISE(ABORT, 'The day lies in a closed period'); END;

CREATE TRIGGER "Invoice_in_open_period_update" BEFORE UPDATE ON "Invoice"
WHEN OLD."state" <> 'issued' AND NEW."state" = 'issued' AND
  NEW."issuedOn" <= (SELECT "throughDay" FROM "BooksClosing" ORDER BY "id" DESC LIMIT 1)
BEGIN SELECT RAISE(ABORT, 'The day lies in a closed period'); END;

CREATE TRIGGER "Payment_in_open_period" BEFORE INSERT ON "Payment"
WHEN NEW."paidOn" <= (SELECT "throughDay" FROM "BooksClosing" ORDER BY "id" DESC LIMIT 1)
BEGIN SELECT RAISE(ABORT, 'The day lies in a closed period'); END;
