import { z } from "zod";
import { MOST_BYTES } from "@/lib/domain/imports/decode";
import { recordId } from "./ids";
import { shortText, typedNumber } from "./typedNumber";

export const MOST_LOG_ROWS = 50_000;

const Said = z.record(z.string(), z.string().max(12)).default({});
const csv = z
  .string()
  .default("")
  .refine((text) => text.trim() !== "", "The file is empty: paste the log, its heading in the first line.")
  .refine(
    (text) => text.length <= MOST_BYTES,
    "The log is longer than 5 MB: cut out the part you want to read.",
  );
const mark = z.enum([".", ","]).catch(".");
/** Set by a page that still holds the text, so that it need not be sent back. */
const held = z.string().max(40).default("");
const one = <const T extends readonly [string, ...string[]]>(words: T) =>
  z.enum(words).catch(words[0] as never);
/** A quantity beside the file, typed in the unit chosen for the file: wide limits here, the real ones once it is in SI. */
const beside = (name: string) => typedNumber({ name, low: -1000, high: 20_000 });

export const DynoSchema = z.object({
  csv,
  held,
  mark,
  map: Said,
  powerUnit: one(["kW", "hp", "PS", "W"]),
  torqueUnit: one(["Nm", "lbfft", "kgfm"]),
  temperatureUnit: one(["degC", "degF"]),
  pressureUnit: one(["hPa", "kPa", "inHg", "mmHg"]),
  humidityUnit: one(["percent", "share"]),
  standard: z.enum(["none", "EU 134/2014", "ISO 1585", "SAE J1349", "DIN 70020"]).catch("none"),
  temperature: beside("The temperature"),
  pressure: beside("The station pressure"),
  humidity: typedNumber({ name: "The humidity", low: 0, high: 100, unit: "%" }),
  after: shortText(200, "The runs after"),
  lowRpm: typedNumber({ name: "The band's lower end", low: 500, high: 20_000, unit: "rpm" }),
  highRpm: typedNumber({ name: "The band's upper end", low: 500, high: 20_000, unit: "rpm" }),
});
export type DynoInput = z.output<typeof DynoSchema>;

export const LambdaSchema = z.object({
  csv,
  held,
  mark,
  map: Said,
  act: one(["read", "keep"]),
  timeUnit: one(["s", "ms"]),
  perSecond: typedNumber({ name: "Samples per second", low: 0.5, high: 1000 }),
  throttleUnit: one(["percent", "share"]),
  mixtureUnit: one(["lambda", "afr"]),
  fuel: one(["E10", "E0", "E85"]),
  bike: z.preprocess((text) => (text === "" ? undefined : text), recordId.optional()),
  altitudeUnit: one(["m", "ft"]),
  temperatureUnit: one(["degC", "degF"]),
  altitude: beside("The altitude"),
  temperature: beside("The temperature"),
  note: shortText(400, "The note"),
});
export type LambdaInput = z.output<typeof LambdaSchema>;
