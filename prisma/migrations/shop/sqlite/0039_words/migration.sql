-- One word for one thing: what a job has been given of a part is reserved; a part that does in another's place is a substitute.
ALTER TABLE "Reservation" RENAME COLUMN "heldMilli" TO "reservedMilli";
ALTER TABLE "PartAlternative" RENAME TO "PartSubstitute";
DROP INDEX "PartAlternative_partId_otherId_key";
CREATE UNIQUE INDEX "PartSubstitute_partId_otherId_key" ON "PartSubstitute"("partId", "otherId");
