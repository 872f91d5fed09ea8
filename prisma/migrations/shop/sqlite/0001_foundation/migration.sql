-- CreateTable
CREATE TABLE "Customer" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "address" TEXT NOT NULL DEFAULT '',
    "business" BOOLEAN NOT NULL DEFAULT false,
    "taxNumber" TEXT NOT NULL DEFAULT '',
    "discountBp" INTEGER NOT NULL DEFAULT 0,
    "discountClass" TEXT NOT NULL DEFAULT '',
    "notes" TEXT NOT NULL DEFAULT '',
    "importKey" TEXT,
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "ModelCard" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "make" TEXT NOT NULL,
    "model" TEXT NOT NULL,
    "yearFrom" INTEGER,
    "yearTo" INTEGER,
    "displacementCc" INTEGER NOT NULL,
    "cylinders" INTEGER NOT NULL DEFAULT 1,
    "carburettors" INTEGER NOT NULL DEFAULT 1,
    "carburettorType" TEXT NOT NULL,
    "serviceKm" INTEGER,
    "serviceMonths" INTEGER,
    "notes" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "ModelFact" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "modelCardId" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "value" REAL,
    "text" TEXT,
    "how" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "ModelFact_modelCardId_fkey" FOREIGN KEY ("modelCardId") REFERENCES "ModelCard" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Bike" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "customerId" INTEGER NOT NULL,
    "modelCardId" INTEGER NOT NULL,
    "year" INTEGER,
    "plate" TEXT NOT NULL DEFAULT '',
    "frameNumber" TEXT NOT NULL DEFAULT '',
    "colour" TEXT NOT NULL DEFAULT '',
    "odometerKm" INTEGER,
    "complaint" TEXT NOT NULL DEFAULT '',
    "notes" TEXT NOT NULL DEFAULT '',
    "importKey" TEXT,
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Bike_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Bike_modelCardId_fkey" FOREIGN KEY ("modelCardId") REFERENCES "ModelCard" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Carburettor" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "label" TEXT NOT NULL,
    "marking" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Carburettor_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SettingSheet" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "kind" TEXT NOT NULL,
    "takenAt" DATETIME NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "conditions" JSONB,
    "calculation" JSONB,
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "SettingSheet_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SettingSheet_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SettingValue" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "sheetId" INTEGER NOT NULL,
    "carburettor" INTEGER NOT NULL,
    "setting" TEXT NOT NULL,
    "value" REAL NOT NULL,
    "how" TEXT NOT NULL,
    CONSTRAINT "SettingValue_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "SettingSheet" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FollowUp" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "what" TEXT NOT NULL,
    "dueOn" TEXT NOT NULL,
    "dueKm" INTEGER,
    "state" TEXT NOT NULL DEFAULT 'due',
    "outcome" TEXT NOT NULL DEFAULT '',
    "createdAt" DATETIME NOT NULL,
    "doneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "FollowUp_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Invoice" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL DEFAULT 'invoice',
    "number" INTEGER,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "jobId" INTEGER NOT NULL,
    "customerId" INTEGER NOT NULL,
    "creditsId" INTEGER,
    "basis" TEXT NOT NULL DEFAULT 'fixed',
    "issuedOn" TEXT,
    "dueOn" TEXT,
    "frozen" JSONB,
    "hash" TEXT,
    "netMinor" INTEGER NOT NULL DEFAULT 0,
    "taxMinor" INTEGER NOT NULL DEFAULT 0,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "prepaidMinor" INTEGER NOT NULL DEFAULT 0,
    "paidMinor" INTEGER NOT NULL DEFAULT 0,
    "reason" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL DEFAULT '',
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Invoice_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Invoice_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Invoice_creditsId_fkey" FOREIGN KEY ("creditsId") REFERENCES "Invoice" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Payment" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "kind" TEXT NOT NULL,
    "jobId" INTEGER NOT NULL,
    "invoiceId" INTEGER,
    "method" TEXT NOT NULL,
    "amountMinor" INTEGER NOT NULL,
    "roundingMinor" INTEGER NOT NULL DEFAULT 0,
    "paidOn" TEXT NOT NULL,
    "reference" TEXT NOT NULL DEFAULT '',
    "staffId" INTEGER,
    "at" DATETIME NOT NULL,
    CONSTRAINT "Payment_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Payment_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Job" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "number" INTEGER NOT NULL,
    "customerId" INTEGER NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "minutes" INTEGER NOT NULL,
    "stopped" TEXT NOT NULL DEFAULT '',
    "odometerKm" INTEGER,
    "arrivedAt" DATETIME,
    "startedAt" DATETIME,
    "finishedAt" DATETIME,
    "closedAt" DATETIME,
    "notes" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Job_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Job_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Job_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Step" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "instruction" TEXT NOT NULL DEFAULT '',
    "minutes" INTEGER NOT NULL,
    "grade" TEXT NOT NULL DEFAULT '',
    "tools" JSONB NOT NULL,
    "cautions" JSONB NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'todo',
    "doneAt" DATETIME,
    "doneBy" INTEGER,
    "reason" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Step_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "HoldPoint" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "stepId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "unit" TEXT NOT NULL DEFAULT '',
    "low" REAL,
    "high" REAL,
    "increment" REAL,
    "passed" BOOLEAN NOT NULL DEFAULT false,
    "overrideReason" TEXT NOT NULL DEFAULT '',
    "overriddenBy" INTEGER,
    CONSTRAINT "HoldPoint_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Reading" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "holdPointId" INTEGER NOT NULL,
    "value" REAL,
    "inside" BOOLEAN NOT NULL,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    CONSTRAINT "Reading_holdPointId_fkey" FOREIGN KEY ("holdPointId") REFERENCES "HoldPoint" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Finding" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "text" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'open',
    "createdAt" DATETIME NOT NULL,
    "staffId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Finding_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Finding_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Booking" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "bayId" INTEGER NOT NULL,
    "staffId" INTEGER NOT NULL,
    "startsAt" DATETIME NOT NULL,
    "endsAt" DATETIME NOT NULL,
    "dropOffAt" DATETIME,
    "pickUpAt" DATETIME,
    "state" TEXT NOT NULL DEFAULT 'held',
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Booking_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Booking_bayId_fkey" FOREIGN KEY ("bayId") REFERENCES "Bay" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Booking_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TimeEntry" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "staffId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "startedAt" DATETIME NOT NULL,
    "endedAt" DATETIME,
    "reason" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "TimeEntry_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TimeEntry_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TimeEntry_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TestRide" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "jobId" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "conditions" JSONB,
    "good" BOOLEAN NOT NULL DEFAULT false,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "TestRide_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Observation" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "rideId" INTEGER NOT NULL,
    "throttle" TEXT NOT NULL,
    "condition" TEXT NOT NULL,
    "engine" TEXT NOT NULL,
    "sign" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Observation_rideId_fkey" FOREIGN KEY ("rideId") REFERENCES "TestRide" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Correction" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "rideId" INTEGER NOT NULL,
    "rank" INTEGER NOT NULL,
    "setting" TEXT NOT NULL,
    "fromValue" REAL NOT NULL,
    "toValue" REAL NOT NULL,
    "because" JSONB NOT NULL,
    "needs" TEXT NOT NULL DEFAULT '',
    "acceptedAt" DATETIME,
    "acceptedBy" INTEGER,
    "sheetId" INTEGER,
    CONSTRAINT "Correction_rideId_fkey" FOREIGN KEY ("rideId") REFERENCES "TestRide" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Package" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "summary" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "PackageRevision" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "packageId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "recipe" JSONB NOT NULL,
    "publishedAt" DATETIME,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "PackageRevision_packageId_fkey" FOREIGN KEY ("packageId") REFERENCES "Package" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Quote" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "number" INTEGER NOT NULL,
    "customerId" INTEGER NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "variationOfId" INTEGER,
    "validUntil" TEXT NOT NULL,
    "revisionNumber" INTEGER NOT NULL DEFAULT 1,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "sentAt" DATETIME,
    "answeredAt" DATETIME,
    "declineReason" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "createdBy" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Quote_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Quote_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Quote_variationOfId_fkey" FOREIGN KEY ("variationOfId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "QuoteRevision" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "quoteId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "packageRevisionId" INTEGER NOT NULL,
    "choices" JSONB NOT NULL,
    "conditions" JSONB NOT NULL,
    "frozen" JSONB,
    "hash" TEXT,
    "frozenAt" DATETIME,
    "netMinor" INTEGER NOT NULL DEFAULT 0,
    "taxMinor" INTEGER NOT NULL DEFAULT 0,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "depositMinor" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "QuoteRevision_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "QuoteRevision_packageRevisionId_fkey" FOREIGN KEY ("packageRevisionId") REFERENCES "PackageRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Acceptance" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "revisionId" INTEGER NOT NULL,
    "typedName" TEXT NOT NULL,
    "acknowledgements" JSONB NOT NULL,
    "shownHash" TEXT NOT NULL,
    "agent" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    CONSTRAINT "Acceptance_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CustomerLink" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "purpose" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "revisionId" INTEGER,
    "jobId" INTEGER,
    "invoiceId" INTEGER,
    "createdAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "openedAt" DATETIME,
    "revokedAt" DATETIME
);

-- CreateTable
CREATE TABLE "Settings" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT DEFAULT 1,
    "name" TEXT NOT NULL,
    "legalName" TEXT NOT NULL DEFAULT '',
    "taxNumber" TEXT NOT NULL DEFAULT '',
    "address" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "email" TEXT NOT NULL DEFAULT '',
    "country" TEXT NOT NULL,
    "currency" TEXT NOT NULL,
    "locale" TEXT NOT NULL,
    "zone" TEXT NOT NULL,
    "units" TEXT NOT NULL DEFAULT 'metric',
    "altitudeM" INTEGER NOT NULL,
    "latitudeSouth" BOOLEAN NOT NULL DEFAULT false,
    "taxRegime" TEXT NOT NULL,
    "taxRateBp" INTEGER NOT NULL DEFAULT 0,
    "taxLabour" BOOLEAN NOT NULL DEFAULT true,
    "taxParts" BOOLEAN NOT NULL DEFAULT true,
    "pricesIncludeTax" BOOLEAN NOT NULL,
    "sundriesBp" INTEGER NOT NULL DEFAULT 0,
    "sundriesMaxMinor" INTEGER,
    "minimumMarginBp" INTEGER NOT NULL DEFAULT 0,
    "depositBp" INTEGER NOT NULL DEFAULT 0,
    "quoteValidDays" INTEGER NOT NULL DEFAULT 14,
    "paymentDays" INTEGER NOT NULL DEFAULT 7,
    "cashRoundingMinor" INTEGER NOT NULL DEFAULT 0,
    "billingUnit" TEXT NOT NULL DEFAULT 'minutes',
    "stockCosting" TEXT NOT NULL DEFAULT 'average',
    "followUpDays" INTEGER NOT NULL DEFAULT 180,
    "followUpKm" INTEGER NOT NULL DEFAULT 3000,
    "bankDetails" TEXT NOT NULL DEFAULT '',
    "documentNote" TEXT NOT NULL DEFAULT '',
    "benchTemperatureC" REAL NOT NULL DEFAULT 20,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "Counter" (
    "name" TEXT NOT NULL PRIMARY KEY,
    "next" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "Once" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "at" DATETIME NOT NULL,
    "result" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Staff" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "personId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "hours" JSONB NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "Absence" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "staffId" INTEGER NOT NULL,
    "fromDay" TEXT NOT NULL,
    "toDay" TEXT NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Absence_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Closure" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "fromDay" TEXT NOT NULL,
    "toDay" TEXT NOT NULL,
    "why" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "Bay" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "LabourGrade" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "ratePerHourMinor" INTEGER NOT NULL,
    "costPerHourMinor" INTEGER NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "MarkupBand" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "upToE4" INTEGER,
    "markupBp" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "Mail" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "to" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "createdAt" DATETIME NOT NULL,
    "sentAt" DATETIME,
    "failure" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "at" DATETIME NOT NULL,
    "personId" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER,
    "detail" JSONB
);

-- CreateTable
CREATE TABLE "ImportRun" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "at" DATETIME NOT NULL,
    "noun" TEXT NOT NULL,
    "fileName" TEXT NOT NULL,
    "rows" INTEGER NOT NULL,
    "added" INTEGER NOT NULL,
    "changed" INTEGER NOT NULL,
    "staffId" INTEGER
);

-- CreateTable
CREATE TABLE "Part" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "unit" TEXT NOT NULL DEFAULT 'each',
    "family" TEXT NOT NULL DEFAULT '',
    "sizeMilli" INTEGER,
    "convention" TEXT NOT NULL DEFAULT '',
    "facts" JSONB,
    "supplier" TEXT NOT NULL DEFAULT '',
    "supplierCode" TEXT NOT NULL DEFAULT '',
    "bin" TEXT NOT NULL DEFAULT '',
    "leadDays" INTEGER,
    "costE4" INTEGER,
    "priceE4" INTEGER,
    "pointMilli" INTEGER NOT NULL DEFAULT 0,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "onHandMilli" INTEGER NOT NULL DEFAULT 0,
    "reservedMilli" INTEGER NOT NULL DEFAULT 0,
    "onOrderMilli" INTEGER NOT NULL DEFAULT 0,
    "averageE4" INTEGER,
    "searchKey" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "Move" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "partId" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "quantityMilli" INTEGER NOT NULL,
    "unitCostE4" INTEGER,
    "at" DATETIME NOT NULL,
    "staffId" INTEGER,
    "jobId" INTEGER,
    "stepId" INTEGER,
    "why" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Move_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Move_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Reservation" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "partId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "wantedMilli" INTEGER NOT NULL,
    "heldMilli" INTEGER NOT NULL,
    "usedMilli" INTEGER NOT NULL DEFAULT 0,
    "state" TEXT NOT NULL DEFAULT 'held',
    "createdAt" DATETIME NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Reservation_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Reservation_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Reservation_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "Customer_importKey_key" ON "Customer"("importKey");

-- CreateIndex
CREATE INDEX "Customer_searchKey_idx" ON "Customer"("searchKey");

-- CreateIndex
CREATE INDEX "Customer_name_id_idx" ON "Customer"("name", "id");

-- CreateIndex
CREATE UNIQUE INDEX "ModelCard_make_model_yearFrom_key" ON "ModelCard"("make", "model", "yearFrom");

-- CreateIndex
CREATE UNIQUE INDEX "ModelFact_modelCardId_key_key" ON "ModelFact"("modelCardId", "key");

-- CreateIndex
CREATE UNIQUE INDEX "Bike_importKey_key" ON "Bike"("importKey");

-- CreateIndex
CREATE INDEX "Bike_customerId_idx" ON "Bike"("customerId");

-- CreateIndex
CREATE INDEX "Bike_modelCardId_idx" ON "Bike"("modelCardId");

-- CreateIndex
CREATE INDEX "Bike_searchKey_idx" ON "Bike"("searchKey");

-- CreateIndex
CREATE UNIQUE INDEX "Carburettor_bikeId_position_key" ON "Carburettor"("bikeId", "position");

-- CreateIndex
CREATE INDEX "SettingSheet_bikeId_kind_id_idx" ON "SettingSheet"("bikeId", "kind", "id");

-- CreateIndex
CREATE INDEX "SettingSheet_jobId_idx" ON "SettingSheet"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "SettingValue_sheetId_carburettor_setting_key" ON "SettingValue"("sheetId", "carburettor", "setting");

-- CreateIndex
CREATE INDEX "FollowUp_state_dueOn_id_idx" ON "FollowUp"("state", "dueOn", "id");

-- CreateIndex
CREATE INDEX "FollowUp_bikeId_idx" ON "FollowUp"("bikeId");

-- CreateIndex
CREATE INDEX "Invoice_state_id_idx" ON "Invoice"("state", "id");

-- CreateIndex
CREATE INDEX "Invoice_jobId_idx" ON "Invoice"("jobId");

-- CreateIndex
CREATE INDEX "Invoice_customerId_idx" ON "Invoice"("customerId");

-- CreateIndex
CREATE UNIQUE INDEX "Invoice_kind_number_key" ON "Invoice"("kind", "number");

-- CreateIndex
CREATE INDEX "Payment_jobId_idx" ON "Payment"("jobId");

-- CreateIndex
CREATE INDEX "Payment_invoiceId_idx" ON "Payment"("invoiceId");

-- CreateIndex
CREATE UNIQUE INDEX "Job_number_key" ON "Job"("number");

-- CreateIndex
CREATE UNIQUE INDEX "Job_revisionId_key" ON "Job"("revisionId");

-- CreateIndex
CREATE INDEX "Job_state_id_idx" ON "Job"("state", "id");

-- CreateIndex
CREATE INDEX "Job_bikeId_idx" ON "Job"("bikeId");

-- CreateIndex
CREATE INDEX "Job_customerId_idx" ON "Job"("customerId");

-- CreateIndex
CREATE INDEX "Step_jobId_position_idx" ON "Step"("jobId", "position");

-- CreateIndex
CREATE INDEX "HoldPoint_stepId_idx" ON "HoldPoint"("stepId");

-- CreateIndex
CREATE INDEX "Reading_holdPointId_idx" ON "Reading"("holdPointId");

-- CreateIndex
CREATE INDEX "Finding_jobId_idx" ON "Finding"("jobId");

-- CreateIndex
CREATE INDEX "Booking_bayId_startsAt_idx" ON "Booking"("bayId", "startsAt");

-- CreateIndex
CREATE INDEX "Booking_staffId_startsAt_idx" ON "Booking"("staffId", "startsAt");

-- CreateIndex
CREATE INDEX "Booking_jobId_idx" ON "Booking"("jobId");

-- CreateIndex
CREATE INDEX "Booking_state_startsAt_idx" ON "Booking"("state", "startsAt");

-- CreateIndex
CREATE INDEX "TimeEntry_jobId_idx" ON "TimeEntry"("jobId");

-- CreateIndex
CREATE INDEX "TimeEntry_staffId_startedAt_idx" ON "TimeEntry"("staffId", "startedAt");

-- CreateIndex
CREATE INDEX "TestRide_jobId_idx" ON "TestRide"("jobId");

-- CreateIndex
CREATE INDEX "Observation_rideId_idx" ON "Observation"("rideId");

-- CreateIndex
CREATE INDEX "Correction_rideId_idx" ON "Correction"("rideId");

-- CreateIndex
CREATE UNIQUE INDEX "Package_code_key" ON "Package"("code");

-- CreateIndex
CREATE UNIQUE INDEX "PackageRevision_packageId_number_key" ON "PackageRevision"("packageId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Quote_number_key" ON "Quote"("number");

-- CreateIndex
CREATE INDEX "Quote_state_id_idx" ON "Quote"("state", "id");

-- CreateIndex
CREATE INDEX "Quote_customerId_idx" ON "Quote"("customerId");

-- CreateIndex
CREATE INDEX "Quote_bikeId_idx" ON "Quote"("bikeId");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteRevision_quoteId_number_key" ON "QuoteRevision"("quoteId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Acceptance_revisionId_key" ON "Acceptance"("revisionId");

-- CreateIndex
CREATE UNIQUE INDEX "CustomerLink_tokenHash_key" ON "CustomerLink"("tokenHash");

-- CreateIndex
CREATE INDEX "CustomerLink_revisionId_idx" ON "CustomerLink"("revisionId");

-- CreateIndex
CREATE INDEX "CustomerLink_jobId_idx" ON "CustomerLink"("jobId");

-- CreateIndex
CREATE INDEX "CustomerLink_invoiceId_idx" ON "CustomerLink"("invoiceId");

-- CreateIndex
CREATE UNIQUE INDEX "Staff_personId_key" ON "Staff"("personId");

-- CreateIndex
CREATE INDEX "Absence_staffId_fromDay_idx" ON "Absence"("staffId", "fromDay");

-- CreateIndex
CREATE INDEX "Closure_fromDay_idx" ON "Closure"("fromDay");

-- CreateIndex
CREATE UNIQUE INDEX "Bay_name_key" ON "Bay"("name");

-- CreateIndex
CREATE UNIQUE INDEX "LabourGrade_code_key" ON "LabourGrade"("code");

-- CreateIndex
CREATE INDEX "AuditEntry_noun_nounId_idx" ON "AuditEntry"("noun", "nounId");

-- CreateIndex
CREATE UNIQUE INDEX "Part_code_key" ON "Part"("code");

-- CreateIndex
CREATE INDEX "Part_family_sizeMilli_idx" ON "Part"("family", "sizeMilli");

-- CreateIndex
CREATE INDEX "Part_searchKey_idx" ON "Part"("searchKey");

-- CreateIndex
CREATE INDEX "Part_kind_code_idx" ON "Part"("kind", "code");

-- CreateIndex
CREATE INDEX "Move_partId_id_idx" ON "Move"("partId", "id");

-- CreateIndex
CREATE INDEX "Move_jobId_idx" ON "Move"("jobId");

-- CreateIndex
CREATE INDEX "Reservation_partId_state_idx" ON "Reservation"("partId", "state");

-- CreateIndex
CREATE INDEX "Reservation_jobId_idx" ON "Reservation"("jobId");
