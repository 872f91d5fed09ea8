-- Deposit requests and receipts of payments go with mails too.
DROP TRIGGER "MailAttachment_words";

CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
WHEN NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking', 'statement', 'reminder', 'money')
  OR NEW."form" NOT IN ('pdf', 'csv', 'ics', 'xml')
BEGIN SELECT RAISE(ABORT, 'MailAttachment names no document'); END;
