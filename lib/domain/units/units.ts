/**
 * Units at the edges of the program; inside, values are SI. `factor` is the SI value of one unit, `offset` is added to
 * the number before the factor applies (degrees). All factors are exact by definition unless noted.
 * Sources: SI Brochure (BIPM, 9th edition); international yard and pound of 1959 (in 0.0254 m, lb 0.45359237 kg);
 * NIST SP 811 appendix B for the rest; standard gravity 9.80665 m/s2.
 */
export interface UnitDef {
  readonly quantity: Quantity;
  readonly factor: number;
  readonly offset?: number;
  /** As written after a number. */
  readonly sign: string;
}

/** Quantities with their SI unit. */
export const SI_UNITS = {
  temperature: "K",
  length: "m",
  area: "m2",
  volume: "m3",
  mass: "kg",
  density: "kg/m3",
  pressure: "Pa",
  force: "N",
  torque: "Nm",
  power: "W",
  speed: "m/s",
  rate: "N/m",
  angle: "rad",
  time: "s",
  speedOfRotation: "rad/s",
} as const;
export type Quantity = keyof typeof SI_UNITS;

const IN = 0.0254;
const LB = 0.45359237;
const LBF = LB * 9.80665;
const MMHG = 133.322387415; // conventional millimetre of mercury, 13.5951 g/cm3 at standard gravity

const unit = <Q extends Quantity>(quantity: Q, factor: number, sign: string, offset = 0) => ({
  quantity,
  factor,
  sign,
  offset,
});

export const UNITS = {
  K: unit("temperature", 1, "K"),
  degC: unit("temperature", 1, "°C", 273.15),
  degF: unit("temperature", 5 / 9, "°F", 459.67),
  m: unit("length", 1, "m"),
  km: unit("length", 1000, "km"),
  cm: unit("length", 0.01, "cm"),
  mm: unit("length", 1e-3, "mm"),
  um: unit("length", 1e-6, "µm"),
  in: unit("length", IN, "in"),
  ft: unit("length", 12 * IN, "ft"),
  mi: unit("length", 1609.344, "mi"),
  m2: unit("area", 1, "m²"),
  mm2: unit("area", 1e-6, "mm²"),
  in2: unit("area", IN * IN, "in²"),
  m3: unit("volume", 1, "m³"),
  l: unit("volume", 1e-3, "l"),
  ml: unit("volume", 1e-6, "ml"),
  cc: unit("volume", 1e-6, "cc"),
  in3: unit("volume", IN ** 3, "in³"),
  flozUS: unit("volume", (231 / 128) * IN ** 3, "fl oz (US)"),
  galUS: unit("volume", 231 * IN ** 3, "gal (US)"),
  galUK: unit("volume", 4.54609e-3, "gal (UK)"),
  kg: unit("mass", 1, "kg"),
  g: unit("mass", 1e-3, "g"),
  lb: unit("mass", LB, "lb"),
  oz: unit("mass", LB / 16, "oz"),
  "kg/m3": unit("density", 1, "kg/m³"),
  Pa: unit("pressure", 1, "Pa"),
  hPa: unit("pressure", 100, "hPa"),
  kPa: unit("pressure", 1000, "kPa"),
  bar: unit("pressure", 1e5, "bar"),
  inHg: unit("pressure", 25.4 * MMHG, "inHg"),
  mmHg: unit("pressure", MMHG, "mmHg"),
  cmHg: unit("pressure", 10 * MMHG, "cmHg"),
  psi: unit("pressure", LBF / (IN * IN), "psi"),
  N: unit("force", 1, "N"),
  lbf: unit("force", LBF, "lbf"),
  Nm: unit("torque", 1, "Nm"),
  kgfm: unit("torque", 9.80665, "kgf·m"),
  lbfft: unit("torque", LBF * 12 * IN, "lbf·ft"),
  lbfin: unit("torque", LBF * IN, "lbf·in"),
  W: unit("power", 1, "W"),
  kW: unit("power", 1000, "kW"),
  hp: unit("power", 550 * LBF * 12 * IN, "hp"),
  PS: unit("power", 75 * 9.80665, "PS"),
  "m/s": unit("speed", 1, "m/s"),
  "km/h": unit("speed", 1 / 3.6, "km/h"),
  mph: unit("speed", 1609.344 / 3600, "mph"),
  "N/m": unit("rate", 1, "N/m"),
  "N/mm": unit("rate", 1000, "N/mm"),
  "lbf/in": unit("rate", LBF / IN, "lbf/in"),
  rad: unit("angle", 1, "rad"),
  deg: unit("angle", Math.PI / 180, "°"),
  turn: unit("angle", 2 * Math.PI, "turns"),
  s: unit("time", 1, "s"),
  min: unit("time", 60, "min"),
  h: unit("time", 3600, "h"),
  "rad/s": unit("speedOfRotation", 1, "rad/s"),
  rpm: unit("speedOfRotation", (2 * Math.PI) / 60, "rpm"),
} as const satisfies Readonly<Record<string, UnitDef>>;

export type Unit = keyof typeof UNITS;
export type QuantityOf<U extends Unit> = (typeof UNITS)[U]["quantity"];
/** Units that measure a quantity. */
export type UnitOf<Q extends Quantity> = { [U in Unit]: QuantityOf<U> extends Q ? U : never }[Unit];

/** A number in the SI unit of a quantity: plain numbers fit, two different quantities do not. */
export type Si<Q extends Quantity> = number & { readonly si?: Q };
export type Pascal = Si<"pressure">;
