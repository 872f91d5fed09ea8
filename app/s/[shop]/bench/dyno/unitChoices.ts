const options = (words: readonly (readonly [string, string])[]) =>
  words.map(([value, label]) => ({ value, label }));
export const STANDARDS = options([
  ["none", "As it stands in the file"],
  ["EU 134/2014", "EU 134/2014, motorcycles"],
  ["ISO 1585", "ISO 1585"],
  ["SAE J1349", "SAE J1349 (2004)"],
  ["DIN 70020", "DIN 70020 (old)"],
]);
export const UNIT_CHOICES: readonly (readonly [
  name: string,
  label: string,
  options: readonly { value: string; label: string }[],
])[] = [
  [
    "powerUnit",
    "Power is in",
    options([
      ["kW", "kW"],
      ["hp", "hp"],
      ["PS", "PS"],
      ["W", "W"],
    ]),
  ],
  [
    "torqueUnit",
    "Torque is in",
    options([
      ["Nm", "Nm"],
      ["lbfft", "lbf·ft"],
      ["kgfm", "kgf·m"],
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
    "pressureUnit",
    "Pressure is in",
    options([
      ["hPa", "hPa"],
      ["kPa", "kPa"],
      ["inHg", "inHg"],
      ["mmHg", "mmHg"],
    ]),
  ],
  [
    "humidityUnit",
    "Humidity is in",
    options([
      ["percent", "%"],
      ["share", "0 to 1"],
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
