import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atSeaLevel, climateAt, nearestTown, type Spot } from "@/lib/domain/air/climate";
import { CLIMATE_NORMALS } from "@/lib/domain/air/climateNormals";
import { typicalWeather } from "@/lib/domain/air/typical";
import { OutOfRange } from "@/lib/domain/refusal";

const town = (name: string) => {
  const found = CLIMATE_NORMALS.find((one) => one.name === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
};
const celsius = (month: number, spot: Spot, altitudeM = 0) =>
  typicalWeather(month, spot, altitudeM).temperatureK - 273.15;

describe("the climate of a spot", () => {
  it("is its latitude's where the longitude is not known: 16 and 10 C at 45 degrees, the swing turned over in the south", () => {
    expect(climateAt({ latitude: 45 })).toEqual({ meanC: 16, julyC: 10 });
    expect(climateAt({ latitude: -45, longitude: null })).toEqual({ meanC: 16, julyC: -10 });
    expect(climateAt({ latitude: 52.5 }).meanC).toBeCloseTo(12.5, 9);
    expect(climateAt({ latitude: 52.5 }).julyC).toBeCloseTo(11, 9);
    expect(climateAt({ latitude: 0 })).toEqual({ meanC: 30, julyC: 1 });
    expect(climateAt({ latitude: 75 })).toEqual({ meanC: -4, julyC: 14 });
  });

  it("is its latitude's far out on the ocean as well", () => {
    const { meanC, julyC } = climateAt({ latitude: -48, longitude: -125 });
    const usual = climateAt({ latitude: -48 });
    expect(meanC).toBeCloseTo(usual.meanC, 1);
    expect(julyC).toBeCloseTo(usual.julyC, 1);
  });

  it("lies between its latitude's and its only town's by a bell of 600 km, the latitude weighing 0.02 (judgement)", () => {
    // One degree along a meridian is 111.19 km (a sphere of 6371 km).
    const lone = { name: "x", latitude: 45, longitude: 10, altitudeM: 1000, januaryC: -4.5, julyC: 19.5 };
    const weight = Math.exp(-0.5 * ((5 * 111.195) / 600) ** 2);
    const spot = { latitude: 50, longitude: 10 };
    // Brought to the sea the town has 7.5 + 6.5 = 14 C in the mean, 2 below its latitude's 16, and July 2 above its latitude's 10.
    const share = weight / (weight + 0.02);
    expect(climateAt(spot, [lone]).meanC).toBeCloseTo(climateAt({ latitude: 50 }).meanC - 2 * share, 4);
    expect(climateAt(spot, [lone]).julyC).toBeCloseTo(climateAt({ latitude: 50 }).julyC + 2 * share, 4);
    expect(atSeaLevel(lone)).toEqual({ meanC: 14, julyC: 12 });
  });

  it("knows one place by two longitudes, 180 west and east, and no other by its twin half round the earth", () => {
    const fiji = climateAt({ latitude: -18, longitude: 180 });
    expect(climateAt({ latitude: -18, longitude: -180 }).meanC).toBeCloseTo(fiji.meanC, 9);
    expect(climateAt({ latitude: 50, longitude: 100 }).julyC).not.toBeCloseTo(
      climateAt({ latitude: 50, longitude: -80 }).julyC,
      1,
    );
  });

  // Great-circle distances of handbooks of aviation: London to Paris 344 km, New York to London 5570 km, both to a percent.
  it("names the nearest town by the great circle", () => {
    expect(nearestTown({ latitude: 48.9, longitude: 2.3 })).toEqual({ name: "Paris", km: 0 });
    const between = nearestTown({ latitude: 51.0, longitude: 0.5 });
    expect(between.name).toBe("London");
    expect(between.km).toBeGreaterThan(60);
    expect(between.km).toBeLessThan(75);
    expect(nearestTown({ latitude: -17, longitude: -179 }).name).toBe("Suva");
  });

  it("has no step anywhere: a tenth of a degree changes no month by more than half a degree Celsius", () => {
    const smooth = fc.record({
      latitude: fc.double({ min: 1, max: 74, noNaN: true }),
      longitude: fc.double({ min: -179, max: 179, noNaN: true }),
      south: fc.boolean(),
    });
    fc.assert(
      fc.property(smooth, ({ latitude, longitude, south }) => {
        const sign = south ? -1 : 1;
        const here = climateAt({ latitude: sign * latitude, longitude });
        for (const near of [
          { latitude: sign * (latitude + 0.1), longitude },
          { latitude: sign * latitude, longitude: longitude + 0.1 },
        ]) {
          const there = climateAt(near);
          expect(Math.abs(there.meanC - here.meanC)).toBeLessThan(0.5);
          expect(Math.abs(there.julyC - here.julyC)).toBeLessThan(0.5);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("refuses degrees that are none, by name", () => {
    expect(() => climateAt({ latitude: 76, longitude: 0 })).toThrow("latitude is 76 degrees");
    expect(() => climateAt({ latitude: 0, longitude: 181 })).toThrow("longitude is 181 degrees");
    expect(() => climateAt({ latitude: 0, longitude: -181 })).toThrow(OutOfRange);
  });
});

describe("the kept climates", () => {
  it("are whole: a name of their own, degrees, a height, and temperatures of an inhabited place", () => {
    expect(CLIMATE_NORMALS.length).toBeGreaterThan(120);
    expect(new Set(CLIMATE_NORMALS.map((t) => t.name)).size).toBe(CLIMATE_NORMALS.length);
    for (const t of CLIMATE_NORMALS) {
      expect(t.name, t.name).toMatch(/^[A-Z][A-Za-z ]+$/);
      expect(Math.abs(t.latitude), t.name).toBeLessThanOrEqual(75);
      expect(Math.abs(t.longitude), t.name).toBeLessThanOrEqual(180);
      expect(t.altitudeM, t.name).toBeGreaterThan(0);
      expect(t.altitudeM, t.name).toBeLessThan(4000);
      expect(Math.min(t.januaryC, t.julyC), t.name).toBeGreaterThan(-40);
      expect(Math.max(t.januaryC, t.julyC), t.name).toBeLessThan(46);
    }
    expect(town("Rio de Janeiro")).toMatchObject({ latitude: -22.9, longitude: -43.2, altitudeM: 10 });
  });

  it("tell nine towns of ten their own mean to within 2.5 K; a town beside others of another climate less well", () => {
    const off = CLIMATE_NORMALS.map((t) => Math.abs(climateAt(t).meanC - atSeaLevel(t).meanC)).sort(
      (a, b) => a - b,
    );
    expect(off[Math.floor(0.9 * off.length)]).toBeLessThan(2.5);
    expect(off.at(-1)).toBeLessThan(6);
  });

  it("tell an unknown town from its neighbours a third better than its latitude does (each left out in turn)", () => {
    const off = { latitude: [] as number[], neighbours: [] as number[] };
    for (const t of CLIMATE_NORMALS) {
      const said = atSeaLevel(t);
      const others = CLIMATE_NORMALS.filter((one) => one !== t);
      for (const [key, told] of [
        ["latitude", climateAt({ latitude: t.latitude })],
        ["neighbours", climateAt(t, others)],
      ] as const)
        for (const sign of [1, -1])
          off[key].push((told.meanC + sign * told.julyC - said.meanC - sign * said.julyC) ** 2);
    }
    const rms = (list: readonly number[]) => Math.sqrt(list.reduce((a, b) => a + b, 0) / list.length);
    expect(rms(off.neighbours)).toBeLessThan(0.7 * rms(off.latitude));
  });
});

describe("typical weather by longitude", () => {
  // World climate as any atlas shows it: at 50 degrees north a January afternoon is mild on the Channel, cold on the prairie.
  it("has a mild winter on an ocean's eastern shore and a hard one inland, at one latitude", () => {
    const channel = celsius(1, { latitude: 50, longitude: -1 });
    const prairie = celsius(1, { latitude: 50, longitude: -97 }, 240);
    const lakeBaikal = celsius(1, { latitude: 52, longitude: 104 }, 450);
    expect(channel).toBeGreaterThan(4);
    expect(channel).toBeLessThan(11);
    expect(prairie).toBeLessThan(-6);
    expect(lakeBaikal).toBeLessThan(-8);
    expect(celsius(7, { latitude: 50, longitude: -1 })).toBeLessThan(
      celsius(7, { latitude: 50, longitude: -97 }),
    );
  });

  it("says the spot, and which kept climate is nearest; none is named far from all of them", () => {
    const [said, nearest] = typicalWeather(7, { latitude: 47.4, longitude: 8.5 }, 430).because;
    expect(said?.fact).toBe("Typical for month 7, latitude 47, longitude 9, 430 m");
    expect(nearest?.fact).toBe("The nearest kept climate is that of Milan");
    expect(nearest?.effect).toMatch(/^2\d\d km away$/);
    const sea = typicalWeather(7, { latitude: -48, longitude: -125 }, 0).because;
    expect(sea.map((r) => r.fact).join()).not.toContain("kept climate");
    expect(sea.every((r) => r.fact.length > 10)).toBe(true);
    const alone = typicalWeather(7, { latitude: 47.4, longitude: null }, 430).because;
    expect(alone[0]?.fact).toBe("Typical for month 7, latitude 47, 430 m");
    expect(alone.map((r) => r.fact).join()).not.toContain("kept climate");
    expect(alone.every((r) => r.fact.length > 10)).toBe(true);
  });
});
