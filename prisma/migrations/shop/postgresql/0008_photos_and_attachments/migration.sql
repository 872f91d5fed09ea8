-- CreateTable
CREATE TABLE "Photo" (
    "id" SERIAL NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "file" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "bytes" INTEGER NOT NULL,
    "caption" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "removedAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Photo_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "MailAttachment" (
    "id" SERIAL NOT NULL,
    "mailId" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER NOT NULL,
    "form" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "printed" JSONB,

    CONSTRAINT "MailAttachment_pkey" PRIMARY KEY ("id")
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
FOR EACH ROW WHEN (NEW."noun" NOT IN ('part', 'bike', 'step', 'finding'))
EXECUTE FUNCTION "refuse"('Photo.noun is not one of its words');

CREATE TRIGGER "Photo_picture_stays" BEFORE UPDATE ON "Photo"
FOR EACH ROW WHEN (
  NEW."noun" IS DISTINCT FROM OLD."noun" OR
  NEW."nounId" IS DISTINCT FROM OLD."nounId" OR
  NEW."file" IS DISTINCT FROM OLD."file" OR
  NEW."hash" IS DISTINCT FROM OLD."hash")
EXECUTE FUNCTION "refuse"('A photo stays the picture that it is');

-- What goes with a letter is settled when the letter is written.
CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
FOR EACH ROW WHEN (NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking') OR NEW."form" NOT IN ('pdf', 'csv', 'ics'))
EXECUTE FUNCTION "refuse"('MailAttachment names no document');

CREATE TRIGGER "MailAttachment_stays" BEFORE UPDATE ON "MailAttachment"
FOR EACH ROW EXECUTE FUNCTION "refuse"('What goes with a letter never changes');
