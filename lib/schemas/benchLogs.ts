import { z } from "zod";
import { mapColumns, neededColumn, numbersOf, type LogColumn, type LogMapping } from "@/lib/domain/bench/logColumns";
import type { DynoRow, DynoTerms } from "@/lib/domain/bench/dynoReading";
import { MOST_BYTES } from "@/lib/domain/imports/decode";
import type { Mark } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { FUELS } from "@/lib/domain/tuning/fuels";
import type { LambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { toSi } from "@/lib/domain/units/convert";
import { UNITS, type Unit } from "@/lib/domain/units/units";
import { parseCsv } from "./csv";
import { recordId, shortText, typedNumber } from "./typedNumber";

export const MOST_LOG_ROWS = 50_000;

export const DYNO_COLUMNS: readonly LogColumn[] = [
  { key: "rpm", name: "Engine speed", words: ["rpm", "enginespeed", "speed", "revs"] },
  { key: "power", name: "Power", words: ["power", "kw", "hp", "bhp", "ps", "effekt"] },
  { key: "torque", name: "Torque", words: ["torque", "nm", "moment"] },
  { key: "lambda", name: "Lambda", words: ["lambda"] },
  { key: "temperature", name: "Air temperature", words: ["temperature", "temp", "intaketemp", "airtemp", "degc"] },
  { key: "pressure", name: "Air pressure", words: ["pressure", "baro", "hpa", "mbar"] },
  { key: "humidity", name: "Humidity", words: ["humidity", "rh"] },
  { key: "run", name: "Run", words: ["run", "pull", "beforeafter", "when", "name"] },
];

export const LAMBDA_COLUMNS: readonly LogColumn[] = [
  { key: "time", name: "Time", words: ["time", "seconds", "sec", "timestamp", "ms", "tid"] },
  { key: "throttle", name: "Throttle", words: ["throttle", "tps", "grip", "gass"] },
  { key: "mixture", name: "Lambda or air/fuel ratio", words: ["lambda", "afr", "airfuel", "wideband", "o2"] },
  { key: "rpm", name: "Engine speed", words: ["rpm", "enginespeed", "speed", "revs"] },
];

const Said = z.record(z.string(), z.string().max(12)).default({});
const csv = z
  .string()
  .default("")
  .refine((text) => text.trim() !== "", "The file is empty: paste the log, its heading in the first line.")
  .refine((text) => text.length <= MOST_BYTES, "The log is longer than 5 MB: cut out the part you want to read.");
const mark = z.enum([".", ","]).catch(".");
/** Set by a page that still holds the text, so that it need not be sent back. */
const held = z.string().default("");
const one = <const T extends readonly [string, ...string[]]>(words: T) => z.enum(words).catch(words[0] as never);
/** A quantity beside the file, typed in the unit chosen for the file: wide limits here, the real ones once it is in SI. */
const beside = (name: string) => typedNumber({ name, low: -1000, high: 20_000 });

const BESIDE = {
  temperature: { name: "The temperature", low: 243.15, high: 328.15, said: "-30 to 55 °C" },
  pressure: { name: "The station pressure", low: 60_000, high: 110_000, said: "600 to 1100 hPa" },
  altitude: { name: "The altitude", low: -400, high: 5000, said: "-400 to 5000 m" },
} as const;

/** What was typed beside the file, in SI; null when blank. Throws Refusal beside its field. */
function besideSi(field: keyof typeof BESIDE, value: number | null, unit: Unit): number | null {
  if (value === null) return null;
  const { name, low, high, said } = BESIDE[field];
  const si = toSi(value, unit) as number;
  if (si >= low && si <= high) return si;
  const message = `${name} is ${value} ${UNITS[unit].sign}, outside ${said}.`;
  throw new Refusal(message, "Check the number and its unit.", { [field]: message });
}

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

interface Columns {
  readonly headings: readonly string[];
  readonly mapping: LogMapping;
  readonly column: (key: string, loose?: boolean) => readonly number[] | null;
  readonly texts: (key: string) => readonly string[] | null;
  readonly needed: (key: string, loose?: boolean) => readonly number[];
  readonly length: number;
}

/** A log's columns by their headings or as said. Throws Refusal naming the row or the field. */
function columnsOf(text: string, said: Readonly<Record<string, string>>, columns: readonly LogColumn[], decimal: Mark): Columns {
  const { headings, rows, problems } = parseCsv(text, MOST_LOG_ROWS);
  const [problem] = problems;
  if (problem) throw new Refusal(`Row ${problem.line} ${problem.wrong}.`, problem.remedy, { csv: `Row ${problem.line} ${problem.wrong}.` });
  const mapping = mapColumns(columns, headings, said);
  const numbers = (at: number, key: string, loose = false) => numbersOf(rows, at, headings[at] ?? "", decimal, key, loose);
  return {
    headings,
    mapping,
    column: (key, loose) => (mapping[key] === null || mapping[key] === undefined ? null : numbers(mapping[key], key, loose)),
    texts: (key) => {
      const at = mapping[key];
      return at === null || at === undefined ? null : rows.map((row) => (row.cells[at] ?? "").trim());
    },
    needed: (key, loose) => numbers(neededColumn(mapping, key, columns.find((c) => c.key === key)?.name ?? key), key, loose),
    length: rows.length,
  };
}

export interface ReadColumns {
  readonly headings: readonly string[];
  readonly mapping: LogMapping;
}

/** A dyno file's rows in SI by its mapping and units, with what was understood of its heading. Throws Refusal. */
export function dynoRows(input: DynoInput): ReadColumns & { readonly rows: readonly DynoRow[]; readonly terms: DynoTerms } {
  const c = columnsOf(input.csv, input.map, DYNO_COLUMNS, input.mark);
  const rpm = c.needed("rpm");
  const torque = c.column("torque");
  const power = torque ? null : c.column("power");
  if (!torque && !power)
    throw new Refusal("The file has neither power nor torque.", "Choose the column of one of them.", { "map.power": "Choose this column, or torque's." });
  const [lambda, temperature, pressure, humidity, run] = [c.column("lambda", true), c.column("temperature"), c.column("pressure"), c.column("humidity"), c.texts("run")];
  const share = input.humidityUnit === "percent" ? 0.01 : 1;
  const typed = {
    temperatureK: besideSi("temperature", input.temperature, input.temperatureUnit),
    pressurePa: besideSi("pressure", input.pressure, input.pressureUnit),
    humidity: input.humidity === null ? null : input.humidity / 100,
  };
  return {
    headings: c.headings,
    mapping: c.mapping,
    rows: rpm.map((speed, i) => ({
      rpm: speed,
      powerW: power ? toSi(power[i] ?? Number.NaN, input.powerUnit) : null,
      torqueNm: torque ? toSi(torque[i] ?? Number.NaN, input.torqueUnit) : null,
      lambda: lambda?.[i] ?? null,
      temperatureK: temperature ? toSi(temperature[i] ?? Number.NaN, input.temperatureUnit) : typed.temperatureK,
      pressurePa: pressure ? toSi(pressure[i] ?? Number.NaN, input.pressureUnit) : typed.pressurePa,
      humidity: humidity ? (humidity[i] ?? Number.NaN) * share : typed.humidity,
      run: run?.[i] ?? "",
    })),
    terms: {
      standard: input.standard,
      after: input.after.split(/[,;]/).map((name) => name.trim()).filter(Boolean),
      lowRpm: input.lowRpm,
      highRpm: input.highRpm,
    },
  };
}

/** Where a lambda log was ridden, SI; null where nothing was said. Throws Refusal beside the field. */
export function rideOf(input: LambdaInput): { readonly altitudeM: number | null; readonly temperatureK: number | null } {
  return {
    altitudeM: besideSi("altitude", input.altitude, input.altitudeUnit),
    temperatureK: besideSi("temperature", input.temperature, input.temperatureUnit),
  };
}

/** A lambda log's columns, throttle 0 to 1 and lambda, by its mapping and units. Throws Refusal. */
export function lambdaColumns(input: LambdaInput): ReadColumns & { readonly log: LambdaLog } {
  const c = columnsOf(input.csv, input.map, LAMBDA_COLUMNS, input.mark);
  const rpm = c.column("rpm");
  const throttle = c.needed("throttle", true);
  const mixture = c.needed("mixture", true);
  const time = c.column("time");
  if (!time && input.perSecond === null)
    throw new Refusal("The log has no time.", "Choose its column, or say how many samples it has per second.", { perSecond: "Needed without a time column." });
  const perS = input.perSecond ?? 1;
  const stoichiometric = input.mixtureUnit === "afr" ? FUELS[input.fuel].stoichiometric : 1;
  return {
    headings: c.headings,
    mapping: c.mapping,
    log: {
      timeS: time ? time.map((t) => (input.timeUnit === "ms" ? t / 1000 : t)) : Array.from({ length: c.length }, (_, i) => i / perS),
      throttle: throttle.map((u) => (input.throttleUnit === "percent" ? u / 100 : u)),
      lambda: mixture.map((m) => m / stoichiometric),
      ...(rpm ? { rpm } : {}),
    },
  };
}

/** What was typed, by field name, to stand in the form again beside the answer. */
export function typedLog({ csv: text, held: holds, map, ...rest }: DynoInput | LambdaInput): Readonly<Record<string, string>> {
  const plain = Object.entries(rest).flatMap(([name, value]) => (value === null || value === undefined ? [] : [[name, String(value)] as const]));
  const columns = Object.entries(map).map(([name, value]) => [`map.${name}`, value] as const);
  return Object.fromEntries([...plain, ...columns, ...(holds ? [] : [["csv", text] as const])]);
}
