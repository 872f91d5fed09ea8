import type { HandoverPaper } from "@/lib/documents/handover";
import type { JobCardPaper, StepOnPaper } from "@/lib/documents/jobCard";
import type { QuotePaper } from "@/lib/documents/quote";
import type { SheetPaper } from "@/lib/documents/settingSheet";
import { handOver } from "@/lib/domain/invoices/handOver";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { creditOf } from "@/lib/domain/pricing/invoice";
import { priceQuote } from "@/lib/domain/pricing/quote";
import { priceSale } from "@/lib/domain/pricing/sale";

/** An invented shop's price: `parts` lines of parts beside the labour. */
function priced(country: "AU" | "NO", parts: number) {
  const inclusive = country === "AU";
  const price = priceQuote({
    currency: country === "AU" ? "AUD" : "NOK",
    locale: country === "AU" ? "en-AU" : "nb-NO",
    pricesIncludeTax: inclusive,
    taxRegime: country === "AU" ? "au" : "no",
    labour: [
      {
        key: "work",
        name: "Work, carburettor",
        minutes: 139,
        grade: "Carburettor",
        ratePerHourMinor: 13_200,
        costPerHourMinor: 6_000,
        because: [],
      },
      {
        key: "opening",
        name: "Opening up and closing",
        minutes: 42,
        grade: "Workshop",
        ratePerHourMinor: 11_000,
        costPerHourMinor: 5_000,
        because: [],
      },
    ],
    sharedMinutesSaved: 38,
    parts: [
      {
        code: "RM-142",
        name: "Main jet 142.5",
        unit: "each",
        quantityMilli: 1000,
        unitCostE4: 42_000,
        unitPriceE4: null,
      },
      {
        code: "TL-B",
        name: "Threadlocker, medium",
        unit: "ml",
        quantityMilli: 1500,
        unitCostE4: 6_125,
        unitPriceE4: 12_375,
      },
      ...Array.from({ length: parts }, (_, n) => ({
        code: `P-${n}`,
        name: `Seal number ${n}`,
        unit: "each",
        quantityMilli: 2000,
        unitCostE4: 10_000,
        unitPriceE4: null,
      })),
    ],
    fixed: [{ key: "check", name: "Spark and valve check", priceMinor: 9_500, costMinor: 4_000 }],
    outside: [],
    sundriesBp: 300,
    sundriesMaxMinor: 2_500,
    discountBp: 500,
    discountWhy: "Trail club",
    minimumMarginBp: 0,
    markupBands: [{ upToE4: null, markupBp: 6_000 }],
  });
  return {
    ...price,
    lines: price.lines.map(({ costMinor: _, ...line }) => line),
    taxRegime: price.taxRegime ?? "",
  };
}

const BIKE = {
  name: "Tarrant Drover 580, 2006",
  plate: "SP 640",
  frameNumber: "TT6E00417",
  odometerKm: 41_200,
};

function sellerSample(country: "AU" | "NO") {
  const au = country === "AU";
  return {
    name: au ? "Saltpan Carburettor Works" : "Fjellrev Motor",
    units: "metric",
    legalName: au ? "Saltpan Carburettor Works Pty Ltd" : "Fjellrev Motor AS",
    taxNumber: au ? "51 824 753 556" : "988 077 917 MVA",
    numberName: au ? "ABN" : "Organisation number",
    address: au ? "4 Gauge Street\nSaltpan SA" : "Elvevegen 7\nFjellrev",
    phone: "555 0100",
    email: "desk@example.com",
    bankDetails: "Account 12-3456",
  };
}

/** The same as papers name it that are not frozen. */
export const senderSample = (country: "AU" | "NO") => ({
  ...sellerSample(country),
  locale: country === "AU" ? "en-AU" : "nb-NO",
  country,
});

export function invoiceSample(country: "AU" | "NO", parts = 0, deposit = 10_000): PrintedInvoice {
  const price = priced(country, parts);
  const totals = invoiceTotals(
    { ...price, lines: price.lines.map((line) => ({ ...line, costMinor: null })) },
    deposit,
  );
  const au = country === "AU";
  return {
    kind: "invoice",
    number: 2001,
    written: "2001",
    title: au ? "Tax invoice" : "Faktura",
    issuedOn: "2026-11-25",
    dueOn: "2026-12-02",
    supplyOn: "2026-11-24",
    basis: "fixed",
    credits: null,
    seller: sellerSample(country),
    buyer: {
      name: au ? "Ines Valdborg" : "Åse Bjørkøy Łęska",
      address: "9 Ridge Road\nSaltpan",
      taxNumber: "",
      business: false,
    },
    jobs: [{ number: "601", title: "Open-road breathing", bike: BIKE }],
    quotes: ["1001", "1004"],
    settlements: [],
    country,
    locale: au ? "en-AU" : "nb-NO",
    currency: price.currency,
    pricesIncludeTax: price.pricesIncludeTax,
    taxRegime: price.taxRegime,
    lines: price.lines,
    taxes: totals.taxes,
    netMinor: totals.netMinor,
    taxMinor: totals.taxMinor,
    grossMinor: totals.grossMinor,
    prepaidMinor: totals.prepaidMinor,
    dueMinor: totals.dueMinor,
    deposits: deposit ? [{ paidOn: "2026-11-10", method: "card", amountMinor: deposit }] : [],
    note: "Work is warranted for six months.",
    rule: { tier: "every invoice", source: "" },
  };
}

/** The same invoice twice over: the lines once for each of two jobs, a deposit for the second. */
export function twoJobsSample(country: "AU" | "NO"): PrintedInvoice {
  const one = invoiceSample(country, 0, 0);
  const lines = ["601", "614"].flatMap((job) =>
    one.lines.map((line) => ({ ...line, job, key: `${job} ${line.key}` })),
  );
  const deposits = [{ paidOn: "2026-11-10", method: "card", amountMinor: 5_000, job: "614" }];
  const totals = invoiceTotals({ ...one, lines: lines.map((line) => ({ ...line, costMinor: null })) }, 5_000);
  const [first] = one.jobs;
  if (!first) throw new Error("An invoice of no job.");
  const second = {
    number: "614",
    title: "Chain and sprockets",
    bike: { ...first.bike, name: "Kestrel Trail 400", plate: "KT 40" },
  };
  return {
    ...one,
    jobs: [first, second],
    lines,
    deposits,
    taxes: totals.taxes,
    netMinor: totals.netMinor,
    taxMinor: totals.taxMinor,
    grossMinor: totals.grossMinor,
    prepaidMinor: totals.prepaidMinor,
    dueMinor: totals.dueMinor,
  };
}

export function quoteSample(country: "AU" | "NO"): QuotePaper {
  const price = priced(country, 3);
  const invoice = invoiceSample(country, 3, 0);
  return {
    ...price,
    locale: invoice.locale,
    number: "1001",
    revision: 2,
    sentOn: "2026-11-12",
    validUntil: "2026-11-26",
    title: "Open-road breathing",
    shop: { ...invoice.seller, note: "Prices hold for the days named." },
    customer: invoice.buyer,
    bike: BIKE,
    carburettors: ["Left", "Right"],
    options: [
      {
        name: "Airbox opening, 48 mm",
        plain: "The airbox gets one clean round opening, away from the breather.",
        minutes: 28,
      },
      {
        name: "Main jet to suit",
        plain: "A main jet for your air and the opening, from the drawer.",
        minutes: 10,
      },
      { name: "Spark and valve check", plain: "Plug, gap and clearances looked at.", minutes: 30 },
    ],
    depositMinor: 10_000,
    savedMinutes: 38,
    savedMinor: 6_967,
    minutes: 181,
    settings: [
      { carburettor: 1, setting: "mainJet", value: 142.5, from: 137.5, how: "computed" },
      { carburettor: 2, setting: "mainJet", value: 145, from: 137.5, how: "computed" },
      { carburettor: 1, setting: "airboxOpeningMm", value: 48, from: null, how: "computed" },
    ],
    cautions: ["Louder on the intake side."],
    acknowledgements: [{ text: "I understand that computed settings are a starting point." }],
  };
}

/** The same with two ways and an extra offered, or as its customer's choice made it. */
export function choicesSample(country: "AU" | "NO", chosen = false): QuotePaper {
  const quote = quoteSample(country);
  const alternative = (letter: string, name: string, grossMinor: number, roadUse: boolean) => ({
    letter,
    name,
    options: quote.options.map((o) => o.name),
    grossMinor,
    minutes: 95,
    roadUse,
  });
  return {
    ...quote,
    alternatives: [
      alternative("A", "Open road", quote.grossMinor, true),
      alternative("B", "", 21_250, false),
    ],
    alternative: { letter: "A", name: "Open road" },
    extras: [{ name: "Needle reseated", plain: "Cleaner at quarter.", grossMinor: 8_800, minutes: 46 }],
    ...(chosen ? { madeFrom: 1, taken: ["Spark and valve check"] } : {}),
  };
}

const step = (position: number, more: Partial<StepOnPaper> = {}): StepOnPaper => ({
  position,
  kind: "operation",
  name: `Operation ${position}`,
  instruction: "Stop as soon as the jet seats: brass threads strip easily.",
  settings: [],
  makes: [],
  minutes: 12,
  tools: ["JIS no. 2"],
  cautions: [],
  state: "todo",
  doneByName: "",
  reason: "",
  holdPoints: [],
  parts: [],
  ...more,
});

export const cardSample: JobCardPaper = {
  number: "601",
  title: "Open-road breathing",
  customer: { name: "Ines Valdborg" },
  bike: { name: "Tarrant Drover 580", plate: "SP 640" },
  complaint: "Flat at quarter throttle when warm.",
  odometerKm: 41_200,
  minutes: 181,
  day: "2026-11-25",
  shop: senderSample("AU"),
  steps: [
    step(1, {
      kind: "open",
      name: "Take off: seat and tank",
      state: "done",
      doneByName: "Rafe Tolland",
      cautions: ["Fuel vapour. No flame, no sparks."],
    }),
    step(2, {
      name: "Fit the main jet",
      parts: [{ wantedMilli: 1000, part: { code: "RM-142", name: "Main jet 142.5", unit: "each" } }],
      holdPoints: [
        {
          kind: "reading",
          name: "Float height",
          unit: "mm",
          low: 12,
          high: 13,
          measures: "floatHeightMm",
          passed: true,
          overrideReason: "",
          readings: [{ value: 12.5 }],
        },
        {
          kind: "check",
          name: "O-ring seated",
          unit: "",
          low: null,
          high: null,
          measures: "",
          passed: false,
          overrideReason: "",
          readings: [],
        },
      ],
    }),
    step(3, { kind: "close", name: "Bowl on", state: "skipped", reason: "Bowl renewed" }),
    ...Array.from({ length: 24 }, (_, n) =>
      step(4 + n, {
        holdPoints: [
          {
            kind: "reading",
            name: "Idle speed",
            unit: "rpm",
            low: 1350,
            high: null,
            measures: "idleSpeedRpm",
            passed: false,
            overrideReason: "",
            readings: [],
          },
        ],
      }),
    ),
  ],
};

export const sheetSample: SheetPaper = {
  kind: "target",
  day: "2026-11-25",
  dayText: "25 November 2026",
  takenBy: "Rafe Tolland",
  job: "601",
  odometerKm: 41_200,
  customer: "Ines Valdborg",
  bike: "Orme Twin 750, 1994",
  plate: "SP 750",
  carburettors: [
    { position: 1, label: "Left", marking: "A2" },
    { position: 2, label: "Right", marking: "" },
  ],
  conditions: {
    altitudeM: 410,
    season: "summer",
    temperatureC: 24,
    humidityPercent: 35,
    pressureHpa: 966.4,
  },
  note: "Right needle was bent and is renewed.",
  values: [
    { carburettor: 1, setting: "mainJet", value: 142.5, how: "computed" },
    { carburettor: 2, setting: "mainJet", value: 145, how: "computed" },
    { carburettor: 1, setting: "mixtureScrewTurns", value: 2.125, how: "measured" },
    { carburettor: 2, setting: "clipPosition", value: 3, how: "read" },
  ],
  shop: senderSample("AU"),
};

export const handoverSample: HandoverPaper = {
  job: { number: "601", title: "Open-road breathing" },
  customer: "Ines Valdborg",
  bike: "Tarrant Drover 580, 2006",
  plate: "SP 640",
  odometerKm: 41_200,
  day: "2026-11-24",
  dayText: "24 November 2026",
  work: ["Cut the opening", "Fit the main jet", "Renew the breather filter"],
  readings: [
    {
      name: "Needle jet bore",
      unit: "mm",
      measures: "needleJetBoreMm",
      station: null,
      carburettor: null,
      low: null,
      high: 2.6,
      value: 2.56,
      found: 2.615,
      overrideReason: "",
    },
  ],
  letPass: [],
  asFound: [{ carburettor: 1, setting: "mainJet", value: 137.5, how: "read" }],
  asLeft: [
    { carburettor: 1, setting: "mainJet", value: 142.5, how: "read" },
    { carburettor: 1, setting: "idleSpeedRpm", value: 1400, how: "measured" },
  ],
  needles: [
    { carburettor: 1, atMm: 36, found: 2.14, left: 2.11, how: "measured" },
    { carburettor: 1, atMm: 56, found: null, left: 1.49, how: "computed" },
  ],
  fitted: [{ code: "RM-142", name: "Main jet 142.5", unit: "each", quantityMilli: 1000 }],
  cautions: ["Louder on the intake side."],
  checks: [
    { what: "Look at again after heat and cold: header nuts", said: "24 May 2027 / 44,200 km" },
    { what: "Service by the model's interval", said: "47,200 km" },
  ],
  toPay: [
    { what: "Invoice 2041, by 1 December 2026", said: "812.50" },
    { what: "To pay", said: "812.50" },
  ],
  signed: { signedBy: "Ines Valdborg", signedText: "24 Nov 2026, 16:10", signature: "" },
  shop: senderSample("AU"),
};

/** A receipt of two jets and a gasket paid in cash, or the slip of its return. */
export function receiptSample(country: "AU" | "NO", back = false): PrintedInvoice {
  const au = country === "AU";
  const base = invoiceSample(country, 0, 0);
  const part = (code: string, name: string, pieces: number, priceE4: number, discountBp = 0) => ({
    code,
    name,
    unit: "each",
    quantityMilli: pieces * 1000,
    unitPriceE4: priceE4,
    discountBp,
  });
  const parts = au
    ? [part("MH-125", "Main jet 125", 2, 84_200), part("BG-4", "Bowl gasket", 1, 31_000, 1000)]
    : [part("HD-125", "Hoveddyse 125", 2, 680_000), part("FP-4", "Flottørpakning", 1, 333_300)];
  const { currency, locale, pricesIncludeTax, taxRegime } = base;
  const rules = { currency, locale, pricesIncludeTax, taxRegime, discountBp: 0, discountWhy: "" };
  const priced = priceSale(parts, rules);
  const lines = back ? creditOf(priced.lines) : priced.lines;
  const totals = invoiceTotals({ ...priced, lines });
  const { method, amountMinor, roundingMinor, givenMinor, changeMinor } = handOver(
    priced.grossMinor,
    "cash",
    back ? null : au ? 2000 : 50_000,
    au ? 5 : 100,
    rules,
  );
  return {
    ...base,
    kind: back ? "creditNote" : "receipt",
    number: back ? 301 : 501,
    written: back ? "301" : "501",
    title: au ? "Tax invoice" : "Salgskvittering",
    basis: "counter",
    dueOn: base.issuedOn,
    supplyOn: base.issuedOn,
    credits: back
      ? { kind: "receipt", number: 501, written: "501", issuedOn: base.issuedOn, reason: "Wrong size" }
      : null,
    buyer: { name: "", address: "", taxNumber: "", business: false },
    jobs: [],
    quotes: [],
    settlements: [{ method, amountMinor, roundingMinor, givenMinor, changeMinor }],
    lines: lines.map(({ costMinor: _, ...line }) => line),
    taxes: totals.taxes,
    netMinor: totals.netMinor,
    taxMinor: totals.taxMinor,
    grossMinor: totals.grossMinor,
    dueMinor: totals.dueMinor,
  };
}
