import { Refusal, within } from "../refusal";
import { climateAt, nearestTown, type Spot } from "./climate";
import { LAPSE_K_PER_M, standardAir } from "./isa";
import { type Air, buildAir } from "./weather";

/** A town further off than this says too little of a spot to be named. Source: judgement. */
const NAMED_KM = 900;

/**
 * Typical afternoon air for a month (1 to 12), a spot and an altitude in metres. Assumed, and marked so: standard pressure for the
 * altitude, afternoon temperature from climate.ts less 6.5 K per km, 50 % humidity. Throws OutOfRange. Source: judgement.
 */
export function typicalWeather(month: number, spot: Spot, altitudeM: number): Air {
  if (!Number.isInteger(within("month", month, 1, 12)))
    throw new Refusal(`Month ${month} is not a whole number.`, "Enter a month from 1 to 12.");
  const altitude = within("altitude", altitudeM, -400, 5000, "m");
  const { meanC, julyC } = climateAt(spot);
  const atSeaLevelC = meanC + julyC * Math.cos(((month - 7) * Math.PI) / 6);
  const temperatureC = Math.max(-39, atSeaLevelC - LAPSE_K_PER_M * altitude);
  const pressurePa = standardAir(altitude).pressurePa;
  return buildAir(pressurePa, temperatureC + 273.15, 0.5, true, 0.03, [
    {
      fact: `Typical for month ${month}, ${spotText(spot)}, ${Math.round(altitude)} m`,
      from: "assumed: nobody measured it",
      effect: `${temperatureC.toFixed(0)} C, ${(pressurePa / 100).toFixed(0)} hPa, 50 % humidity`,
    },
    ...asIn(spot),
  ]);
}

const hasLongitude = (spot: Spot) => spot.longitude !== undefined && spot.longitude !== null;

const spotText = (spot: Spot) =>
  `latitude ${Math.round(spot.latitude)}${hasLongitude(spot) ? `, longitude ${Math.round(spot.longitude ?? 0)}` : ""}`;

function asIn(spot: Spot) {
  if (!hasLongitude(spot)) return [];
  const { name, km } = nearestTown(spot);
  return km > NAMED_KM
    ? []
    : [
        {
          fact: `The nearest kept climate is that of ${name}`,
          from: "climate normals, from memory, good to about 2 K",
          effect: `${Math.round(km)} km away`,
        },
      ];
}
