import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  densityAltitudeM,
  geopotentialM,
  speedOfSoundMS,
  standardAir,
  standardAirAtGeopotential,
  stationPressurePa,
} from "@/lib/domain/air/isa";
import { humidityFromDewPoint, moistAir, saturationPressurePa } from "@/lib/domain/air/moist";
import { PLACES, placeNamed, placeOfZone, weatherSpot } from "@/lib/domain/air/places";
import { airWith } from "@/lib/domain/air/typed";
import { typicalWeather } from "@/lib/domain/air/typical";
import { airFromReading, relativeAirDensity, STANDARD_BENCH_AIR } from "@/lib/domain/air/weather";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import { COUNTRY_PRESETS } from "@/lib/domain/tax/presets";

const psychrolib = createRequire(import.meta.url)("psychrolib") as {
  SetUnitSystem(system: number): void;
  SI: number;
  GetMoistAirDensity(dryBulbC: number, humidityRatio: number, pressurePa: number): number;
  GetHumRatioFromRelHum(dryBulbC: number, humidity: number, pressurePa: number): number;
};
const near = (value: number, expected: number, relative: number) =>
  expect(Math.abs(value / expected - 1)).toBeLessThanOrEqual(relative);

describe("standard atmosphere", () => {
  it.each([
    [0, 288.15, 101_325, 1.225],
    [1000, 281.651, 89_876, 1.1117],
    [2000, 275.154, 79_501, 1.0066],
  ])("at %d m agrees with the table of US Standard Atmosphere 1976", (z, T, p, rho) => {
    const air = standardAir(z);
    near(air.temperatureK, T, 1e-4);
    near(air.pressurePa, p, 1e-4);
    near(air.densityKgM3, rho, 1e-4);
  });
  it.each([
    [500, 95_461],
    [1000, 89_875],
    [4000, 61_640],
  ])("at %d geopotential metres agrees with ASHRAE Fundamentals to a pascal", (h, p) => {
    expect(Math.abs(standardAirAtGeopotential(h).pressurePa - p)).toBeLessThanOrEqual(1);
  });
  it("has a speed of sound of 340.294 m/s at 288.15 K (US Standard Atmosphere 1976)", () => {
    expect(speedOfSoundMS(288.15)).toBeCloseTo(340.294, 2);
  });
  it("asks for 0.8615 of the jet area at 3000 m (identity: square root of the density ratio)", () => {
    near(Math.sqrt(standardAir(3000).densityKgM3 / 1.225), 0.8615, 1e-4);
  });
  it("gives the standard pressure for the standard QNH, and the altitude back from the density", () => {
    fc.assert(
      fc.property(fc.double({ min: -400, max: 5000, noNaN: true }), (z) => {
        near(stationPressurePa(101_325, z), standardAir(z).pressurePa, 1e-6);
        expect(densityAltitudeM(standardAir(z).densityKgM3)).toBeCloseTo(geopotentialM(z), -1);
      }),
    );
  });
});

describe("moist air", () => {
  it.each([
    [25, 3169.7],
    [50, 12_351.3],
  ])("saturation pressure at %d C agrees with the ASHRAE table", (t, p) => {
    near(saturationPressurePa(t + 273.15), p, 3e-4);
  });
  it("gives the CIPM-2007 values at 20 C, 50 %, 101 325 Pa (identity with the published constants)", () => {
    const air = moistAir(101_325, 293.15, 0.5);
    near(air.enhancement, 1.0040256, 1e-6);
    near(air.vapourFraction, 0.0115893, 1e-5);
    near(air.compressibility, 0.9996148, 1e-6);
    near(air.densityKgM3, 1.199314, 1e-6);
    expect(air.certified).toBe(true);
  });
  it("agrees with psychrolib 1.1.1 over workshop weather", () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    near(moistAir(101_325, 298.15, 0.5).densityKgM3, 1.176958, 5e-4);
    for (const t of [-5, 5, 15, 25, 35, 42])
      for (const h of [0.05, 0.5, 0.95])
        for (const p of [72_000, 90_000, 101_325]) {
          const w = psychrolib.GetHumRatioFromRelHum(t, h, p);
          // psychrolib leaves out compressibility and enhancement: together below 0.1 % here.
          near(moistAir(p, t + 273.15, h).densityKgM3, psychrolib.GetMoistAirDensity(t, w, p), 1e-3);
        }
  });
  it("grows thinner with altitude, humidity and temperature", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(number(-300, 4000), number(-10, 44), number(0.02, 0.9), (z, t, h) => {
        const at = (altitudeM: number, temperatureC: number, humidity: number) =>
          airFromReading({ qnhPa: 101_325, altitudeM, temperatureC, humidity });
        const here = at(z, t, h);
        for (const other of [at(z + 50, t, h), at(z, t + 1, h), at(z, t, h + 0.05)]) {
          expect(other.densityKgM3).toBeLessThan(here.densityKgM3);
          expect(other.dryDensityKgM3).toBeLessThan(here.dryDensityKgM3);
          expect(other.densityAltitudeM).toBeGreaterThan(here.densityAltitudeM);
        }
      }),
    );
  });
  it("is saturated when the dew point is the temperature, and half so near 9.3 C under 20 C", () => {
    expect(humidityFromDewPoint(293.15, 293.15)).toBe(1);
    expect(humidityFromDewPoint(282.42, 293.15)).toBeCloseTo(0.5, 2);
  });
});

describe("weather in", () => {
  it("takes station pressure or QNH and says where each number came from", () => {
    const air = airFromReading({ qnhPa: 101_300, altitudeM: 410, temperatureC: 31, humidity: 0.25 });
    expect(air.pressurePa).toBeCloseTo(stationPressurePa(101_300, 410), 6);
    expect(air.assumed).toBe(false);
    expect(air.because[0]?.fact).toContain("QNH 1013.0 hPa at 410 m");
    expect(air.because.some((r) => r.from === "CIPM-2007")).toBe(true);
    expect(relativeAirDensity(air)).toBeLessThan(0.95);
    expect(relativeAirDensity(STANDARD_BENCH_AIR)).toBe(1);
  });
  it("agrees whether humidity or its dew point is given", () => {
    const humid = airFromReading({ stationPa: 98_000, temperatureC: 20, dewPointC: 9.27 });
    expect(humid.humidity).toBeCloseTo(0.5, 2);
  });
  it("refuses no pressure, two pressures, QNH without altitude, and no or two humidities", () => {
    const base = { temperatureC: 20, humidity: 0.5 };
    expect(() => airFromReading(base)).toThrow(Refusal);
    expect(() => airFromReading({ ...base, stationPa: 1e5, qnhPa: 1e5, altitudeM: 0 })).toThrow(/Both/);
    expect(() => airFromReading({ ...base, qnhPa: 1e5 })).toThrow(/without an altitude/);
    expect(() => airFromReading({ stationPa: 1e5, temperatureC: 20 })).toThrow(/No humidity/);
    expect(() => airFromReading({ ...base, stationPa: 1e5, dewPointC: 3 })).toThrow(/Both humidity/);
  });
  it("names quantity, value and range instead of giving a number that is not one", () => {
    for (const bad of [Number.NaN, 90, -60, Number.POSITIVE_INFINITY]) {
      expect(() => airFromReading({ stationPa: 1e5, temperatureC: bad, humidity: 0.5 })).toThrow(OutOfRange);
      expect(() => airFromReading({ stationPa: bad, temperatureC: 20, humidity: 0.5 })).toThrow(OutOfRange);
    }
    expect(() => airFromReading({ stationPa: 1e5, temperatureC: 90, humidity: 0.5 })).toThrow(
      "temperature is 90 C, outside -40 to 60 C.",
    );
  });
  it("marks typical weather as assumed, warm in the local summer and thin on the hill", () => {
    const january = typicalWeather(1, { latitude: -34 }, 410);
    expect(january.assumed).toBe(true);
    expect(january.firmness).toBe("starting point");
    expect(january.temperatureK).toBeGreaterThan(typicalWeather(7, { latitude: -34 }, 410).temperatureK);
    expect(typicalWeather(7, { latitude: 40 }, 640).temperatureK).toBeGreaterThan(
      typicalWeather(1, { latitude: 40 }, 640).temperatureK,
    );
    expect(typicalWeather(1, { latitude: -40 }, 2000).dryDensityKgM3).toBeLessThan(january.dryDensityKgM3);
    expect(() => typicalWeather(13, { latitude: 0 }, 0)).toThrow(OutOfRange);
    expect(() => typicalWeather(1.5, { latitude: 0 }, 0)).toThrow(/whole number/);
  });
});

describe("typical air with what was typed over it", () => {
  const typical = typicalWeather(7, { latitude: 60 }, 300);
  it("is the latitude's: July afternoons fall from the tropics to 60 degrees, and turn over in the south", () => {
    const at = (latitude: number, month = 7) => typicalWeather(month, { latitude }, 0).temperatureK;
    expect(at(15)).toBeGreaterThan(at(45));
    expect(at(45)).toBeGreaterThan(at(60));
    expect(at(-35, 1)).toBeCloseTo(at(35, 7), 9);
  });
  it("takes each typed value, says so, and stays assumed until pressure and temperature were both typed", () => {
    expect(airWith(typical, {})).toBe(typical);
    const warm = airWith(typical, { temperatureC: 31 });
    expect(warm.temperatureK).toBeCloseTo(304.15, 9);
    expect(warm.pressurePa).toBe(typical.pressurePa);
    expect(warm).toMatchObject({ assumed: true, firmness: "starting point" });
    expect(warm.because[0]).toMatchObject({ from: expect.stringMatching(/wins over the typical/) });
    expect(warm.sigma).toBeLessThan(typical.sigma);
    const measured = airWith(typical, { temperatureC: 12, pressurePa: 97_200, humidity: 0.9 });
    expect(measured).toMatchObject({ assumed: false, firmness: "firm", pressurePa: 97_200, humidity: 0.9 });
    expect(measured.because.some((r) => /nobody measured/.test(r.from))).toBe(false);
    expect(() => airWith(typical, { temperatureC: 99 })).toThrow(OutOfRange);
    expect(() => airWith(typical, { humidity: 1.4 })).toThrow(OutOfRange);
  });
});

describe("places", () => {
  it("stand for a time zone and a name, with their degrees (IANA tz database)", () => {
    expect(placeOfZone("Australia/Adelaide")).toMatchObject({ latitude: -34.9, longitude: 138.6 });
    expect(placeNamed(" berlin ")).toMatchObject({ zone: "Europe/Berlin", latitude: 52.5 });
    expect(placeNamed("Nowhere")).toBeUndefined();
    expect(PLACES.length).toBeGreaterThan(250);
    for (const place of PLACES) {
      expect(Math.abs(place.latitude), place.zone).toBeLessThanOrEqual(75);
      expect(Math.abs(place.longitude), place.zone).toBeLessThanOrEqual(180);
    }
  });
  it("hold the city of every country a shop can be opened in (IANA tz database, zone.tab)", () => {
    const unknown = COUNTRY_PRESETS.filter((preset) => !placeOfZone(preset.zone));
    expect(unknown.map((preset) => preset.country)).toEqual([]);
    expect(placeNamed("Oslo")).toMatchObject({ latitude: 59.9, longitude: 10.8 });
    expect(placeNamed("stockholm")).toMatchObject({ latitude: 59.3, longitude: 18.1 });
  });
  it("give weather their latitude, and 40 degrees of the hemisphere where none is known", () => {
    expect(weatherSpot({ latitude: -34.9, longitude: 138.6, latitudeSouth: true })).toEqual({
      latitude: -34.9,
      longitude: 138.6,
    });
    expect(weatherSpot({ latitude: null, longitude: null, latitudeSouth: true })).toEqual({ latitude: -40 });
    expect(weatherSpot({ latitude: null, longitude: 5, latitudeSouth: false })).toEqual({ latitude: 40 });
  });
});
