import { SEVERITIES } from "../domain/bench/fuelFlow";
import type { BenchSpecs } from "./bench";

const FUEL = { kind: "number", unit: "ml", low: 1, high: 20_000 } as const;
const SECONDS = { kind: "number", unit: "s", low: 5, high: 600 } as const;

export const FUEL_FIELDS = {
  power: {
    kind: "quantity",
    units: ["kW", "hp", "PS"],
    shown: "power",
    label: "Power at full load",
    low: 0.5,
    high: 300,
    hint: "Of the whole engine; what all its carburettors burn together.",
    needed: true,
  },
  ml: { ...FUEL, label: "Fuel caught, filter in the line", needed: true },
  seconds: { ...SECONDS, label: "In", needed: true },
  mlWithout: { ...FUEL, label: "Fuel caught, filter out", hint: "Blank: not tried." },
  secondsWithout: { ...SECONDS, label: "In, filter out", face: "In" },
  interval: {
    kind: "quantity",
    units: ["km", "mi"],
    shown: "distance",
    label: "Air filter cleaned on the road every",
    low: 50,
    high: 100_000,
    hint: "Blank leaves it out.",
  },
  use: {
    kind: "choice",
    label: "Ridden in",
    options: SEVERITIES.map(({ key, name }) => ({ value: key, label: name })),
  },
} as const satisfies BenchSpecs;
