import type { Severity } from "../domain/tuning/severity";
import type { BenchSpecs } from "./bench";

const FUEL = { kind: "number", unit: "ml", low: 1, high: 20_000 } as const;
const SECONDS = { kind: "number", unit: "s", low: 5, high: 600 } as const;

const FIELDS = {
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
} as const satisfies BenchSpecs;

/** The fields, with the shop's words for the use: its place in the list stands for it, 0 for the dry road. */
export const fuelFields = (uses: readonly Severity[]) =>
  ({
    ...FIELDS,
    use: {
      kind: "choice",
      label: "Ridden in",
      options: ["the dry road", ...uses.map(({ name, factor }) => `${name}, ÷ ${factor}`)].map(
        (label, at) => ({
          value: String(at),
          label,
        }),
      ),
    },
  }) as const satisfies BenchSpecs;
