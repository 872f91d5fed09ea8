-- CreateTable
CREATE TABLE "EndOfDay" (
    "id" SERIAL NOT NULL,
    "day" TEXT NOT NULL,
    "fromDay" TEXT NOT NULL,
    "closedAt" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "frozen" JSONB NOT NULL,
    "hash" TEXT NOT NULL,
    "expectedMinor" INTEGER NOT NULL,
    "countedMinor" INTEGER NOT NULL,
    "differenceMinor" INTEGER NOT NULL,
    "leftMinor" INTEGER NOT NULL,

    CONSTRAINT "EndOfDay_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "DrawerMove" (
    "id" SERIAL NOT NULL,
    "day" TEXT NOT NULL,
    "amountMinor" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "staffId" INTEGER,
    "personName" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "DrawerMove_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "EndOfDay_day_key" ON "EndOfDay"("day");

-- CreateIndex
CREATE INDEX "DrawerMove_day_idx" ON "DrawerMove"("day");

-- CreateIndex
CREATE INDEX "Payment_paidOn_idx" ON "Payment"("paidOn");

CREATE TRIGGER "EndOfDay_only_grows" BEFORE UPDATE OR DELETE ON "EndOfDay"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "EndOfDay_only_grows_whole" BEFORE TRUNCATE ON "EndOfDay"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "DrawerMove_only_grows" BEFORE UPDATE OR DELETE ON "DrawerMove"
FOR EACH ROW EXECUTE FUNCTION "only_grows"();

CREATE TRIGGER "DrawerMove_only_grows_whole" BEFORE TRUNCATE ON "DrawerMove"
FOR EACH STATEMENT EXECUTE FUNCTION "only_grows"();
