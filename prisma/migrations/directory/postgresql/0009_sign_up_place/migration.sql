-- A sign-up that waits for its letter keeps where the shop is.
ALTER TABLE "SignUp" ADD COLUMN "latitude" DOUBLE PRECISION;
ALTER TABLE "SignUp" ADD COLUMN "longitude" DOUBLE PRECISION;
