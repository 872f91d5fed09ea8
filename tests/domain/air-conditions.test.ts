import { describe, expect, it } from "vitest";
import { airOf, type Conditions, SEASONS, seasonOf } from "@/lib/domain/air/conditions";
import {
  densityAltitudeM,
  geopotentialM,
  speedOfSoundMS,
  standardAir,
  standardAirAtGeopotential,
  stationPressurePa,
} from "@/lib/domain/air/isa";
import { humidityFromDewPoint, moistAir, saturationPressurePa } from "@/lib/domain/air/moist";
import { PLACES, placeNamed, placeOfZone } from "@/lib/domain/air/places";
import { humidityOf, pressureOf } from "@/lib/domain/air/reading";
import { airWith } from "@/lib/domain/air/typed";
import { typicalWeather } from "@/lib/domain/air/typical";
import { airFromReading, buildAir, relativeAirDensity, STANDARD_BENCH_AIR } from "@/lib/domain/air/weather";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";

const celsius = (air: { temperatureK: number }) => air.temperatureK - 273.15;
const refused = (run: () => unknown): Refusal => {
  try {
    run();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error("it was not refused");
};

describe("seasons", () => {
  // The meteorological seasons: December to February is winter in the north, summer in the south (WMO, Guide to Climatological Practices).
  it("are the meteorologists' three months, half a year on in the south", () => {
    const year = Array.from({ length: 12 }, (_, i) => i + 1);
    const north = ["winter", "winter", ...new Array(3).fill("spring"), ...new Array(3).fill("summer")];
    expect(year.map((m) => seasonOf(m, false))).toEqual([...north, ...new Array(3).fill("autumn"), "winter"]);
    const south = ["summer", "summer", ...new Array(3).fill("autumn"), ...new Array(3).fill("winter")];
    expect(year.map((m) => seasonOf(m, true))).toEqual([...south, ...new Array(3).fill("spring"), "summer"]);
  });

  const mild: Conditions = { altitudeM: 100, season: "summer", temperatureC: null, humidityPercent: null };
  it("stand for their middle month, January for a northern winter and a southern summer", () => {
    const middle = { winter: [1, 7], spring: [4, 10], summer: [7, 1], autumn: [10, 4] } as const;
    for (const season of SEASONS) {
      const [north, south] = middle[season];
      expect(airOf({ ...mild, season }, { latitude: 55 })).toEqual(
        typicalWeather(north, { latitude: 55 }, 100),
      );
      expect(airOf({ ...mild, season }, { latitude: -35 })).toEqual(
        typicalWeather(south, { latitude: -35 }, 100),
      );
    }
    expect(airOf(mild, { latitude: 0 })).toEqual(typicalWeather(7, { latitude: 0 }, 100));
  });

  it("give way to a sheet's own month, and both to what was measured", () => {
    expect(airOf({ ...mild, month: 2 }, { latitude: 55 })).toEqual(typicalWeather(2, { latitude: 55 }, 100));
    const said = airOf(
      { ...mild, temperatureC: 12, humidityPercent: 80, pressureHpa: 985.5 },
      { latitude: 55 },
    );
    expect(said).toMatchObject({ humidity: 0.8, pressurePa: 98_550, assumed: false });
    expect(celsius(said)).toBeCloseTo(12, 9);
    expect(airOf({ ...mild, humidityPercent: 0 }, { latitude: 55 }).humidity).toBe(0);
    expect(airOf({ ...mild, pressureHpa: null }, { latitude: 55 })).toEqual(
      typicalWeather(7, { latitude: 55 }, 100),
    );
  });
});

describe("the standard atmosphere's edges", () => {
  // ICAO Doc 7488: an altimeter set to QNH shows the elevation; pressure heights differ by it.
  it("has QNH and station pressure apart by the elevation in standard air, whatever the QNH", () => {
    const heightOf = (pressurePa: number) => {
      let [low, high] = [-5000, 11_000];
      for (let i = 0; i < 60; i++) {
        const middle = (low + high) / 2;
        if (standardAirAtGeopotential(middle).pressurePa > pressurePa) low = middle;
        else high = middle;
      }
      return low;
    };
    for (const qnh of [95_000, 98_000, 101_325, 104_000])
      for (const z of [0, 410, 2500])
        expect(heightOf(stationPressurePa(qnh, z)) - heightOf(qnh)).toBeCloseTo(geopotentialM(z), 3);
    expect(stationPressurePa(98_765, 0)).toBeCloseTo(98_765, 6);
  });

  // US Standard Atmosphere 1976, table I: 5000 m, 10 000 m.
  it.each([
    [5000, 4996.07, 255.676, 54_048, 0.736_43],
    [10_000, 9984.29, 223.252, 26_500, 0.413_51],
    [-1000, -1000.16, 294.651, 113_930, 1.347],
  ])("at %d m is as the table of US Standard Atmosphere 1976", (z, h, T, p, rho) => {
    expect(geopotentialM(z)).toBeCloseTo(h, 1);
    const air = standardAir(z);
    expect(air.temperatureK).toBeCloseTo(T, 2);
    expect(air.pressurePa / p).toBeCloseTo(1, 3);
    expect(air.densityKgM3 / rho).toBeCloseTo(1, 3);
    expect(Math.abs(densityAltitudeM(rho) - h)).toBeLessThan(6);
  });

  it("has a speed of sound of 299.53 m/s at 223.252 K (US Standard Atmosphere 1976)", () => {
    expect(speedOfSoundMS(223.252)).toBeCloseTo(299.53, 1);
  });

  it("refuses what lies outside, by name, value and range", () => {
    expect(() => geopotentialM(85_001)).toThrow("altitude is 85001 m, outside -5000 to 85000 m.");
    expect(() => standardAirAtGeopotential(11_001)).toThrow("geopotential altitude is 11001 m");
    expect(() => standardAir(11_001)).toThrow("altitude is 11001 m, outside -4900 to 11000 m.");
    expect(() => stationPressurePa(84_999, 0)).toThrow("QNH is 84999 Pa");
    expect(() => stationPressurePa(101_325, 6001)).toThrow("altitude is 6001 m");
    expect(() => densityAltitudeM(2)).toThrow("density is 2 kg/m3");
    expect(() => speedOfSoundMS(100)).toThrow("temperature is 100 K");
  });
});

describe("moist air's edges", () => {
  // CIPM-2007: recommended for 600 to 1100 hPa and 15 to 27 C.
  it.each([
    [60_000, 20, true],
    [59_999, 20, false],
    [110_000, 20, true],
    [110_001, 20, false],
    [100_000, 15, true],
    [100_000, 14.99, false],
    [100_000, 27, true],
    [100_000, 27.01, false],
  ])("at %d Pa and %d C is inside the formula's certified range: %s (CIPM-2007)", (p, t, certified) => {
    const air = buildAir(p, t + 273.15, 0.4, false, 0.01, [{ fact: "read", from: "test" }]);
    expect(air.certified).toBe(certified);
    expect(air.because.map((r) => r.fact)).toEqual(
      certified ? ["read"] : ["read", "Outside 600-1100 hPa, 15-27 C"],
    );
  });

  it("has a compressibility of 0.998965 at 60 C, saturated, where vapour counts most (worked with the published constants)", () => {
    expect(moistAir(101_325, 333.15, 1).compressibility).toBeCloseTo(0.998965, 6);
  });

  it("parts its pressure into dry air and vapour, and its density by their molar masses (ideal mixture)", () => {
    const air = moistAir(95_000, 303.15, 0.7);
    expect(air.dryPressurePa + air.vapourPressurePa).toBeCloseTo(95_000, 6);
    // Vapour at 30 C, 70 %: 0.7 x 4246.7 Pa (ASHRAE table), 0.4 % more for the enhancement.
    expect(air.vapourPressurePa / (0.7 * 4246.7)).toBeCloseTo(1.0044, 3);
    expect(air.vapourFraction).toBeCloseTo(air.vapourPressurePa / 95_000, 12);
    // Dry air and vapour as ideal gases: R 287.05 and 461.5 J/(kg K).
    const dry = air.dryPressurePa / (287.05 * 303.15);
    const vapour = air.vapourPressurePa / (461.5 * 303.15);
    expect(air.dryDensityKgM3 / dry).toBeCloseTo(1, 3);
    expect((air.densityKgM3 - air.dryDensityKgM3) / vapour).toBeCloseTo(1, 2);
  });

  // ASHRAE Fundamentals 2009, chapter 1, table 3: saturation over liquid water.
  it.each([
    [0.01, 611.7],
    [10, 1228],
    [20, 2338.8],
    [40, 7383.5],
    [60, 19_943],
  ])("is saturated at %d C at the ASHRAE table's pressure", (t, p) => {
    expect(Math.abs(saturationPressurePa(t + 273.15) / p - 1)).toBeLessThan(1e-3);
  });

  it("refuses what lies outside, by name", () => {
    expect(() => saturationPressurePa(400)).toThrow("temperature is 400 K");
    expect(() => moistAir(39_999, 293.15, 0.5)).toThrow("pressure is 39999 Pa");
    expect(() => moistAir(101_325, 200, 0.5)).toThrow("temperature is 200 K");
    expect(() => moistAir(101_325, 293.15, 1.01)).toThrow("relative humidity is 1.01, outside 0 to 1.");
    expect(() => humidityFromDewPoint(294, 293.15)).toThrow(
      "dew point is 294 K, outside 223.15 to 293.15 K.",
    );
  });
});

describe("readings", () => {
  it("name station pressure, QNH, humidity and dew point with their values", () => {
    expect(pressureOf({ stationPa: 98_760, temperatureC: 20 })).toEqual({
      value: 98_760,
      reason: { fact: "Station pressure 987.6 hPa", from: "weather reading" },
    });
    expect(pressureOf({ qnhPa: 101_300, altitudeM: 409.6, temperatureC: 20 }).reason.fact).toBe(
      "QNH 1013.0 hPa at 410 m",
    );
    expect(humidityOf({ humidity: 0.456, temperatureC: 20 }, 20)).toEqual({
      value: 0.456,
      reason: { fact: "Relative humidity 46 %", from: "weather reading" },
    });
    expect(humidityOf({ dewPointC: 9.27, temperatureC: 20 }, 20).reason.fact).toBe("Dew point 9.3 C");
    expect(humidityOf({ humidity: 0, temperatureC: 20 }, 20).value).toBe(0);
    const read = airFromReading({ stationPa: 98_760, temperatureC: 20, humidity: 0.5 });
    expect(read.because.map((r) => r.fact)).toEqual([
      "Station pressure 987.6 hPa",
      "Temperature 20.0 C",
      "Relative humidity 50 %",
    ]);
    expect(read).toMatchObject({ assumed: false, firmness: "firm", sigma: 0.003 });
  });

  it("that lack something say at which field", () => {
    const field = (reading: Parameters<typeof airFromReading>[0]) =>
      Object.keys(refused(() => airFromReading(reading)).fields);
    expect(field({ temperatureC: 20, humidity: 0.5 })).toEqual(["stationPa"]);
    expect(field({ stationPa: 1e5, qnhPa: 1e5, temperatureC: 20, humidity: 0.5 })).toEqual(["qnhPa"]);
    expect(field({ qnhPa: 1e5, temperatureC: 20, humidity: 0.5 })).toEqual(["altitudeM"]);
    expect(field({ stationPa: 1e5, temperatureC: 20 })).toEqual(["humidity"]);
  });

  it("refuse a dew point above the temperature or below -50 C", () => {
    const reading = (dewPointC: number) => ({ stationPa: 1e5, temperatureC: 20, dewPointC });
    expect(() => airFromReading(reading(20.1))).toThrow("dew point is 20.1 C, outside -50 to 20 C.");
    expect(() => airFromReading(reading(-51))).toThrow(OutOfRange);
    expect(airFromReading(reading(20)).humidity).toBe(1);
  });
});

describe("typical weather", () => {
  // The table stands at 0, 15, 30, 45, 60 and 75 degrees; between two the values are in between (straight lines).
  it("is the table's mean and swing at its latitudes: 16 and 10 C at 45 degrees, -4 and 14 at 75", () => {
    const at = (latitude: number, month: number) => celsius(typicalWeather(month, { latitude }, 0));
    expect([at(45, 7), at(45, 1), at(45, 4), at(45, 10)].map((t) => Number(t.toFixed(9)))).toEqual([
      26, 6, 16, 16,
    ]);
    expect([at(75, 7), at(75, 1)].map((t) => Number(t.toFixed(9)))).toEqual([10, -18]);
    expect([at(0, 7), at(0, 1)].map((t) => Number(t.toFixed(9)))).toEqual([31, 29]);
    expect(at(52.5, 7)).toBeCloseTo((26 + 21) / 2, 9);
    expect(at(7.5, 7)).toBeCloseTo(32, 9);
    expect(at(-45, 1)).toBeCloseTo(26, 9);
  });

  it("is 6.5 K colder per kilometre (the standard lapse), at the standard pressure, and never below what moist air takes", () => {
    const low = typicalWeather(7, { latitude: 45 }, 0);
    const high = typicalWeather(7, { latitude: 45 }, 2000);
    expect(low.temperatureK - high.temperatureK).toBeCloseTo(13, 9);
    expect(high.pressurePa).toBeCloseTo(standardAir(2000).pressurePa, 9);
    expect(celsius(typicalWeather(1, { latitude: 75 }, 5000))).toBeCloseTo(-39, 9);
    expect(high).toMatchObject({ humidity: 0.5, sigma: 0.03, assumed: true });
  });

  it("takes July for the warmest month on the line and north of it", () => {
    expect(celsius(typicalWeather(7, { latitude: 0 }, 0))).toBeGreaterThan(
      celsius(typicalWeather(1, { latitude: 0 }, 0)),
    );
    expect(celsius(typicalWeather(1, { latitude: -1 }, 0))).toBeGreaterThan(
      celsius(typicalWeather(7, { latitude: -1 }, 0)),
    );
  });

  it("says what it is typical for and what it takes", () => {
    const [said] = typicalWeather(7, { latitude: 44.6 }, 409.7).because;
    expect(said?.fact).toBe("Typical for month 7, latitude 45, 410 m");
    expect(said?.effect).toBe("23 C, 965 hPa, 50 % humidity");
  });

  it("refuses a month, latitude or altitude outside, by name", () => {
    expect(() => typicalWeather(0, { latitude: 0 }, 0)).toThrow("month is 0, outside 1 to 12.");
    expect(() => typicalWeather(7, { latitude: 76 }, 0)).toThrow("latitude is 76 degrees");
    expect(() => typicalWeather(7, { latitude: -76 }, 0)).toThrow(OutOfRange);
    expect(() => typicalWeather(7, { latitude: 0 }, 5001)).toThrow("altitude is 5001 m");
    expect(() => typicalWeather(2.5, { latitude: 0 }, 0)).toThrow("Month 2.5 is not a whole number");
  });
});

describe("what was typed over typical air", () => {
  const typicalAir = () => typicalWeather(7, { latitude: 45 }, 300);
  it("makes it surer: measured 0.5 %, temperature alone 2 %, pressure alone 2.5 %, humidity alone nothing (judgement)", () => {
    const sigma = (typed: Parameters<typeof airWith>[1]) => airWith(typicalAir(), typed).sigma;
    expect(sigma({ pressurePa: 97_000, temperatureC: 20 })).toBe(0.005);
    expect(sigma({ temperatureC: 20 })).toBe(0.02);
    expect(sigma({ pressurePa: 97_000 })).toBe(0.025);
    expect(sigma({ humidity: 0.3 })).toBe(0.03);
  });

  it("is told beside what it wins over, with the typical reasons kept until all is measured", () => {
    const typical = typicalAir();
    const some = airWith(typical, { pressurePa: 97_000, humidity: 0.304 });
    expect(some.because.map((r) => [r.fact, r.effect])).toEqual([
      ["Pressure 970.0 hPa", "typical 978 hPa"],
      ["Relative humidity 30 %", "typical 50 %"],
      [typical.because[0]?.fact, typical.because[0]?.effect],
    ]);
    expect(some.assumed).toBe(true);
    const warm = airWith(typical, { temperatureC: 20.04 });
    expect(warm.because[0]).toMatchObject({ fact: "Temperature 20.0 C", effect: "typical 24 C" });
    const all = airWith(typical, { pressurePa: 97_000, temperatureC: 20 });
    expect(all.because.map((r) => r.fact)).toEqual(["Pressure 970.0 hPa", "Temperature 20.0 C"]);
    expect(all).toMatchObject({ humidity: 0.5, assumed: false });
  });

  it("leaves air that was measured before measured, and nulls typical", () => {
    const typical = typicalAir();
    const measured = airFromReading({ stationPa: 98_000, temperatureC: 20, humidity: 0.5 });
    expect(airWith(measured, { temperatureC: 22 })).toMatchObject({ assumed: false, firmness: "firm" });
    expect(airWith(typical, { pressurePa: null, temperatureC: null, humidity: null })).toBe(typical);
    expect(() => airWith(typical, { temperatureC: 60.5 })).toThrow(
      "temperature is 60.5 C, outside -40 to 60 C.",
    );
  });
});

describe("relative air density", () => {
  // CIPM-2007 with no vapour at 20 C and 1013.25 hPa is 1.2041 kg/m3, the figure that fan and flow standards print (ISO 5801: 1.2).
  it("is against 20 C, dry, 1013.25 hPa, unless told another air", () => {
    expect(STANDARD_BENCH_AIR.densityKgM3).toBeCloseTo(1.2041, 3);
    expect(STANDARD_BENCH_AIR).toMatchObject({ assumed: false, sigma: 0, humidity: 0 });
    expect(STANDARD_BENCH_AIR.because).toEqual([{ fact: "20 C, dry, 1013.25 hPa", from: "common practice" }]);
    const thin = buildAir(79_495, 275.154, 0, false, 0.01, []);
    expect(relativeAirDensity(thin)).toBeCloseTo(1.0066 / 1.2041, 3);
    expect(relativeAirDensity(STANDARD_BENCH_AIR, thin)).toBeCloseTo(1.2041 / 1.0066, 3);
    // Vapour carries no oxygen: the dry part counts.
    const wet = buildAir(101_325, 308.15, 0.8, false, 0.01, []);
    expect(relativeAirDensity(wet)).toBeCloseTo(wet.dryDensityKgM3 / 1.2041, 3);
    expect(wet.densityAltitudeM).toBeCloseTo(densityAltitudeM(wet.densityKgM3), 9);
  });
});

describe("known places", () => {
  it("stand in the alphabet's order by names that read as words, each zone once", () => {
    const names = PLACES.map((p) => p.name);
    expect(names).toEqual([...names].sort((a, b) => a.localeCompare(b, "en")));
    expect(new Set(PLACES.map((p) => p.zone)).size).toBe(PLACES.length);
    for (const { name, zone, latitude, longitude } of PLACES) {
      expect(name, zone).toMatch(/^\p{L}[\p{L} '.-]+$/u);
      expect(Number.isFinite(latitude) && Number.isFinite(longitude), zone).toBe(true);
      expect(() => new Intl.DateTimeFormat("en", { timeZone: zone })).not.toThrow();
    }
  });

  it("are found by their zone or name alone", () => {
    expect(placeOfZone("America/Argentina/Buenos_Aires")).toEqual({
      name: "Buenos Aires",
      zone: "America/Argentina/Buenos_Aires",
      latitude: -34.6,
      longitude: -58.5,
    });
    expect(placeNamed("Port Moresby")?.zone).toBe("Pacific/Port_Moresby");
    expect(placeNamed("SALTA")?.latitude).toBe(-24.8);
    expect(placeOfZone("Europe/Atlantis")).toBeUndefined();
    expect(placeNamed("")).toBeUndefined();
  });
});
