DROP TRIGGER "Payment_kind_words_insert";
DROP TRIGGER "Payment_kind_words_update";

CREATE TRIGGER "Payment_kind_words_insert" BEFORE INSERT ON "Payment"
WHEN NEW."kind" NOT IN ('deposit', 'payment', 'refund', 'writeOff', 'bounced', 'overpayment')
BEGIN SELECT RAISE(ABORT, 'Payment.kind is not one of its words'); END;

CREATE TRIGGER "Payment_kind_words_update" BEFORE UPDATE OF "kind" ON "Payment"
WHEN NEW."kind" NOT IN ('deposit', 'payment', 'refund', 'writeOff', 'bounced', 'overpayment')
BEGIN SELECT RAISE(ABORT, 'Payment.kind is not one of its words'); END;
