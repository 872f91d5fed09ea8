import type { Unit, UnitOf } from "./units";

/** How a shop reads and writes quantities. */
export type UnitSystem = "metric" | "uk" | "us";

/** What is shown at the edges; each use has its unit and decimals per system. */
export type Shown =
  | "airTemperature"
  | "airPressure"
  | "altitude"
  | "distance"
  | "smallLength"
  | "torque"
  | "power"
  | "fluid"
  | "mass"
  | "springRate";

export interface ShownUnit<U extends Unit = Unit> {
  readonly unit: U;
  readonly decimals: number;
}

const as = <U extends Unit>(unit: U, decimals: number): ShownUnit<U> => ({ unit, decimals });

interface Choice {
  readonly airTemperature: ShownUnit<UnitOf<"temperature">>;
  readonly airPressure: ShownUnit<UnitOf<"pressure">>;
  readonly altitude: ShownUnit<UnitOf<"length">>;
  readonly distance: ShownUnit<UnitOf<"length">>;
  readonly smallLength: ShownUnit<UnitOf<"length">>;
  readonly torque: ShownUnit<UnitOf<"torque">>;
  readonly power: ShownUnit<UnitOf<"power">>;
  readonly fluid: ShownUnit<UnitOf<"volume">>;
  readonly mass: ShownUnit<UnitOf<"mass">>;
  readonly springRate: ShownUnit<UnitOf<"rate">>;
}

const METRIC: Choice = {
  airTemperature: as("degC", 1),
  airPressure: as("hPa", 1),
  altitude: as("m", 0),
  distance: as("km", 0),
  smallLength: as("mm", 2),
  torque: as("Nm", 1),
  power: as("kW", 1),
  fluid: as("ml", 0),
  mass: as("kg", 2),
  springRate: as("N/mm", 3),
};

/** Units by system. Carburettor jets and needles stay metric everywhere, as the trade writes them. Common practice. */
export const SYSTEM_UNITS: Readonly<Record<UnitSystem, Choice>> = {
  metric: METRIC,
  uk: { ...METRIC, distance: as("mi", 0), power: as("hp", 1) },
  us: {
    ...METRIC,
    airTemperature: as("degF", 0),
    airPressure: as("inHg", 2),
    altitude: as("ft", 0),
    distance: as("mi", 0),
    torque: as("lbfft", 1),
    power: as("hp", 1),
    fluid: as("flozUS", 2),
    mass: as("lb", 2),
    springRate: as("lbf/in", 2),
  },
};

/** The unit and decimals for something shown, in a shop's system. */
export function shownUnit<S extends Shown>(system: UnitSystem, shown: S): Choice[S] {
  return SYSTEM_UNITS[system][shown];
}
