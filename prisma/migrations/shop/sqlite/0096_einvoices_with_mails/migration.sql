-- An e-invoice goes with its invoice's mail as a file of its own.
DROP TRIGGER "MailAttachment_words";

CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
WHEN NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking', 'statement', 'reminder')
  OR NEW."form" NOT IN ('pdf', 'csv', 'ics', 'xml')
BEGIN SELECT RAISE(ABORT, 'MailAttachment names no document'); END;
