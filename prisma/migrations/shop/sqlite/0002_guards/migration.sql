-- Guards that the schema language cannot say: words an enum allows, ledgers that only grow, documents that never change.

CREATE TRIGGER "SettingSheet_kind_words_insert" BEFORE INSERT ON "SettingSheet"
WHEN NEW."kind" NOT IN ('asFound', 'target', 'asLeft')
BEGIN SELECT RAISE(ABORT, 'SettingSheet.kind is not one of its words'); END;

CREATE TRIGGER "SettingSheet_kind_words_update" BEFORE UPDATE OF "kind" ON "SettingSheet"
WHEN NEW."kind" NOT IN ('asFound', 'target', 'asLeft')
BEGIN SELECT RAISE(ABORT, 'SettingSheet.kind is not one of its words'); END;

CREATE TRIGGER "FollowUp_state_words_insert" BEFORE INSERT ON "FollowUp"
WHEN NEW."state" NOT IN ('due', 'done', 'dropped')
BEGIN SELECT RAISE(ABORT, 'FollowUp.state is not one of its words'); END;

CREATE TRIGGER "FollowUp_state_words_update" BEFORE UPDATE OF "state" ON "FollowUp"
WHEN NEW."state" NOT IN ('due', 'done', 'dropped')
BEGIN SELECT RAISE(ABORT, 'FollowUp.state is not one of its words'); END;

CREATE TRIGGER "Invoice_kind_words_insert" BEFORE INSERT ON "Invoice"
WHEN NEW."kind" NOT IN ('invoice', 'creditNote')
BEGIN SELECT RAISE(ABORT, 'Invoice.kind is not one of its words'); END;

CREATE TRIGGER "Invoice_kind_words_update" BEFORE UPDATE OF "kind" ON "Invoice"
WHEN NEW."kind" NOT IN ('invoice', 'creditNote')
BEGIN SELECT RAISE(ABORT, 'Invoice.kind is not one of its words'); END;

CREATE TRIGGER "Invoice_state_words_insert" BEFORE INSERT ON "Invoice"
WHEN NEW."state" NOT IN ('draft', 'issued')
BEGIN SELECT RAISE(ABORT, 'Invoice.state is not one of its words'); END;

CREATE TRIGGER "Invoice_state_words_update" BEFORE UPDATE OF "state" ON "Invoice"
WHEN NEW."state" NOT IN ('draft', 'issued')
BEGIN SELECT RAISE(ABORT, 'Invoice.state is not one of its words'); END;

CREATE TRIGGER "Payment_kind_words_insert" BEFORE INSERT ON "Payment"
WHEN NEW."kind" NOT IN ('deposit', 'payment', 'refund')
BEGIN SELECT RAISE(ABORT, 'Payment.kind is not one of its words'); END;

CREATE TRIGGER "Payment_kind_words_update" BEFORE UPDATE OF "kind" ON "Payment"
WHEN NEW."kind" NOT IN ('deposit', 'payment', 'refund')
BEGIN SELECT RAISE(ABORT, 'Payment.kind is not one of its words'); END;

CREATE TRIGGER "Job_state_words_insert" BEFORE INSERT ON "Job"
WHEN NEW."state" NOT IN ('waiting', 'booked', 'inWork', 'ride', 'ready', 'invoiced', 'closed', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'Job.state is not one of its words'); END;

CREATE TRIGGER "Job_state_words_update" BEFORE UPDATE OF "state" ON "Job"
WHEN NEW."state" NOT IN ('waiting', 'booked', 'inWork', 'ride', 'ready', 'invoiced', 'closed', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'Job.state is not one of its words'); END;

CREATE TRIGGER "Step_kind_words_insert" BEFORE INSERT ON "Step"
WHEN NEW."kind" NOT IN ('open', 'operation', 'close', 'ride')
BEGIN SELECT RAISE(ABORT, 'Step.kind is not one of its words'); END;

CREATE TRIGGER "Step_kind_words_update" BEFORE UPDATE OF "kind" ON "Step"
WHEN NEW."kind" NOT IN ('open', 'operation', 'close', 'ride')
BEGIN SELECT RAISE(ABORT, 'Step.kind is not one of its words'); END;

CREATE TRIGGER "Step_state_words_insert" BEFORE INSERT ON "Step"
WHEN NEW."state" NOT IN ('todo', 'done', 'skipped')
BEGIN SELECT RAISE(ABORT, 'Step.state is not one of its words'); END;

CREATE TRIGGER "Step_state_words_update" BEFORE UPDATE OF "state" ON "Step"
WHEN NEW."state" NOT IN ('todo', 'done', 'skipped')
BEGIN SELECT RAISE(ABORT, 'Step.state is not one of its words'); END;

CREATE TRIGGER "HoldPoint_kind_words_insert" BEFORE INSERT ON "HoldPoint"
WHEN NEW."kind" NOT IN ('reading', 'signature', 'check')
BEGIN SELECT RAISE(ABORT, 'HoldPoint.kind is not one of its words'); END;

CREATE TRIGGER "HoldPoint_kind_words_update" BEFORE UPDATE OF "kind" ON "HoldPoint"
WHEN NEW."kind" NOT IN ('reading', 'signature', 'check')
BEGIN SELECT RAISE(ABORT, 'HoldPoint.kind is not one of its words'); END;

CREATE TRIGGER "Finding_state_words_insert" BEFORE INSERT ON "Finding"
WHEN NEW."state" NOT IN ('open', 'quoted', 'agreed', 'noted')
BEGIN SELECT RAISE(ABORT, 'Finding.state is not one of its words'); END;

CREATE TRIGGER "Finding_state_words_update" BEFORE UPDATE OF "state" ON "Finding"
WHEN NEW."state" NOT IN ('open', 'quoted', 'agreed', 'noted')
BEGIN SELECT RAISE(ABORT, 'Finding.state is not one of its words'); END;

CREATE TRIGGER "Booking_state_words_insert" BEFORE INSERT ON "Booking"
WHEN NEW."state" NOT IN ('held', 'done', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'Booking.state is not one of its words'); END;

CREATE TRIGGER "Booking_state_words_update" BEFORE UPDATE OF "state" ON "Booking"
WHEN NEW."state" NOT IN ('held', 'done', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'Booking.state is not one of its words'); END;

CREATE TRIGGER "PackageRevision_state_words_insert" BEFORE INSERT ON "PackageRevision"
WHEN NEW."state" NOT IN ('draft', 'published')
BEGIN SELECT RAISE(ABORT, 'PackageRevision.state is not one of its words'); END;

CREATE TRIGGER "PackageRevision_state_words_update" BEFORE UPDATE OF "state" ON "PackageRevision"
WHEN NEW."state" NOT IN ('draft', 'published')
BEGIN SELECT RAISE(ABORT, 'PackageRevision.state is not one of its words'); END;

CREATE TRIGGER "Quote_state_words_insert" BEFORE INSERT ON "Quote"
WHEN NEW."state" NOT IN ('draft', 'sent', 'accepted', 'declined', 'expired', 'replaced')
BEGIN SELECT RAISE(ABORT, 'Quote.state is not one of its words'); END;

CREATE TRIGGER "Quote_state_words_update" BEFORE UPDATE OF "state" ON "Quote"
WHEN NEW."state" NOT IN ('draft', 'sent', 'accepted', 'declined', 'expired', 'replaced')
BEGIN SELECT RAISE(ABORT, 'Quote.state is not one of its words'); END;

CREATE TRIGGER "CustomerLink_purpose_words_insert" BEFORE INSERT ON "CustomerLink"
WHEN NEW."purpose" NOT IN ('quote', 'job', 'invoice')
BEGIN SELECT RAISE(ABORT, 'CustomerLink.purpose is not one of its words'); END;

CREATE TRIGGER "CustomerLink_purpose_words_update" BEFORE UPDATE OF "purpose" ON "CustomerLink"
WHEN NEW."purpose" NOT IN ('quote', 'job', 'invoice')
BEGIN SELECT RAISE(ABORT, 'CustomerLink.purpose is not one of its words'); END;

CREATE TRIGGER "Part_kind_words_insert" BEFORE INSERT ON "Part"
WHEN NEW."kind" NOT IN ('jet', 'needle', 'spring', 'filter', 'screw', 'hose', 'seal', 'chemical', 'other')
BEGIN SELECT RAISE(ABORT, 'Part.kind is not one of its words'); END;

CREATE TRIGGER "Part_kind_words_update" BEFORE UPDATE OF "kind" ON "Part"
WHEN NEW."kind" NOT IN ('jet', 'needle', 'spring', 'filter', 'screw', 'hose', 'seal', 'chemical', 'other')
BEGIN SELECT RAISE(ABORT, 'Part.kind is not one of its words'); END;

CREATE TRIGGER "Part_unit_words_insert" BEFORE INSERT ON "Part"
WHEN NEW."unit" NOT IN ('each', 'ml', 'mm', 'g')
BEGIN SELECT RAISE(ABORT, 'Part.unit is not one of its words'); END;

CREATE TRIGGER "Part_unit_words_update" BEFORE UPDATE OF "unit" ON "Part"
WHEN NEW."unit" NOT IN ('each', 'ml', 'mm', 'g')
BEGIN SELECT RAISE(ABORT, 'Part.unit is not one of its words'); END;

CREATE TRIGGER "Move_kind_words_insert" BEFORE INSERT ON "Move"
WHEN NEW."kind" NOT IN ('opening', 'receipt', 'use', 'returnToStock', 'returnToSupplier', 'count', 'scrap', 'split')
BEGIN SELECT RAISE(ABORT, 'Move.kind is not one of its words'); END;

CREATE TRIGGER "Move_kind_words_update" BEFORE UPDATE OF "kind" ON "Move"
WHEN NEW."kind" NOT IN ('opening', 'receipt', 'use', 'returnToStock', 'returnToSupplier', 'count', 'scrap', 'split')
BEGIN SELECT RAISE(ABORT, 'Move.kind is not one of its words'); END;

CREATE TRIGGER "Reservation_state_words_insert" BEFORE INSERT ON "Reservation"
WHEN NEW."state" NOT IN ('held', 'used', 'released')
BEGIN SELECT RAISE(ABORT, 'Reservation.state is not one of its words'); END;

CREATE TRIGGER "Reservation_state_words_update" BEFORE UPDATE OF "state" ON "Reservation"
WHEN NEW."state" NOT IN ('held', 'used', 'released')
BEGIN SELECT RAISE(ABORT, 'Reservation.state is not one of its words'); END;

CREATE TRIGGER "Move_only_grows_update" BEFORE UPDATE ON "Move"
BEGIN SELECT RAISE(ABORT, 'Move only grows: write a new row instead'); END;

CREATE TRIGGER "Move_only_grows_delete" BEFORE DELETE ON "Move"
BEGIN SELECT RAISE(ABORT, 'Move only grows: write a new row instead'); END;

CREATE TRIGGER "Reading_only_grows_update" BEFORE UPDATE ON "Reading"
BEGIN SELECT RAISE(ABORT, 'Reading only grows: write a new row instead'); END;

CREATE TRIGGER "Reading_only_grows_delete" BEFORE DELETE ON "Reading"
BEGIN SELECT RAISE(ABORT, 'Reading only grows: write a new row instead'); END;

CREATE TRIGGER "AuditEntry_only_grows_update" BEFORE UPDATE ON "AuditEntry"
BEGIN SELECT RAISE(ABORT, 'AuditEntry only grows: write a new row instead'); END;

CREATE TRIGGER "AuditEntry_only_grows_delete" BEFORE DELETE ON "AuditEntry"
BEGIN SELECT RAISE(ABORT, 'AuditEntry only grows: write a new row instead'); END;

CREATE TRIGGER "Payment_only_grows_update" BEFORE UPDATE ON "Payment"
BEGIN SELECT RAISE(ABORT, 'Payment only grows: write a new row instead'); END;

CREATE TRIGGER "Payment_only_grows_delete" BEFORE DELETE ON "Payment"
BEGIN SELECT RAISE(ABORT, 'Payment only grows: write a new row instead'); END;

CREATE TRIGGER "Acceptance_only_grows_update" BEFORE UPDATE ON "Acceptance"
BEGIN SELECT RAISE(ABORT, 'Acceptance only grows: write a new row instead'); END;

CREATE TRIGGER "Acceptance_only_grows_delete" BEFORE DELETE ON "Acceptance"
BEGIN SELECT RAISE(ABORT, 'Acceptance only grows: write a new row instead'); END;

CREATE TRIGGER "Invoice_never_changes" BEFORE UPDATE ON "Invoice"
WHEN OLD."state" = 'issued' AND (
  NEW."state" IS NOT OLD."state" OR NEW."kind" IS NOT OLD."kind" OR NEW."number" IS NOT OLD."number" OR
  NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR NEW."issuedOn" IS NOT OLD."issuedOn" OR
  NEW."netMinor" IS NOT OLD."netMinor" OR NEW."taxMinor" IS NOT OLD."taxMinor" OR NEW."grossMinor" IS NOT OLD."grossMinor" OR
  NEW."prepaidMinor" IS NOT OLD."prepaidMinor" OR NEW."customerId" IS NOT OLD."customerId" OR NEW."jobId" IS NOT OLD."jobId")
BEGIN SELECT RAISE(ABORT, 'An issued document never changes: write a credit note'); END;

CREATE TRIGGER "Invoice_never_goes" BEFORE DELETE ON "Invoice"
WHEN OLD."state" = 'issued'
BEGIN SELECT RAISE(ABORT, 'An issued document never goes: write a credit note'); END;

CREATE TRIGGER "QuoteRevision_frozen_stays" BEFORE UPDATE ON "QuoteRevision"
WHEN OLD."frozen" IS NOT NULL AND (
  NEW."frozen" IS NOT OLD."frozen" OR NEW."hash" IS NOT OLD."hash" OR NEW."choices" IS NOT OLD."choices" OR
  NEW."conditions" IS NOT OLD."conditions" OR NEW."grossMinor" IS NOT OLD."grossMinor")
BEGIN SELECT RAISE(ABORT, 'A frozen revision never changes: make the next one'); END;

CREATE TRIGGER "PackageRevision_published_stays" BEFORE UPDATE OF "recipe" ON "PackageRevision"
WHEN OLD."state" = 'published' AND NEW."recipe" IS NOT OLD."recipe"
BEGIN SELECT RAISE(ABORT, 'A published revision never changes: make the next one'); END;

CREATE TRIGGER "Part_never_oversold" BEFORE UPDATE ON "Part"
WHEN NEW."onHandMilli" < 0 OR NEW."reservedMilli" < 0 OR NEW."reservedMilli" > NEW."onHandMilli" + NEW."onOrderMilli"
BEGIN SELECT RAISE(ABORT, 'Part promised or used beyond what there is'); END;

CREATE TRIGGER "TimeEntry_one_running" BEFORE INSERT ON "TimeEntry"
WHEN NEW."endedAt" IS NULL AND EXISTS (SELECT 1 FROM "TimeEntry" WHERE "staffId" = NEW."staffId" AND "endedAt" IS NULL)
BEGIN SELECT RAISE(ABORT, 'This person has a running time entry'); END;

CREATE TRIGGER "TimeEntry_forward" BEFORE UPDATE ON "TimeEntry"
WHEN NEW."endedAt" IS NOT NULL AND NEW."endedAt" < NEW."startedAt"
BEGIN SELECT RAISE(ABORT, 'A time entry ends after it starts'); END;
