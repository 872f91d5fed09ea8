import { z } from "zod";
import { type RegimeKey, TAX_REGIMES } from "@/lib/domain/tax/regimes";
import { altitudeUnit, shownAltitude } from "@/lib/domain/units/altitude";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { temperatureUnit } from "@/lib/domain/units/temperature";
import { formId } from "./ids";
import { oneLine } from "./oneLine";
import { ShopName } from "./people";
import { PLACE_FIELDS } from "./place";
import { keptOf, shownIn, type TypedFigure, typedFigure, wholeFigure } from "./typedUnits";

const REGIME_KEYS = TAX_REGIMES.map((regime) => regime.key) as [RegimeKey, ...RegimeKey[]];

const line = (most: number) => oneLine(most).default("");
const lines = (most: number) => z.string().trim().max(most, `At most ${most} characters.`).default("");

/** A whole or decimal number as typed, comma or point; blank is refused unless `blank` says what it means. */
const typedNumber = (low: number, high: number, what: string) =>
  z
    .string()
    .max(40, `Enter ${what} from ${low} to ${high}.`)
    .trim()
    .min(1, `Enter ${what}.`)
    .transform((typed) => Number(typed.replace(/[\s\u00a0]/g, "").replace(",", ".")))
    .refine((n) => Number.isFinite(n) && n >= low && n <= high, `Enter ${what} from ${low} to ${high}.`);

const percentBp = (what: string, most = 100) =>
  typedNumber(0, most, what).transform((percent) => Math.round(percent * 100));
const whole = (low: number, high: number, what: string) =>
  typedNumber(low, high, what).refine((n) => Number.isInteger(n), "Enter a whole number.");

const zoneName = z
  .string()
  .max(60, "Enter a time zone like Australia/Adelaide.")
  .refine((zone) => {
    try {
      return new Intl.DateTimeFormat("en", { timeZone: zone }).resolvedOptions().timeZone.length > 0;
    } catch {
      return false;
    }
  }, "Enter a time zone like Australia/Adelaide.");

const localeName = z
  .string()
  .max(40, "Enter a language tag like en-AU.")
  .refine((locale) => {
    try {
      return Intl.getCanonicalLocales(locale).length === 1;
    } catch {
      return false;
    }
  }, "Enter a language tag like en-AU.");

const TypedSettings = z.object({
  version: formId("Open the page again."),
  name: ShopName,
  legalName: line(160),
  taxNumber: line(40),
  address: lines(400),
  phone: line(60),
  email: line(200),
  bankDetails: lines(400),
  documentNote: lines(600),
  ownTerms: lines(3000),
  locale: localeName,
  zone: zoneName,
  units: z.enum(["metric", "uk", "us"]),
  altitude: wholeFigure,
  altitudeUnit: z.enum(["m", "ft"]).default("m"),
  ...PLACE_FIELDS,
  benchTemperature: typedFigure,
  temperatureUnit: z.enum(["degC", "degF"]).default("degC"),
  taxRegime: z.enum(REGIME_KEYS),
  taxRateBp: percentBp("the tax rate"),
  taxLabour: z
    .literal("on")
    .optional()
    .transform((v) => v === "on"),
  taxParts: z
    .literal("on")
    .optional()
    .transform((v) => v === "on"),
  pricesIncludeTax: z.enum(["yes", "no"]).transform((v) => v === "yes"),
  /** What becomes of the kept prices where that is switched. */
  convertPrices: z.enum(["", "convert", "leave"]).optional(),
  quoteValidDays: whole(1, 365, "the days"),
  /** 0 is never. */
  remindAfterDays: whole(0, 90, "the days").prefault("0"),
  remindBeforeDays: whole(0, 90, "the days").prefault("0"),
  paymentDays: whole(0, 180, "the days"),
  depositBp: percentBp("the deposit"),
  minimumMarginBp: percentBp("the margin"),
  sundriesBp: percentBp("the sundries", 50),
  cashRoundingMinor: whole(1, 1000, "the smallest coin"),
  billingUnit: z.enum(["minutes", "tenths"]),
  deliveryBy: z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, "Enter a time such as 12:00.")
    .prefault("12:00"),
  followUpDays: whole(1, 1500, "the days"),
  followUpDistance: wholeFigure,
  distanceUnit: z.enum(["km", "mi"]).default("km"),
});

/** The same with figures as they are kept: whole metres, degrees Celsius, whole kilometres. */
export const SettingsSchema = TypedSettings.transform((form, context) => {
  const {
    altitude,
    altitudeUnit,
    benchTemperature,
    temperatureUnit,
    followUpDistance,
    distanceUnit,
    ...rest
  } = form;
  const kept = (figure: TypedFigure) => keptOf(figure, context) as number;
  return {
    ...rest,
    altitudeM: kept({ ...ALTITUDE, field: "altitude", typed: altitude, unit: altitudeUnit }),
    benchTemperatureC: kept({
      ...BENCH_TEMPERATURE,
      field: "benchTemperature",
      typed: benchTemperature,
      unit: temperatureUnit,
    }),
    followUpKm: kept({
      ...FOLLOW_UP,
      field: "followUpDistance",
      typed: followUpDistance,
      unit: distanceUnit,
    }),
  };
});

const ALTITUDE = { kept: "m", decimals: 0, low: -400, high: 5000 } as const;
const BENCH_TEMPERATURE = { kept: "degC", decimals: 4, low: -30, high: 50 } as const;
const FOLLOW_UP = { kept: "km", decimals: 0, low: 100, high: 100_000 } as const;
/** A shop's own figures in the units it reads, for their form. */
export function shownSettings(
  kept: { altitudeM: number; benchTemperatureC: number; followUpKm: number },
  system: UnitSystem,
) {
  const unit = temperatureUnit(system);
  return {
    altitude: shownAltitude(kept.altitudeM, system),
    altitudeUnit: altitudeUnit(system),
    benchTemperature: shownIn(kept.benchTemperatureC, "degC", unit, 1),
    temperatureUnit: unit,
    followUpDistance: shownDistance(kept.followUpKm, system),
    distanceUnit: distanceUnit(system),
  } as const;
}

export const BaySchema = z.object({
  name: oneLine(60).min(1, "Enter a name."),
});
export const BayStateSchema = z.object({
  id: formId(),
  version: formId("Open the page again."),
  active: z.enum(["yes", "no"]),
});

const SPAN = /^\s*(\d{1,2}):(\d{2})\s*(?:-|–|to)\s*(\d{1,2}):(\d{2})\s*$/;

/** "08:00-12:00, 12:30-16:30" as spans of a day; blank is a day off. */
const daySpans = z
  .string()
  .max(200, "At most ten spans a day.")
  .transform((typed, context) => {
    const spans: { from: string; to: string }[] = [];
    for (const piece of typed.split(",").filter((p) => p.trim())) {
      const found = SPAN.exec(piece);
      const [, h1, m1, h2, m2] = found ?? [];
      const from = `${h1?.padStart(2, "0")}:${m1}`;
      const to = `${h2?.padStart(2, "0")}:${m2}`;
      const good =
        found && Number(h1) < 24 && Number(h2) <= 24 && Number(m1) < 60 && Number(m2) < 60 && from < to;
      if (!good || (spans.at(-1)?.to ?? "") > from) {
        context.addIssue({
          code: "custom",
          message: `Write spans in order like 08:00-12:00, 12:30-16:30 ("${piece.trim()}" is not).`,
        });
        return z.NEVER;
      }
      spans.push({ from, to });
    }
    return spans;
  });

export const HoursSchema = z.object({
  staffId: formId(),
  version: formId("Open the page again."),
  hours: z.object({
    1: daySpans,
    2: daySpans,
    3: daySpans,
    4: daySpans,
    5: daySpans,
    6: daySpans,
    7: daySpans,
  }),
  grades: z.array(z.string().min(1).max(40)).max(50).default([]),
});

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "Choose a day.");
export const DaysOffSchema = z
  .object({ staffId: z.string().max(20), fromDay: day, toDay: day, why: line(120) })
  .refine((off) => off.fromDay <= off.toDay, { path: ["toDay"], message: "Ends before it begins." });
export const HolidaysSchema = z.object({
  region: z.string().regex(/^[A-Za-z0-9-]{0,12}$/, "Choose a region."),
  days: z.array(day).min(1, "Tick the days to close on.").max(60),
});
export const DaysOffIdSchema = z.object({
  id: formId(),
  kind: z.enum(["absence", "closure"]),
});

export const GradeSchema = z.object({
  id: z.string().max(20).default(""),
  version: formId("Open the page again.").default(1),
  code: z
    .string()
    .trim()
    .toLowerCase()
    .regex(/^[a-z][a-z0-9-]{1,30}$/, "Small letters, figures and dashes."),
  name: oneLine(80).min(1, "Enter a name."),
  rate: z.string().trim().min(1, "Enter the price of an hour.").max(30, "Enter the price in figures."),
  cost: z.string().trim().min(1, "Enter what an hour costs you.").max(30, "Enter the cost in figures."),
});

/** One band a line: "10 = 100" is 100 % on parts costing up to 10; the last line "more = 35". */
export const BandsSchema = z.object({
  bands: z
    .string()
    .max(2000, "At most 2,000 characters.")
    .transform((typed, context) => {
      const bands: { upToE4: number | null; markupBp: number }[] = [];
      for (const written of typed.split(/\r?\n/).filter((l) => l.trim())) {
        const [left = "", right = ""] = written.split("=").map((p) => p.trim().replace(",", "."));
        const upToE4 = /^more$/i.test(left) ? null : Math.round(Number(left) * 10_000);
        const markupBp = Math.round(Number(right) * 100);
        const before = bands.at(-1);
        const rising = !before || (before.upToE4 !== null && (upToE4 === null || upToE4 > before.upToE4));
        if (
          !right ||
          !Number.isFinite(markupBp) ||
          markupBp < 0 ||
          Number.isNaN(upToE4) ||
          (upToE4 !== null && upToE4 <= 0) ||
          !rising
        ) {
          context.addIssue({
            code: "custom",
            message: `"${written.trim()}" is not a band. Write rising costs like 10 = 100, and last: more = 35.`,
          });
          return z.NEVER;
        }
        bands.push({ upToE4, markupBp });
      }
      if (bands.at(-1)?.upToE4 !== null) {
        context.addIssue({ code: "custom", message: "The last line must be like: more = 35." });
        return z.NEVER;
      }
      return bands;
    }),
});
