import type { LogColumn } from "@/lib/domain/bench/logColumns";

export const DYNO_COLUMNS: readonly LogColumn[] = [
  { key: "rpm", name: "Engine speed", words: ["rpm", "enginespeed", "speed", "revs"] },
  { key: "power", name: "Power", words: ["power", "kw", "hp", "bhp", "ps", "effekt"] },
  { key: "torque", name: "Torque", words: ["torque", "nm", "moment"] },
  { key: "lambda", name: "Lambda", words: ["lambda"] },
  {
    key: "temperature",
    name: "Air temperature",
    words: ["temperature", "temp", "intaketemp", "airtemp", "degc"],
  },
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
