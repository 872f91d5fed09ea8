const options = (words: readonly (readonly [string, string])[]) =>
  words.map(([value, label]) => ({ value, label }));
/** Units a lambda log may be written in, by the field's name. */
export const LAMBDA_UNITS: readonly (readonly [
  name: string,
  label: string,
  options: readonly { value: string; label: string }[],
])[] = [
  [
    "throttleUnit",
    "Throttle is in",
    options([
      ["percent", "%, 0 to 100"],
      ["share", "0 to 1"],
    ]),
  ],
  [
    "mixtureUnit",
    "Mixture is",
    options([
      ["lambda", "Lambda"],
      ["afr", "Air/fuel ratio"],
    ]),
  ],
  [
    "fuel",
    "Fuel, for air/fuel ratio",
    options([
      ["E10", "Petrol, 10 % ethanol"],
      ["E0", "Petrol without ethanol"],
      ["E85", "Ethanol, 15 % petrol"],
    ]),
  ],
  [
    "timeUnit",
    "Time is in",
    options([
      ["s", "Seconds"],
      ["ms", "Milliseconds"],
    ]),
  ],
  [
    "altitudeUnit",
    "Altitude is in",
    options([
      ["m", "m"],
      ["ft", "ft"],
    ]),
  ],
  [
    "temperatureUnit",
    "Temperature is in",
    options([
      ["degC", "°C"],
      ["degF", "°F"],
    ]),
  ],
  [
    "mark",
    "Decimal mark",
    options([
      [".", "Point, 12.5"],
      [",", "Comma, 12,5"],
    ]),
  ],
];
