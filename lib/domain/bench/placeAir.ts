import { standardAir } from "../air/isa";
import { type Air, buildAir } from "../air/weather";
import { within } from "../refusal";

/** A place and a temperature nobody measured the pressure of. */
export interface Place {
  readonly altitudeM: number;
  readonly temperatureC: number;
  /** 0 to 1; null: half, assumed. */
  readonly humidity: number | null;
}

/**
 * Air of a place as planned: standard pressure for the altitude, a stated temperature, a stated or assumed humidity.
 * Marked as assumed, 2 % one-sigma of density (weather moves pressure by about that). Source: ISO 2533; the sigma is judgement.
 */
export function placeAir(place: Place): Air {
  const altitude = within("altitude", place.altitudeM, -400, 5000, "m");
  const temperature = within("temperature", place.temperatureC, -39, 55, "C");
  const { pressurePa } = standardAir(altitude);
  return buildAir(pressurePa, temperature + 273.15, place.humidity ?? 0.5, true, 0.02, [
    {
      fact: `Standard pressure for ${Math.round(altitude)} m`,
      from: "ISO 2533; assumed: nobody measured it",
      effect: `${(pressurePa / 100).toFixed(0)} hPa`,
    },
    { fact: `Temperature ${temperature.toFixed(0)} °C`, from: "entered for the place" },
    {
      fact: `Relative humidity ${Math.round((place.humidity ?? 0.5) * 100)} %`,
      from: place.humidity === null ? "assumed" : "entered for the place",
    },
  ]);
}
