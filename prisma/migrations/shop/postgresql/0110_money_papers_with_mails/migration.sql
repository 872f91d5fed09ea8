-- Deposit requests and receipts of payments go with mails too.
DROP TRIGGER "MailAttachment_words" ON "MailAttachment";

CREATE TRIGGER "MailAttachment_words" BEFORE INSERT ON "MailAttachment"
FOR EACH ROW WHEN (NEW."noun" NOT IN ('quote', 'invoice', 'order', 'booking', 'statement', 'reminder', 'money')
  OR NEW."form" NOT IN ('pdf', 'csv', 'ics', 'xml'))
EXECUTE FUNCTION "refuse"('MailAttachment names no document');
