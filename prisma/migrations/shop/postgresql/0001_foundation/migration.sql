-- CreateEnum
CREATE TYPE "SheetKind" AS ENUM ('asFound', 'target', 'asLeft');

-- CreateEnum
CREATE TYPE "FollowUpState" AS ENUM ('due', 'done', 'dropped');

-- CreateEnum
CREATE TYPE "InvoiceKind" AS ENUM ('invoice', 'creditNote');

-- CreateEnum
CREATE TYPE "InvoiceState" AS ENUM ('draft', 'issued');

-- CreateEnum
CREATE TYPE "PaymentKind" AS ENUM ('deposit', 'payment', 'refund');

-- CreateEnum
CREATE TYPE "JobState" AS ENUM ('waiting', 'booked', 'inWork', 'ride', 'ready', 'invoiced', 'closed', 'cancelled');

-- CreateEnum
CREATE TYPE "StepKind" AS ENUM ('open', 'operation', 'close', 'ride');

-- CreateEnum
CREATE TYPE "StepState" AS ENUM ('todo', 'done', 'skipped');

-- CreateEnum
CREATE TYPE "HoldKind" AS ENUM ('reading', 'signature', 'check');

-- CreateEnum
CREATE TYPE "FindingState" AS ENUM ('open', 'quoted', 'agreed', 'noted');

-- CreateEnum
CREATE TYPE "BookingState" AS ENUM ('held', 'done', 'cancelled');

-- CreateEnum
CREATE TYPE "PackageState" AS ENUM ('draft', 'published');

-- CreateEnum
CREATE TYPE "QuoteState" AS ENUM ('draft', 'sent', 'accepted', 'declined', 'expired', 'replaced');

-- CreateEnum
CREATE TYPE "LinkPurpose" AS ENUM ('quote', 'job', 'invoice');

-- CreateEnum
CREATE TYPE "PartKind" AS ENUM ('jet', 'needle', 'spring', 'filter', 'screw', 'hose', 'seal', 'chemical', 'other');

-- CreateEnum
CREATE TYPE "PartUnit" AS ENUM ('each', 'ml', 'mm', 'g');

-- CreateEnum
CREATE TYPE "MoveKind" AS ENUM ('opening', 'receipt', 'use', 'returnToStock', 'returnToSupplier', 'count', 'scrap', 'split');

-- CreateEnum
CREATE TYPE "ReservationState" AS ENUM ('held', 'used', 'released');

-- CreateTable
CREATE TABLE "Customer" (
    "id" SERIAL NOT NULL,
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
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Customer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ModelCard" (
    "id" SERIAL NOT NULL,
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
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "ModelCard_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ModelFact" (
    "id" SERIAL NOT NULL,
    "modelCardId" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "value" DOUBLE PRECISION,
    "text" TEXT,
    "how" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "ModelFact_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Bike" (
    "id" SERIAL NOT NULL,
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
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Bike_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Carburettor" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "label" TEXT NOT NULL,
    "marking" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Carburettor_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SettingSheet" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "kind" "SheetKind" NOT NULL,
    "takenAt" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "conditions" JSONB,
    "calculation" JSONB,
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "SettingSheet_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SettingValue" (
    "id" SERIAL NOT NULL,
    "sheetId" INTEGER NOT NULL,
    "carburettor" INTEGER NOT NULL,
    "setting" TEXT NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,
    "how" TEXT NOT NULL,

    CONSTRAINT "SettingValue_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FollowUp" (
    "id" SERIAL NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "jobId" INTEGER,
    "what" TEXT NOT NULL,
    "dueOn" TEXT NOT NULL,
    "dueKm" INTEGER,
    "state" "FollowUpState" NOT NULL DEFAULT 'due',
    "outcome" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMP(3) NOT NULL,
    "doneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "FollowUp_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Invoice" (
    "id" SERIAL NOT NULL,
    "kind" "InvoiceKind" NOT NULL DEFAULT 'invoice',
    "number" INTEGER,
    "state" "InvoiceState" NOT NULL DEFAULT 'draft',
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
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Invoice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Payment" (
    "id" SERIAL NOT NULL,
    "kind" "PaymentKind" NOT NULL,
    "jobId" INTEGER NOT NULL,
    "invoiceId" INTEGER,
    "method" TEXT NOT NULL,
    "amountMinor" INTEGER NOT NULL,
    "roundingMinor" INTEGER NOT NULL DEFAULT 0,
    "paidOn" TEXT NOT NULL,
    "reference" TEXT NOT NULL DEFAULT '',
    "staffId" INTEGER,
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "Payment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Job" (
    "id" SERIAL NOT NULL,
    "number" INTEGER NOT NULL,
    "customerId" INTEGER NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "state" "JobState" NOT NULL DEFAULT 'waiting',
    "minutes" INTEGER NOT NULL,
    "stopped" TEXT NOT NULL DEFAULT '',
    "odometerKm" INTEGER,
    "arrivedAt" TIMESTAMP(3),
    "startedAt" TIMESTAMP(3),
    "finishedAt" TIMESTAMP(3),
    "closedAt" TIMESTAMP(3),
    "notes" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Job_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Step" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "kind" "StepKind" NOT NULL,
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "instruction" TEXT NOT NULL DEFAULT '',
    "minutes" INTEGER NOT NULL,
    "grade" TEXT NOT NULL DEFAULT '',
    "tools" JSONB NOT NULL,
    "cautions" JSONB NOT NULL,
    "state" "StepState" NOT NULL DEFAULT 'todo',
    "doneAt" TIMESTAMP(3),
    "doneBy" INTEGER,
    "reason" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Step_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "HoldPoint" (
    "id" SERIAL NOT NULL,
    "stepId" INTEGER NOT NULL,
    "position" INTEGER NOT NULL,
    "kind" "HoldKind" NOT NULL,
    "name" TEXT NOT NULL,
    "unit" TEXT NOT NULL DEFAULT '',
    "low" DOUBLE PRECISION,
    "high" DOUBLE PRECISION,
    "increment" DOUBLE PRECISION,
    "passed" BOOLEAN NOT NULL DEFAULT false,
    "overrideReason" TEXT NOT NULL DEFAULT '',
    "overriddenBy" INTEGER,

    CONSTRAINT "HoldPoint_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Reading" (
    "id" SERIAL NOT NULL,
    "holdPointId" INTEGER NOT NULL,
    "value" DOUBLE PRECISION,
    "inside" BOOLEAN NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "Reading_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Finding" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "text" TEXT NOT NULL,
    "state" "FindingState" NOT NULL DEFAULT 'open',
    "createdAt" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Finding_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Booking" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "bayId" INTEGER NOT NULL,
    "staffId" INTEGER NOT NULL,
    "startsAt" TIMESTAMP(3) NOT NULL,
    "endsAt" TIMESTAMP(3) NOT NULL,
    "dropOffAt" TIMESTAMP(3),
    "pickUpAt" TIMESTAMP(3),
    "state" "BookingState" NOT NULL DEFAULT 'held',
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Booking_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "TimeEntry" (
    "id" SERIAL NOT NULL,
    "staffId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "startedAt" TIMESTAMP(3) NOT NULL,
    "endedAt" TIMESTAMP(3),
    "reason" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "TimeEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "TestRide" (
    "id" SERIAL NOT NULL,
    "jobId" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "odometerKm" INTEGER,
    "conditions" JSONB,
    "good" BOOLEAN NOT NULL DEFAULT false,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "TestRide_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Observation" (
    "id" SERIAL NOT NULL,
    "rideId" INTEGER NOT NULL,
    "throttle" TEXT NOT NULL,
    "condition" TEXT NOT NULL,
    "engine" TEXT NOT NULL,
    "sign" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Observation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Correction" (
    "id" SERIAL NOT NULL,
    "rideId" INTEGER NOT NULL,
    "rank" INTEGER NOT NULL,
    "setting" TEXT NOT NULL,
    "fromValue" DOUBLE PRECISION NOT NULL,
    "toValue" DOUBLE PRECISION NOT NULL,
    "because" JSONB NOT NULL,
    "needs" TEXT NOT NULL DEFAULT '',
    "acceptedAt" TIMESTAMP(3),
    "acceptedBy" INTEGER,
    "sheetId" INTEGER,

    CONSTRAINT "Correction_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Package" (
    "id" SERIAL NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "summary" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Package_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PackageRevision" (
    "id" SERIAL NOT NULL,
    "packageId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "state" "PackageState" NOT NULL,
    "recipe" JSONB NOT NULL,
    "publishedAt" TIMESTAMP(3),
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "PackageRevision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Quote" (
    "id" SERIAL NOT NULL,
    "number" INTEGER NOT NULL,
    "customerId" INTEGER NOT NULL,
    "bikeId" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "state" "QuoteState" NOT NULL DEFAULT 'draft',
    "variationOfId" INTEGER,
    "validUntil" TEXT NOT NULL,
    "revisionNumber" INTEGER NOT NULL DEFAULT 1,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "sentAt" TIMESTAMP(3),
    "answeredAt" TIMESTAMP(3),
    "declineReason" TEXT NOT NULL DEFAULT '',
    "searchKey" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "createdBy" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Quote_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "QuoteRevision" (
    "id" SERIAL NOT NULL,
    "quoteId" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "packageRevisionId" INTEGER NOT NULL,
    "choices" JSONB NOT NULL,
    "conditions" JSONB NOT NULL,
    "frozen" JSONB,
    "hash" TEXT,
    "frozenAt" TIMESTAMP(3),
    "netMinor" INTEGER NOT NULL DEFAULT 0,
    "taxMinor" INTEGER NOT NULL DEFAULT 0,
    "grossMinor" INTEGER NOT NULL DEFAULT 0,
    "depositMinor" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "createdAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "QuoteRevision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Acceptance" (
    "id" SERIAL NOT NULL,
    "revisionId" INTEGER NOT NULL,
    "typedName" TEXT NOT NULL,
    "acknowledgements" JSONB NOT NULL,
    "shownHash" TEXT NOT NULL,
    "agent" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "Acceptance_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CustomerLink" (
    "id" SERIAL NOT NULL,
    "purpose" "LinkPurpose" NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "revisionId" INTEGER,
    "jobId" INTEGER,
    "invoiceId" INTEGER,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "expiresAt" TIMESTAMP(3) NOT NULL,
    "openedAt" TIMESTAMP(3),
    "revokedAt" TIMESTAMP(3),

    CONSTRAINT "CustomerLink_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Settings" (
    "id" INTEGER NOT NULL DEFAULT 1,
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
    "benchTemperatureC" DOUBLE PRECISION NOT NULL DEFAULT 20,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Settings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Counter" (
    "name" TEXT NOT NULL,
    "next" INTEGER NOT NULL,

    CONSTRAINT "Counter_pkey" PRIMARY KEY ("name")
);

-- CreateTable
CREATE TABLE "Once" (
    "key" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "result" TEXT NOT NULL,

    CONSTRAINT "Once_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "Staff" (
    "id" SERIAL NOT NULL,
    "personId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "hours" JSONB NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Staff_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Absence" (
    "id" SERIAL NOT NULL,
    "staffId" INTEGER NOT NULL,
    "fromDay" TEXT NOT NULL,
    "toDay" TEXT NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Absence_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Closure" (
    "id" SERIAL NOT NULL,
    "fromDay" TEXT NOT NULL,
    "toDay" TEXT NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Closure_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Bay" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Bay_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LabourGrade" (
    "id" SERIAL NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "ratePerHourMinor" INTEGER NOT NULL,
    "costPerHourMinor" INTEGER NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "LabourGrade_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "MarkupBand" (
    "id" SERIAL NOT NULL,
    "upToE4" INTEGER,
    "markupBp" INTEGER NOT NULL,

    CONSTRAINT "MarkupBand_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Mail" (
    "id" SERIAL NOT NULL,
    "to" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "createdAt" TIMESTAMP(3) NOT NULL,
    "sentAt" TIMESTAMP(3),
    "failure" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Mail_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" SERIAL NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "personId" TEXT NOT NULL,
    "personName" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" INTEGER,
    "detail" JSONB,

    CONSTRAINT "AuditEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ImportRun" (
    "id" SERIAL NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "noun" TEXT NOT NULL,
    "fileName" TEXT NOT NULL,
    "rows" INTEGER NOT NULL,
    "added" INTEGER NOT NULL,
    "changed" INTEGER NOT NULL,
    "staffId" INTEGER,

    CONSTRAINT "ImportRun_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Part" (
    "id" SERIAL NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" "PartKind" NOT NULL,
    "unit" "PartUnit" NOT NULL DEFAULT 'each',
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
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Part_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Move" (
    "id" SERIAL NOT NULL,
    "partId" INTEGER NOT NULL,
    "kind" "MoveKind" NOT NULL,
    "quantityMilli" INTEGER NOT NULL,
    "unitCostE4" INTEGER,
    "at" TIMESTAMP(3) NOT NULL,
    "staffId" INTEGER,
    "jobId" INTEGER,
    "stepId" INTEGER,
    "why" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "Move_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Reservation" (
    "id" SERIAL NOT NULL,
    "partId" INTEGER NOT NULL,
    "jobId" INTEGER NOT NULL,
    "stepId" INTEGER,
    "wantedMilli" INTEGER NOT NULL,
    "heldMilli" INTEGER NOT NULL,
    "usedMilli" INTEGER NOT NULL DEFAULT 0,
    "state" "ReservationState" NOT NULL DEFAULT 'held',
    "createdAt" TIMESTAMP(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "Reservation_pkey" PRIMARY KEY ("id")
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

-- AddForeignKey
ALTER TABLE "ModelFact" ADD CONSTRAINT "ModelFact_modelCardId_fkey" FOREIGN KEY ("modelCardId") REFERENCES "ModelCard"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Bike" ADD CONSTRAINT "Bike_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Bike" ADD CONSTRAINT "Bike_modelCardId_fkey" FOREIGN KEY ("modelCardId") REFERENCES "ModelCard"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Carburettor" ADD CONSTRAINT "Carburettor_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SettingSheet" ADD CONSTRAINT "SettingSheet_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SettingSheet" ADD CONSTRAINT "SettingSheet_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SettingValue" ADD CONSTRAINT "SettingValue_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "SettingSheet"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FollowUp" ADD CONSTRAINT "FollowUp_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invoice" ADD CONSTRAINT "Invoice_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invoice" ADD CONSTRAINT "Invoice_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invoice" ADD CONSTRAINT "Invoice_creditsId_fkey" FOREIGN KEY ("creditsId") REFERENCES "Invoice"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Payment" ADD CONSTRAINT "Payment_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Payment" ADD CONSTRAINT "Payment_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Step" ADD CONSTRAINT "Step_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "HoldPoint" ADD CONSTRAINT "HoldPoint_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Reading" ADD CONSTRAINT "Reading_holdPointId_fkey" FOREIGN KEY ("holdPointId") REFERENCES "HoldPoint"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Finding" ADD CONSTRAINT "Finding_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Finding" ADD CONSTRAINT "Finding_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_bayId_fkey" FOREIGN KEY ("bayId") REFERENCES "Bay"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeEntry" ADD CONSTRAINT "TimeEntry_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeEntry" ADD CONSTRAINT "TimeEntry_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeEntry" ADD CONSTRAINT "TimeEntry_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TestRide" ADD CONSTRAINT "TestRide_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Observation" ADD CONSTRAINT "Observation_rideId_fkey" FOREIGN KEY ("rideId") REFERENCES "TestRide"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Correction" ADD CONSTRAINT "Correction_rideId_fkey" FOREIGN KEY ("rideId") REFERENCES "TestRide"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PackageRevision" ADD CONSTRAINT "PackageRevision_packageId_fkey" FOREIGN KEY ("packageId") REFERENCES "Package"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Quote" ADD CONSTRAINT "Quote_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Quote" ADD CONSTRAINT "Quote_bikeId_fkey" FOREIGN KEY ("bikeId") REFERENCES "Bike"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Quote" ADD CONSTRAINT "Quote_variationOfId_fkey" FOREIGN KEY ("variationOfId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteRevision" ADD CONSTRAINT "QuoteRevision_quoteId_fkey" FOREIGN KEY ("quoteId") REFERENCES "Quote"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "QuoteRevision" ADD CONSTRAINT "QuoteRevision_packageRevisionId_fkey" FOREIGN KEY ("packageRevisionId") REFERENCES "PackageRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Acceptance" ADD CONSTRAINT "Acceptance_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Absence" ADD CONSTRAINT "Absence_staffId_fkey" FOREIGN KEY ("staffId") REFERENCES "Staff"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Move" ADD CONSTRAINT "Move_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Move" ADD CONSTRAINT "Move_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Reservation" ADD CONSTRAINT "Reservation_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Reservation" ADD CONSTRAINT "Reservation_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Reservation" ADD CONSTRAINT "Reservation_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step"("id") ON DELETE SET NULL ON UPDATE CASCADE;
