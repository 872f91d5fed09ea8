import type { DynoRow, DynoTerms } from "@/lib/domain/bench/dynoTypes";
import {
  type LogColumn,
  type LogMapping,
  mapColumns,
  neededColumn,
  numbersOf,
} from "@/lib/domain/bench/logColumns";
import type { Mark } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { FUELS } from "@/lib/domain/tuning/fuels";
import type { LambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { toSi } from "@/lib/domain/units/convert";
import { UNITS, type Unit } from "@/lib/domain/units/units";
import { type DynoInput, type LambdaInput, MOST_LOG_ROWS } from "./benchLogs";
import { parseCsv } from "./csv";
import { DYNO_COLUMNS, LAMBDA_COLUMNS } from "./logColumns";

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

interface Columns {
  readonly headings: readonly string[];
  readonly mapping: LogMapping;
  readonly column: (key: string, loose?: boolean) => readonly number[] | null;
  readonly texts: (key: string) => readonly string[] | null;
  readonly needed: (key: string, loose?: boolean) => readonly number[];
  readonly length: number;
}

/** A log's columns by their headings or as said. Throws Refusal naming the row or the field. */
function columnsOf(
  text: string,
  said: Readonly<Record<string, string>>,
  columns: readonly LogColumn[],
  decimal: Mark,
): Columns {
  const { headings, rows, problems } = parseCsv(text, MOST_LOG_ROWS);
  const [problem] = problems;
  if (problem)
    throw new Refusal(`Row ${problem.line} ${problem.wrong}.`, problem.remedy, {
      csv: `Row ${problem.line} ${problem.wrong}.`,
    });
  const mapping = mapColumns(columns, headings, said);
  const numbers = (at: number, key: string, loose = false) =>
    numbersOf(rows, at, headings[at] ?? "", decimal, key, loose);
  return {
    headings,
    mapping,
    column: (key, loose) =>
      mapping[key] === null || mapping[key] === undefined ? null : numbers(mapping[key], key, loose),
    texts: (key) => {
      const at = mapping[key];
      return at === null || at === undefined ? null : rows.map((row) => (row.cells[at] ?? "").trim());
    },
    needed: (key, loose) =>
      numbers(neededColumn(mapping, key, columns.find((c) => c.key === key)?.name ?? key), key, loose),
    length: rows.length,
  };
}

/** A lambda log without whose it is. */
type LogInput = Omit<LambdaInput, "bike" | "act">;

export interface ReadColumns {
  readonly headings: readonly string[];
  readonly mapping: LogMapping;
}

/** A dyno file's rows in SI by its mapping and units, with what was understood of its heading. Throws Refusal. */
export function dynoRows(
  input: DynoInput,
): ReadColumns & { readonly rows: readonly DynoRow[]; readonly terms: DynoTerms } {
  const c = columnsOf(input.csv, input.map, DYNO_COLUMNS, input.mark);
  const rpm = c.needed("rpm");
  const torque = c.column("torque");
  const power = torque ? null : c.column("power");
  if (!torque && !power)
    throw new Refusal("The file has neither power nor torque.", "Choose the column of one of them.", {
      "map.power": "Choose this column, or torque's.",
    });
  const [lambda, temperature, pressure, humidity, run] = [
    c.column("lambda", true),
    c.column("temperature"),
    c.column("pressure"),
    c.column("humidity"),
    c.texts("run"),
  ];
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
      temperatureK: temperature
        ? toSi(temperature[i] ?? Number.NaN, input.temperatureUnit)
        : typed.temperatureK,
      pressurePa: pressure ? toSi(pressure[i] ?? Number.NaN, input.pressureUnit) : typed.pressurePa,
      humidity: humidity ? (humidity[i] ?? Number.NaN) * share : typed.humidity,
      run: run?.[i] ?? "",
    })),
    terms: {
      standard: input.standard,
      after: input.after
        .split(/[,;]/)
        .map((name) => name.trim())
        .filter(Boolean),
      lowRpm: input.lowRpm,
      highRpm: input.highRpm,
    },
  };
}

/** Where a lambda log was ridden, SI; null where nothing was said. Throws Refusal beside the field. */
export function rideOf(input: LogInput): {
  readonly altitudeM: number | null;
  readonly temperatureK: number | null;
} {
  return {
    altitudeM: besideSi("altitude", input.altitude, input.altitudeUnit),
    temperatureK: besideSi("temperature", input.temperature, input.temperatureUnit),
  };
}

/** A lambda log's columns, throttle 0 to 1 and lambda, by its mapping and units. Throws Refusal. */
export function lambdaColumns(input: LogInput): ReadColumns & { readonly log: LambdaLog } {
  const c = columnsOf(input.csv, input.map, LAMBDA_COLUMNS, input.mark);
  const rpm = c.column("rpm");
  const throttle = c.needed("throttle", true);
  const mixture = c.needed("mixture", true);
  const time = c.column("time");
  if (!time && input.perSecond === null)
    throw new Refusal(
      "The log has no time.",
      "Choose its column, or say how many samples it has per second.",
      { perSecond: "Needed without a time column." },
    );
  const perS = input.perSecond ?? 1;
  const stoichiometric = input.mixtureUnit === "afr" ? FUELS[input.fuel].stoichiometric : 1;
  return {
    headings: c.headings,
    mapping: c.mapping,
    log: {
      timeS: time
        ? time.map((t) => (input.timeUnit === "ms" ? t / 1000 : t))
        : Array.from({ length: c.length }, (_, i) => i / perS),
      throttle: throttle.map((u) => (input.throttleUnit === "percent" ? u / 100 : u)),
      lambda: mixture.map((m) => m / stoichiometric),
      ...(rpm ? { rpm } : {}),
    },
  };
}

/** What was typed, by field name, to stand in the form again beside the answer. */
export function typedLog({
  csv: text,
  held: holds,
  map,
  ...rest
}: DynoInput | LambdaInput | LogInput): Readonly<Record<string, string>> {
  const plain = Object.entries(rest).flatMap(([name, value]) =>
    value === null || value === undefined ? [] : [[name, String(value)] as const],
  );
  const columns = Object.entries(map).map(([name, value]) => [`map.${name}`, value] as const);
  return Object.fromEntries([...plain, ...columns, ...(holds ? [] : [["csv", text] as const])]);
}
