-- CreateEnum
CREATE TYPE "OrderState" AS ENUM ('draft', 'ordered', 'partReceived', 'received', 'cancelled');

-- CreateEnum
CREATE TYPE "CountState" AS ENUM ('open', 'counted', 'approved', 'dropped');

-- AlterTable
ALTER TABLE "Move" ADD COLUMN     "orderLineId" INTEGER,
ADD COLUMN     "writtenAt" TIMESTAMP(3);

-- AlterTable
ALTER TABLE "Part" ADD COLUMN     "topMilli" INTEGER;

-- AlterTable
ALTER TABLE "Quote" ADD COLUMN     "findingId" INTEGER;

-- CreateTable
CREATE TABLE "Supplier" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "address" TEXT NOT NULL DEFAULT '',
    "customerNumber" TEXT NOT NULL DEFAULT '',
    "leadDays" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "searchKey" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Supplier_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PartSupplier" (
    "id" SERIAL NOT NULL,
    "partId" INTEGER NOT NULL,
    "supplierId" INTEGER NOT NULL,
    "code" TEXT NOT NULL DEFAULT '',
    "codeKey" TEXT NOT NULL DEFAULT '',
    "packMilli" INTEGER NOT NULL DEFAULT 0,
    "leastMilli" INTEGER NOT NULL DEFAULT 0,
    "costE4" INTEGER,
    "pricedOn" TEXT NOT NULL DEFAULT '',
    "leadDays" INTEGER,
    "usual" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "PartSupplier_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PartAlternative" (
    "id" SERIAL NOT NULL,
    "partId" INTEGER NOT NULL,
    "otherId" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "PartAlternative_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PurchaseOrder" (
    "id" SERIAL NOT NULL,
    "number" INTEGER NOT NULL,
    "supplierId" INTEGER NOT NULL,
    "state" "OrderState" NOT NULL DEFAULT 'draft',
    "orderedOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMP(3) NOT NULL,
    "mailedAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "PurchaseOrder_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "OrderLine" (
    "id" SERIAL NOT NULL,
    "orderId" INTEGER NOT NULL,
    "partId" INTEGER NOT NULL,
    "code" TEXT NOT NULL DEFAULT '',
    "quantityMilli" INTEGER NOT NULL,
    "receivedMilli" INTEGER NOT NULL DEFAULT 0,
    "cancelledMilli" INTEGER NOT NULL DEFAULT 0,
    "unitCostE4" INTEGER,
    "dueOn" TEXT,
    "jobId" INTEGER,
    "why" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "OrderLine_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CountSheet" (
    "id" SERIAL NOT NULL,
    "bin" TEXT NOT NULL,
    "state" "CountState" NOT NULL DEFAULT 'open',
    "startedAt" TIMESTAMP(3) NOT NULL,
    "countedAt" TIMESTAMP(3),
    "countedBy" TEXT NOT NULL DEFAULT '',
    "approvedAt" TIMESTAMP(3),
    "approvedBy" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "CountSheet_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CountLine" (
    "id" SERIAL NOT NULL,
    "sheetId" INTEGER NOT NULL,
    "partId" INTEGER NOT NULL,
    "countedMilli" INTEGER,
    "seenMilli" INTEGER,
    "moveId" INTEGER,
    "leftOut" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "CountLine_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Supplier_name_key" ON "Supplier"("name");

-- CreateIndex
CREATE INDEX "PartSupplier_supplierId_codeKey_idx" ON "PartSupplier"("supplierId", "codeKey");

-- CreateIndex
CREATE INDEX "PartSupplier_codeKey_idx" ON "PartSupplier"("codeKey");

-- CreateIndex
CREATE UNIQUE INDEX "PartSupplier_partId_supplierId_key" ON "PartSupplier"("partId", "supplierId");

-- CreateIndex
CREATE UNIQUE INDEX "PartAlternative_partId_otherId_key" ON "PartAlternative"("partId", "otherId");

-- CreateIndex
CREATE UNIQUE INDEX "PurchaseOrder_number_key" ON "PurchaseOrder"("number");

-- CreateIndex
CREATE INDEX "PurchaseOrder_state_id_idx" ON "PurchaseOrder"("state", "id");

-- CreateIndex
CREATE INDEX "PurchaseOrder_supplierId_state_idx" ON "PurchaseOrder"("supplierId", "state");

-- CreateIndex
CREATE INDEX "OrderLine_orderId_idx" ON "OrderLine"("orderId");

-- CreateIndex
CREATE INDEX "OrderLine_partId_idx" ON "OrderLine"("partId");

-- CreateIndex
CREATE INDEX "CountSheet_state_id_idx" ON "CountSheet"("state", "id");

-- CreateIndex
CREATE INDEX "CountLine_partId_idx" ON "CountLine"("partId");

-- CreateIndex
CREATE UNIQUE INDEX "CountLine_sheetId_partId_key" ON "CountLine"("sheetId", "partId");

-- CreateIndex
CREATE INDEX "Move_orderLineId_idx" ON "Move"("orderLineId");

-- AddForeignKey
ALTER TABLE "PartSupplier" ADD CONSTRAINT "PartSupplier_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartSupplier" ADD CONSTRAINT "PartSupplier_supplierId_fkey" FOREIGN KEY ("supplierId") REFERENCES "Supplier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartAlternative" ADD CONSTRAINT "PartAlternative_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartAlternative" ADD CONSTRAINT "PartAlternative_otherId_fkey" FOREIGN KEY ("otherId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PurchaseOrder" ADD CONSTRAINT "PurchaseOrder_supplierId_fkey" FOREIGN KEY ("supplierId") REFERENCES "Supplier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "OrderLine" ADD CONSTRAINT "OrderLine_orderId_fkey" FOREIGN KEY ("orderId") REFERENCES "PurchaseOrder"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "OrderLine" ADD CONSTRAINT "OrderLine_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CountLine" ADD CONSTRAINT "CountLine_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "CountSheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CountLine" ADD CONSTRAINT "CountLine_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Append to the PostgreSQL migration of the same name.
CREATE TRIGGER "PurchaseOrder_never_unplaced" BEFORE UPDATE OF "state" ON "PurchaseOrder"
FOR EACH ROW WHEN (OLD."state" <> 'draft' AND NEW."state" = 'draft')
EXECUTE FUNCTION "refuse"('A placed order is no draft again: cancel it');

CREATE TRIGGER "PurchaseOrder_placed_stays" BEFORE DELETE ON "PurchaseOrder"
FOR EACH ROW WHEN (OLD."state" <> 'draft')
EXECUTE FUNCTION "refuse"('A placed order never goes: cancel it');

-- Triggers, not CHECKs: the schema engine cannot read a CHECK of PostgreSQL through this adapter.
CREATE TRIGGER "OrderLine_within" BEFORE INSERT OR UPDATE ON "OrderLine"
FOR EACH ROW WHEN (
  NEW."quantityMilli" <= 0 OR NEW."receivedMilli" < 0 OR NEW."cancelledMilli" < 0 OR
  NEW."receivedMilli"::bigint + NEW."cancelledMilli" > NEW."quantityMilli")
EXECUTE FUNCTION "refuse"('An order line is received on and cancelled within what was ordered');

CREATE TRIGGER "OrderLine_received_stays" BEFORE DELETE ON "OrderLine"
FOR EACH ROW WHEN (OLD."receivedMilli" > 0 OR OLD."cancelledMilli" > 0)
EXECUTE FUNCTION "refuse"('A line that was received on never goes: cancel the rest');

CREATE TRIGGER "CountSheet_approved_stays" BEFORE UPDATE ON "CountSheet"
FOR EACH ROW WHEN (OLD."state" IN ('approved', 'dropped'))
EXECUTE FUNCTION "refuse"('An approved count never changes: count again');

CREATE TRIGGER "PartAlternative_other" BEFORE INSERT OR UPDATE ON "PartAlternative"
FOR EACH ROW WHEN (NEW."partId" = NEW."otherId")
EXECUTE FUNCTION "refuse"('A part is no alternative of itself');

-- What parts said of their suppliers and of what is on its way becomes suppliers and orders.

INSERT INTO "Supplier" ("name", "searchKey", "createdAt")
SELECT DISTINCT "supplier", lower("supplier"), now() FROM "Part" WHERE "supplier" <> ''
UNION
SELECT 'No supplier named', 'no supplier named', now()
WHERE EXISTS (SELECT 1 FROM "Part" WHERE "supplier" = '' AND "onOrderMilli" > 0);

INSERT INTO "PartSupplier" ("partId", "supplierId", "code", "codeKey", "costE4", "leadDays", "usual")
SELECT p."id", s."id", p."supplierCode", lower(p."supplierCode"), p."costE4", p."leadDays", true
FROM "Part" p JOIN "Supplier" s ON s."name" = p."supplier";

INSERT INTO "PurchaseOrder" ("number", "supplierId", "state", "orderedOn", "note", "createdAt")
SELECT 80 + row_number() OVER (ORDER BY s."id"), s."id", 'ordered', to_char(now(), 'YYYY-MM-DD'), 'Noted as on order before orders were kept', now()
FROM "Supplier" s
WHERE EXISTS (
  SELECT 1 FROM "Part" p WHERE p."onOrderMilli" > 0
    AND CASE WHEN p."supplier" = '' THEN 'No supplier named' ELSE p."supplier" END = s."name");

INSERT INTO "OrderLine" ("orderId", "partId", "code", "quantityMilli", "unitCostE4")
SELECT o."id", p."id", p."supplierCode", p."onOrderMilli", p."costE4"
FROM "Part" p
JOIN "Supplier" s ON s."name" = CASE WHEN p."supplier" = '' THEN 'No supplier named' ELSE p."supplier" END
JOIN "PurchaseOrder" o ON o."supplierId" = s."id"
WHERE p."onOrderMilli" > 0;

INSERT INTO "Counter" ("name", "next")
SELECT 'order', max("number") + 1 FROM "PurchaseOrder" HAVING max("number") IS NOT NULL;
