-- CreateTable
CREATE TABLE "Photo" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "file" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "bytes" INTEGER NOT NULL,
    "caption" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "removedAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "MailAttachment" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "mailId" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "form" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "printed" JSONB
);

-- CreateIndex
CREATE UNIQUE INDEX "Photo_file_key" ON "Photo"("file");

-- CreateIndex
CREATE INDEX "Photo_noun_nounId_idx" ON "Photo"("noun", "nounId");

-- CreateIndex
CREATE INDEX "Photo_removedAt_idx" ON "Photo"("removedAt");

-- CreateIndex
CREATE INDEX "MailAttachment_mailId_idx" ON "MailAttachment"("mailId");

-- A photo is of one of four things, and stays the picture that it is.
CREATE TRIGGER "Photo_noun_words" BEFORE INSERT ON "Photo"
WHEN NEW."noun" NOT IN ('part', 'bike', 'step', 'finding')
BEGIN SELECT RAISE(ABORT, 'Photo.noun is not one of its words'); END;

CREATE TRIGGER "Photo_picture_stays" BEFORE UPDATE ON "Photo"
WHEN NEW."noun" IS NOT OLD."noun" OR NEW."nounId" IS NOT OLD."nounId"
  OR NEW."file" IS NOT OLD."file" OR NEW."hash" IS NOT OLD."hash"
BEGIN SELECT RAISE(ABORT, 'A photo stays the picture that it is'); END;

-- What goes with a letter is settled when the letter is written.
CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
WHEN NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking') OR NEW."form" NOT IN ('pdf', 'csv', 'ics')
BEGIN SELECT RAISE(ABORT, 'MailAttachment names no document'); END;

CREATE TRIGGER "MailAttachment_stays" BEFORE UPDATE ON "MailAttachment"
BEGIN SELECT RAISE(ABORT, 'What goes with a letter never changes'); END;
