// @ts-expect-error jstat carries no types; only cdf and inv of Student's t are used.
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { OutOfRange } from "@/lib/domain/refusal";
import { comparePulls, pullTorqueNm } from "@/lib/domain/tuning/dyno";
import { gainTest } from "@/lib/domain/tuning/gainTest";
import { powerFactor } from "@/lib/domain/tuning/power";

describe("a gain between two sides of pulls", () => {
  it("says how many more pulls would settle it, and that they do where the spread stays", () => {
    // Spread 1 %, gain 1.4 %: two pulls a side cannot tell.
    const pulls = (n: number, mean: number) =>
      Array.from({ length: n }, (_, i) => mean * (i % 2 ? 1.01 : 0.99));
    const two = gainTest(pulls(2, 50), pulls(2, 50.7));
    expect(two?.beyondNoise).toBe(false);
    const more = two?.morePulls ?? 0;
    expect(more).toBeGreaterThan(2);
    expect(gainTest(pulls(2 + more + 1, 50), pulls(2 + more + 1, 50.7))?.beyondNoise).toBe(true);
    expect(gainTest(pulls(2, 50), pulls(2, 50.001))?.morePulls).toBeNull();
  });
  it("takes pulls without torque, or a file of nothing, as a fault of the file", () => {
    const pull = (nm: number) => ({ rpm: [3000, 4000, 5000], torqueNm: [nm, nm, nm] });
    expect(() => comparePulls([pull(0)], [pull(40)])).toThrow(OutOfRange);
    expect(() => comparePulls([pull(40)], [pull(-5)])).toThrow("torque is -5 Nm");
  });

  // Worked with a table of t: 100, 102, 98 against 106, 108, 104. Both sides spread by 2 Nm, so relative to their means by 0.02
  // and 2 / 106; Welch's freedom is 3.99, rounded down to 3.
  it("is Welch's t on relative means: 6 % of 100, 102, 98 against 106, 108, 104 has t 3.62 with 3 degrees of freedom", () => {
    const test = gainTest([100, 102, 98], [106, 108, 104]);
    const noise = Math.sqrt((0.02 ** 2 + (2 / 106) ** 2) / 3);
    expect(test?.noise).toBeCloseTo(noise, 12);
    expect(test?.freedom).toBe(3);
    const t = Math.log(1.06) / noise;
    expect(test?.chance).toBeCloseTo(2 * (1 - jstat.studentt.cdf(t, 3)), 9);
    expect(test?.beyondNoise).toBe(true);
    expect(test?.morePulls).toBe(0);
    const margin = jstat.studentt.inv(1 - 0.045 / 2, 3) * noise;
    expect(test?.low).toBeCloseTo(1.06 * Math.exp(-margin) - 1, 6);
    expect(test?.high).toBeCloseTo(1.06 * Math.exp(margin) - 1, 6);
  });

  it("has fewer degrees of freedom where one side spreads far more (Welch: 2.0 of a possible 4)", () => {
    const test = gainTest([100, 100.1, 99.9], [100, 110, 90]);
    expect(test?.freedom).toBe(2);
    expect(test?.beyondNoise).toBe(false);
    expect(gainTest([100, 101], [100, 101])?.freedom).toBe(2);
  });

  it("is not asked for with fewer than two pulls on a side, copies, or no torque", () => {
    expect(gainTest([100], [101, 102])).toBeNull();
    expect(gainTest([100, 101], [102])).toBeNull();
    expect(gainTest([100, 100], [105, 105])).toBeNull();
    expect(gainTest([100, 100], [105, 106])).not.toBeNull();
    expect(gainTest([], [1, 2])).toBeNull();
    expect(gainTest([1, 2], [])).toBeNull();
    expect(() => gainTest([0, 0], [1, 2])).toThrow("mean torque of a side is 0 Nm");
    // The mean of three times 0.1 is 0.10000000000000002 in doubles: that is no spread.
    expect(gainTest([0.1, 0.1, 0.1], [0.3, 0.3, 0.3])).toBeNull();
  });

  it("falls as well as it rises, and asks for no more pulls than thirty a side", () => {
    const down = gainTest([106, 108, 104], [100, 102, 98]);
    expect(down?.beyondNoise).toBe(true);
    expect(down?.high ?? 1).toBeLessThan(0);
    // Spread 1.41 % on each side: at n pulls a side the gain's sigma is sqrt(0.0004 / n), and t has 2 n - 2 degrees of freedom.
    const passes = (gain: number) => {
      for (let n = 3; n <= 30; n++) {
        const t = Math.log1p(gain) / Math.sqrt(0.0004 / n);
        if (2 * (1 - jstat.studentt.cdf(t, 2 * n - 2)) < 0.045) return n - 2;
      }
      return null;
    };
    const asked = (gain: number) => gainTest([99, 101], [99 * (1 + gain), 101 * (1 + gain)])?.morePulls;
    for (let gain = 0.008; gain < 0.06; gain += 0.001) expect(asked(gain), `${gain}`).toBe(passes(gain));
    expect(asked(0.0076)).toBe(28);
    expect(asked(0.0074)).toBeNull();
    expect(asked(-0.02)).toBeGreaterThan(0);
  });

  it("counts further pulls from the side that has fewer", () => {
    // Spread 1.41 % of two, 1.15 % of four (squares over three): the gain of 1 % is settled by 2.6 times as many at n a side.
    const [two, four] = [[99, 101], [99, 101, 99, 101].map((v) => v * 1.01)];
    const passes = (n: number) => {
      const t = Math.log(1.01) / Math.sqrt((0.0002 + 0.0004 / 3) / n);
      return 2 * (1 - jstat.studentt.cdf(t, 2 * n - 2)) < 0.045;
    };
    const n = Array.from({ length: 28 }, (_, i) => i + 3).find(passes);
    expect(gainTest(two, four)?.morePulls).toBe((n ?? 0) - 2);
    expect(gainTest(four, two)?.morePulls).toBe((n ?? 0) - 2);
  });
});

describe("pulls as columns", () => {
  const rpm = [3000, 3500, 4000];
  it("are torque, or power over angular speed: 10 kW at 3000 rpm are 31.83 Nm (P = M omega)", () => {
    expect(pullTorqueNm({ rpm, torqueNm: [30, 31, 32] })).toEqual([30, 31, 32]);
    expect(pullTorqueNm({ rpm, powerW: [10_000, 10_000, 10_000] })[0]).toBeCloseTo(31.831, 3);
    expect(pullTorqueNm({ rpm, torqueNm: [30, 31, 32], factor: 1.02 })[2]).toBeCloseTo(32.64, 9);
  });

  it("are refused with no column or two, of unequal or no length, with holes, or far off any engine", () => {
    expect(() => pullTorqueNm({ rpm })).toThrow("power or torque, one of them");
    expect(() => pullTorqueNm({ rpm, torqueNm: [1, 2, 3], powerW: [1, 2, 3] })).toThrow("one of them");
    expect(() => pullTorqueNm({ rpm, torqueNm: [1, 2] })).toThrow("differ in length");
    expect(() => pullTorqueNm({ rpm: [3000], torqueNm: [1] })).toThrow("too short");
    expect(pullTorqueNm({ rpm: [3000, 4000], torqueNm: [1, 2] })).toEqual([1, 2]);
    expect(() => pullTorqueNm({ rpm, torqueNm: [1, Number.NaN, 3] })).toThrow("Row 2 of the pull");
    expect(() => pullTorqueNm({ rpm: [100, 3500, 4000], torqueNm: [1, 2, 3] })).toThrow(
      "engine speed is 100 rpm",
    );
    expect(() => pullTorqueNm({ rpm, torqueNm: [1, 2, 3], factor: 1.5 })).toThrow("power factor");
  });

  it("are compared on the rpm that all share, read straight between their rows, in whatever order those stand", () => {
    const before = [{ rpm: [4000, 3000, 3500], torqueNm: [34, 30, 31] }];
    const after = [{ rpm: [2900, 4100], torqueNm: [30, 36] }];
    const seen = comparePulls(before, after, undefined, 250);
    expect(seen.rpm).toEqual([3000, 3250, 3500, 3750, 4000]);
    expect(seen.beforeNm).toEqual([30, 30.5, 31, 32.5, 34]);
    expect(seen.afterNm.map((nm) => Number(nm.toFixed(9)))).toEqual([30.5, 31.75, 33, 34.25, 35.5]);
    expect(seen.gain[2]).toBeCloseTo(33 / 31 - 1, 12);
    const mean = (31.75 / 30.5 + 33 / 31 + 34.25 / 32.5 + 35.5 / 34 + 30.5 / 30) / 5 - 1;
    expect(seen.meanGain).toBeCloseTo(mean, 12);
    expect(seen.areaGain).toBeCloseTo(165 / 158 - 1, 12);
    expect(seen.test).toBeNull();
  });

  it("may hold a speed twice: the first row that has it is read where the grid lies on it", () => {
    const twice = { rpm: [3000, 3000, 4000, 4000], torqueNm: [30, 30, 40, 42] };
    expect(comparePulls([twice], [twice], undefined, 500).beforeNm).toEqual([30, 35, 40]);
  });

  it("are means of their side, and kept to a band where one is given", () => {
    const flat = (nm: number) => ({ rpm: [3000, 5000], torqueNm: [nm, nm] });
    const seen = comparePulls([flat(40), flat(42)], [flat(43), flat(45)], { lowRpm: 3450, highRpm: 4000 });
    expect(seen.rpm).toEqual([3500, 3600, 3700, 3800, 3900, 4000]);
    expect(seen.beforeNm[0]).toBe(41);
    expect(seen.afterNm.at(-1)).toBe(44);
    expect(seen.test?.noise).toBeGreaterThan(0);
    expect(comparePulls([flat(40)], [flat(41)], { lowRpm: 4900, highRpm: 9000 }).rpm).toEqual([4900, 5000]);
    expect(() => comparePulls([flat(40)], [flat(41)], { lowRpm: 4950, highRpm: 9000 })).toThrow(
      "no engine speeds",
    );
    for (const [before, after] of [
      [[flat(40)], []],
      [[], [flat(40)]],
      [[], []],
    ] as const)
      expect(() => comparePulls(before, after)).toThrow("a pull before and a pull after");
    expect(() => comparePulls([flat(40)], [flat(41)], undefined, 5)).toThrow("rpm step is 5 rpm");
  });
});

describe("power brought to a standard's air", () => {
  const air = (dryKPa: number, temperatureK: number, wholeKPa = dryKPa + 1) => ({
    dryPressurePa: dryKPa * 1000,
    pressurePa: wholeKPa * 1000,
    temperatureK,
  });

  // EU 134/2014 App. 2.2: 283.2 to 318.2 K. ISO 1585 and SAE J1349: 0.93 to 1.07, from memory.
  it("is allowed up to the limits that each standard names, and says so beyond", () => {
    const allowed = (standard: Parameters<typeof powerFactor>[1], a: ReturnType<typeof air>) =>
      powerFactor(a, standard).allowed;
    expect([283.2, 283.1, 318.2, 318.3].map((t) => allowed("EU 134/2014", air(95, t)))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    // 99 kPa over 298 K is 1; the factor passes 1.07 and 0.93 with pressure alone at 99 / 1.07^(1/1.2) and 99 / 0.93^(1/1.2).
    const at = (factor: number) => 99 / factor ** (1 / 1.2);
    expect([1.069, 1.071, 0.931, 0.929].map((f) => allowed("ISO 1585", air(at(f), 298)))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    // J1349: factor f means (99 / pd) / 0.85 = f + 1 / 0.85 - 1.
    const sae = (factor: number) => 99 / (0.85 * (factor + 1 / 0.85 - 1));
    expect([1.069, 1.071, 0.931, 0.929].map((f) => allowed("SAE J1349", air(sae(f), 298)))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    const beyond = (standard: Parameters<typeof powerFactor>[1], a: ReturnType<typeof air>) =>
      powerFactor(a, standard).because[1];
    expect(beyond("EU 134/2014", air(95, 320))).toEqual({
      fact: "Outside 283.2 to 318.2 K",
      from: "EU 134/2014 App. 2.2",
      effect: "state the conditions with the power",
    });
    for (const standard of ["ISO 1585", "SAE J1349"] as const)
      expect(beyond(standard, air(80, 298))?.fact).toBe("Outside 0.93 to 1.07");
    expect(powerFactor(air(98, 298), "ISO 1585").because).toEqual([
      { fact: expect.stringMatching(/^Power x 1\.0123/), from: expect.stringContaining("ISO 1585") },
    ]);
  });

  it("takes the European standard unless told, the whole pressure for DIN 70020, and dry pressure up to the whole", () => {
    expect(powerFactor(air(95, 308)).factor).toBe(powerFactor(air(95, 308), "EU 134/2014").factor);
    expect(powerFactor(air(95, 293, 101.3), "DIN 70020")).toMatchObject({ factor: 1, allowed: true });
    expect(powerFactor(air(95, 300, 96), "DIN 70020").factor).toBeCloseTo(
      (101.3 / 96) * Math.sqrt(300 / 293),
      12,
    );
    expect(powerFactor(air(95, 300, 95)).allowed).toBe(true);
    expect(() => powerFactor(air(95, 300, 94.9))).toThrow(
      "950.0 hPa is above the whole pressure of 949.0 hPa",
    );
    expect(() => powerFactor(air(59, 300))).toThrow("dry pressure is 59000 Pa");
    expect(() => powerFactor(air(95, 331))).toThrow("temperature is 331 K");
    expect(() => powerFactor(air(110, 300, 111))).toThrow("pressure is 111000 Pa");
    expect(() => powerFactor(air(95, 300), "SAE J607" as never)).toThrow(
      'The power standard "SAE J607" is not known.',
    );
  });
});
