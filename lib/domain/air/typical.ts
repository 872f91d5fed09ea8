import { Refusal, within } from "../refusal";
import { standardAir } from "./isa";
import { type Air, buildAir } from "./weather";

export type Hemisphere = "north" | "south";

/** Annual mean and half swing of afternoon temperature (C) at sea level by latitude. Source: judgement, from memory. */
const CLIMATE: readonly { readonly latitude: number; readonly meanC: number; readonly swingC: number }[] = [
  { latitude: 0, meanC: 30, swingC: 1 },
  { latitude: 15, meanC: 30, swingC: 3 },
  { latitude: 30, meanC: 25, swingC: 7 },
  { latitude: 45, meanC: 16, swingC: 10 },
  { latitude: 60, meanC: 9, swingC: 12 },
  { latitude: 75, meanC: -4, swingC: 14 },
];

/**
 * Typical afternoon air for a month (1 to 12), a latitude in degrees (south negative) or a hemisphere (taken as 40
 * degrees), and an altitude in metres. Assumed, and marked so: standard pressure for the altitude, afternoon
 * temperature from a latitude table less 6.5 K per km, 50 % humidity. Source: judgement. Throws OutOfRange.
 */
export function typicalWeather(month: number, where: number | Hemisphere, altitudeM: number): Air {
  if (!Number.isInteger(within("month", month, 1, 12)))
    throw new Refusal(`Month ${month} is not a whole number.`, "Enter a month from 1 to 12.");
  const latitude = typeof where === "number" ? where : where === "north" ? 40 : -40;
  within("latitude", latitude, -75, 75, "degrees");
  const altitude = within("altitude", altitudeM, -400, 5000, "m");
  const { meanC, swingC } = climateAt(Math.abs(latitude));
  const warmest = latitude >= 0 ? 7 : 1;
  const atSeaLevelC = meanC + swingC * Math.cos(((month - warmest) * Math.PI) / 6);
  const temperatureC = Math.max(-39, atSeaLevelC - 0.0065 * altitude);
  const pressurePa = standardAir(altitude).pressurePa;
  return buildAir(pressurePa, temperatureC + 273.15, 0.5, true, 0.03, [
    {
      fact: `Typical for month ${month}, latitude ${Math.round(latitude)}, ${Math.round(altitude)} m`,
      from: "assumed: nobody measured it",
      effect: `${temperatureC.toFixed(0)} C, ${(pressurePa / 100).toFixed(0)} hPa, 50 % humidity`,
    },
  ]);
}

function climateAt(latitude: number): { meanC: number; swingC: number } {
  const above = CLIMATE.findIndex((c) => c.latitude >= latitude);
  const high = CLIMATE[Math.max(1, above)];
  const low = CLIMATE[Math.max(1, above) - 1];
  if (!high || !low)
    throw new Refusal(`Latitude ${latitude} is outside the table.`, "Enter 0 to 75 degrees.");
  const share = (latitude - low.latitude) / (high.latitude - low.latitude);
  return {
    meanC: low.meanC + share * (high.meanC - low.meanC),
    swingC: low.swingC + share * (high.swingC - low.swingC),
  };
}
