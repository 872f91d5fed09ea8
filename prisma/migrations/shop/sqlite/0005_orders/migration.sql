-- AlterTable
ALTER TABLE "Move" ADD COLUMN "orderLineId" INTEGER;
ALTER TABLE "Move" ADD COLUMN "writtenAt" DATETIME;

-- AlterTable
ALTER TABLE "Part" ADD COLUMN "topMilli" INTEGER;

-- CreateTable
CREATE TABLE "Supplier" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "address" TEXT NOT NULL DEFAULT '',
    "customerNumber" TEXT NOT NULL DEFAULT '',
    "leadDays" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "PartSupplier" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
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
    CONSTRAINT "PartSupplier_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PartSupplier_supplierId_fkey" FOREIGN KEY ("supplierId") REFERENCES "Supplier" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PartAlternative" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "partId" INTEGER NOT NULL,
    "otherId" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "PartAlternative_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PartAlternative_otherId_fkey" FOREIGN KEY ("otherId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PurchaseOrder" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "number" INTEGER NOT NULL,
    "supplierId" INTEGER NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "orderedOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "createdAt" DATETIME NOT NULL,
    "mailedAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "PurchaseOrder_supplierId_fkey" FOREIGN KEY ("supplierId") REFERENCES "Supplier" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OrderLine" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
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
    CONSTRAINT "OrderLine_orderId_fkey" FOREIGN KEY ("orderId") REFERENCES "PurchaseOrder" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "OrderLine_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CountSheet" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bin" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'open',
    "startedAt" DATETIME NOT NULL,
    "countedAt" DATETIME,
    "countedBy" TEXT NOT NULL DEFAULT '',
    "approvedAt" DATETIME,
    "approvedBy" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "CountLine" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "sheetId" INTEGER NOT NULL,
    "partId" INTEGER NOT NULL,
    "countedMilli" INTEGER,
    "seenMilli" INTEGER,
    "moveId" INTEGER,
    "leftOut" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "CountLine_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "CountSheet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CountLine_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
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

-- Guards that the schema language cannot say.

CREATE TRIGGER "PurchaseOrder_state_words_insert" BEFORE INSERT ON "PurchaseOrder"
WHEN NEW."state" NOT IN ('draft', 'ordered', 'partReceived', 'received', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'PurchaseOrder.state is not one of its words'); END;

CREATE TRIGGER "PurchaseOrder_state_words_update" BEFORE UPDATE OF "state" ON "PurchaseOrder"
WHEN NEW."state" NOT IN ('draft', 'ordered', 'partReceived', 'received', 'cancelled')
BEGIN SELECT RAISE(ABORT, 'PurchaseOrder.state is not one of its words'); END;

CREATE TRIGGER "PurchaseOrder_never_unplaced" BEFORE UPDATE OF "state" ON "PurchaseOrder"
WHEN OLD."state" <> 'draft' AND NEW."state" = 'draft'
BEGIN SELECT RAISE(ABORT, 'A placed order is no draft again: cancel it'); END;

CREATE TRIGGER "PurchaseOrder_placed_stays" BEFORE DELETE ON "PurchaseOrder"
WHEN OLD."state" <> 'draft'
BEGIN SELECT RAISE(ABORT, 'A placed order never goes: cancel it'); END;

CREATE TRIGGER "OrderLine_within_insert" BEFORE INSERT ON "OrderLine"
WHEN NEW."quantityMilli" <= 0 OR NEW."receivedMilli" < 0 OR NEW."cancelledMilli" < 0
  OR NEW."receivedMilli" + NEW."cancelledMilli" > NEW."quantityMilli"
BEGIN SELECT RAISE(ABORT, 'An order line holds no more than was ordered'); END;

CREATE TRIGGER "OrderLine_within_update" BEFORE UPDATE ON "OrderLine"
WHEN NEW."quantityMilli" <= 0 OR NEW."receivedMilli" < 0 OR NEW."cancelledMilli" < 0
  OR NEW."receivedMilli" + NEW."cancelledMilli" > NEW."quantityMilli"
BEGIN SELECT RAISE(ABORT, 'An order line holds no more than was ordered'); END;

CREATE TRIGGER "OrderLine_received_stays" BEFORE DELETE ON "OrderLine"
WHEN OLD."receivedMilli" > 0 OR OLD."cancelledMilli" > 0
BEGIN SELECT RAISE(ABORT, 'A line that was received on never goes: cancel the rest'); END;

CREATE TRIGGER "CountSheet_state_words_insert" BEFORE INSERT ON "CountSheet"
WHEN NEW."state" NOT IN ('open', 'counted', 'approved', 'dropped')
BEGIN SELECT RAISE(ABORT, 'CountSheet.state is not one of its words'); END;

CREATE TRIGGER "CountSheet_state_words_update" BEFORE UPDATE OF "state" ON "CountSheet"
WHEN NEW."state" NOT IN ('open', 'counted', 'approved', 'dropped')
BEGIN SELECT RAISE(ABORT, 'CountSheet.state is not one of its words'); END;

CREATE TRIGGER "CountSheet_approved_stays" BEFORE UPDATE ON "CountSheet"
WHEN OLD."state" IN ('approved', 'dropped')
BEGIN SELECT RAISE(ABORT, 'An approved count never changes: count again'); END;

CREATE TRIGGER "PartAlternative_other" BEFORE INSERT ON "PartAlternative"
WHEN NEW."partId" = NEW."otherId"
BEGIN SELECT RAISE(ABORT, 'A part is no alternative to itself'); END;

-- What parts said of their suppliers and of what is on its way becomes suppliers and orders.

INSERT INTO "Supplier" ("name", "searchKey", "createdAt")
SELECT DISTINCT "supplier", lower("supplier"), strftime('%Y-%m-%dT%H:%M:%f+00:00', 'now') FROM "Part" WHERE "supplier" <> ''
UNION
SELECT 'No supplier named', 'no supplier named', strftime('%Y-%m-%dT%H:%M:%f+00:00', 'now')
WHERE EXISTS (SELECT 1 FROM "Part" WHERE "supplier" = '' AND "onOrderMilli" > 0);

INSERT INTO "PartSupplier" ("partId", "supplierId", "code", "codeKey", "costE4", "leadDays", "usual")
SELECT p."id", s."id", p."supplierCode", lower(p."supplierCode"), p."costE4", p."leadDays", true
FROM "Part" p JOIN "Supplier" s ON s."name" = p."supplier";

INSERT INTO "PurchaseOrder" ("number", "supplierId", "state", "orderedOn", "note", "createdAt")
SELECT 80 + row_number() OVER (ORDER BY s."id"), s."id", 'ordered', strftime('%Y-%m-%d', 'now'), 'Noted as on order before orders were kept',
  strftime('%Y-%m-%dT%H:%M:%f+00:00', 'now')
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
