-- One word for one thing: what a job has been given of a part is reserved; a part that does in another's place is a substitute.
ALTER TABLE "Reservation" RENAME COLUMN "heldMilli" TO "reservedMilli";
ALTER TABLE "PartAlternative" RENAME TO "PartSubstitute";
ALTER TABLE "PartSubstitute" RENAME CONSTRAINT "PartAlternative_pkey" TO "PartSubstitute_pkey";
ALTER TABLE "PartSubstitute" RENAME CONSTRAINT "PartAlternative_partId_fkey" TO "PartSubstitute_partId_fkey";
ALTER TABLE "PartSubstitute" RENAME CONSTRAINT "PartAlternative_otherId_fkey" TO "PartSubstitute_otherId_fkey";
ALTER INDEX "PartAlternative_partId_otherId_key" RENAME TO "PartSubstitute_partId_otherId_key";
