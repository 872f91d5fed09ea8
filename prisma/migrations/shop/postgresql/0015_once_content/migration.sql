-- A key answers for one act with one content alone. Rows from before answer for any.
ALTER TABLE "Once" ADD COLUMN "act" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Once" ADD COLUMN "content" TEXT NOT NULL DEFAULT '';
