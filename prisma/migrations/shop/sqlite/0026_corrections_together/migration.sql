-- A correction may bring others along that are practised together with it.
ALTER TABLE "Correction" ADD COLUMN "also" JSONB NOT NULL DEFAULT '[]';
