-- Guards that the schema language cannot say: words an enum allows, ledgers that only grow, documents that never change.

CREATE TRIGGER "Membership_role_words_insert" BEFORE INSERT ON "Membership"
WHEN NEW."role" NOT IN ('owner', 'desk', 'tuner', 'books')
BEGIN SELECT RAISE(ABORT, 'Membership.role is not one of its words'); END;

CREATE TRIGGER "Membership_role_words_update" BEFORE UPDATE OF "role" ON "Membership"
WHEN NEW."role" NOT IN ('owner', 'desk', 'tuner', 'books')
BEGIN SELECT RAISE(ABORT, 'Membership.role is not one of its words'); END;

CREATE TRIGGER "Invitation_role_words_insert" BEFORE INSERT ON "Invitation"
WHEN NEW."role" NOT IN ('owner', 'desk', 'tuner', 'books')
BEGIN SELECT RAISE(ABORT, 'Invitation.role is not one of its words'); END;

CREATE TRIGGER "Invitation_role_words_update" BEFORE UPDATE OF "role" ON "Invitation"
WHEN NEW."role" NOT IN ('owner', 'desk', 'tuner', 'books')
BEGIN SELECT RAISE(ABORT, 'Invitation.role is not one of its words'); END;

CREATE TRIGGER "SecurityEvent_only_grows_update" BEFORE UPDATE ON "SecurityEvent"
BEGIN SELECT RAISE(ABORT, 'SecurityEvent only grows: write a new row instead'); END;

CREATE TRIGGER "SecurityEvent_only_grows_delete" BEFORE DELETE ON "SecurityEvent"
BEGIN SELECT RAISE(ABORT, 'SecurityEvent only grows: write a new row instead'); END;
