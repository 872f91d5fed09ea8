import { standardAir } from "@/lib/domain/air/isa";
import { weatherSpot } from "@/lib/domain/air/places";
import { typicalWeather } from "@/lib/domain/air/typical";
import { airFromReading, relativeAirDensity } from "@/lib/domain/air/weather";
import type { Home } from "../common/air";

/** Typical air of the month at the shop against its bench day: nobody has measured today's. */
export function airToday(settings: Home & { benchTemperatureC: number }, month: number) {
  const air = typicalWeather(month, weatherSpot(settings), settings.altitudeM);
  const bench = airFromReading({
    stationPa: standardAir(settings.altitudeM).pressurePa,
    temperatureC: settings.benchTemperatureC,
    humidity: 0.5,
  });
  return {
    temperatureC: air.temperatureK - 273.15,
    pressurePa: air.pressurePa,
    ratio: relativeAirDensity(air, bench),
    because: [
      ...air.because,
      {
        fact: `Bench day: ${settings.benchTemperatureC} °C at ${settings.altitudeM} m, 50 % humidity`,
        from: "the shop's settings",
      },
    ],
    firmness: air.firmness,
  };
}
