import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answeredBy, COMPLAINTS, complaintOf } from "@/lib/domain/tuning/complaints";
import { ruleOutBefore } from "@/lib/domain/tuning/firstLook";
import type { Observation } from "@/lib/domain/tuning/rideTypes";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import { observedText } from "@/lib/domain/tuning/symptoms";
import { pullOf } from "@/lib/domain/tuning/symptomTable";
import { IntakeSchema } from "@/lib/schemas/intakes";
import { CONDITIONS, ENGINES, SIGNS, THROTTLES } from "@/lib/schemas/rides";

const felt = (more: Partial<Observation> = {}): Observation => ({
  throttle: "quarter",
  condition: "steady",
  engine: "hot",
  sign: "lean",
  ...more,
});
const change = (setting: string) => ({ setting, change: "computed" as const });
const look = {
  compressionKpa: null,
  leakDownPercent: null,
  intakeClearanceMm: null,
  exhaustClearanceMm: null,
  plug: null,
};

describe("what an option answers", () => {
  // Which setting decides where is common practice: the needle from a quarter to half, the main jet at full throttle.
  it("is what its settings decide there: the needle at a quarter, the main jet at full throttle", () => {
    const needle = { changes: [change("clipPosition")] };
    const main = { changes: [change("mainJet")] };
    expect(answeredBy(needle, [felt()])).toHaveLength(1);
    expect(answeredBy(main, [felt()])).toEqual([]);
    expect(answeredBy(main, [felt({ throttle: "full" })])).toHaveLength(1);
    expect(answeredBy({ changes: [change("springLengthMm")] }, [felt({ condition: "snap" })])).toHaveLength(
      1,
    );
  });

  it("is what its author says it answers, without any setting", () => {
    const rubbers = { changes: [], answers: ["idle", "small"] as const };
    const told = [
      felt(),
      felt({ condition: "idle", throttle: "closed" }),
      felt({ throttle: "full" }),
      felt({ sign: "good" }),
    ];
    expect(answeredBy(rubbers, told)).toEqual(told.slice(0, 2));
    expect(answeredBy({ changes: [] }, told)).toEqual([]);
  });

  it("places a steady one by its throttle and another by what was done, whatever the throttle", () => {
    const steady = THROTTLES.map((throttle) => [throttle, complaintOf(felt({ throttle }))]);
    expect(Object.fromEntries(steady)).toEqual({
      closed: "idle",
      eighth: "small",
      quarter: "small",
      half: "middle",
      threeQuarter: "large",
      full: "large",
    });
    const done = CONDITIONS.map((condition) => complaintOf(felt({ condition, throttle: "half" })));
    expect(Object.fromEntries(CONDITIONS.map((condition, i) => [condition, done[i]]))).toEqual({
      steady: "middle",
      snap: "snap",
      decelerating: "slowing",
      idle: "idle",
      starting: "starting",
    });
    expect(COMPLAINTS.map(({ key }) => key)).toEqual([
      "starting",
      "idle",
      "small",
      "middle",
      "large",
      "snap",
      "slowing",
    ]);
  });

  it("begins where a setting decides half of what is felt, and knows no other word than a setting's", () => {
    // Starting: the pilot jet decides half, the screw four tenths (symptomTable.ts).
    const starting = [felt({ condition: "starting" })];
    expect(answeredBy({ changes: [change("pilotJet")] }, starting)).toHaveLength(1);
    expect(answeredBy({ changes: [change("mixtureScrewTurns")] }, starting)).toEqual([]);
    expect(answeredBy({ changes: [change("spoons")] }, starting)).toEqual([]);
    expect(answeredBy({ changes: [change("spoons"), change("pilotJet")] }, starting)).toHaveLength(1);
  });

  it("knows a place for every observation, and no setting decides more than all of it", () => {
    const observation = fc.record({
      throttle: fc.constantFrom(...THROTTLES),
      condition: fc.constantFrom(...CONDITIONS),
      engine: fc.constantFrom(...ENGINES),
      sign: fc.constantFrom(...SIGNS),
    });
    fc.assert(
      fc.property(observation, (one) => {
        expect(COMPLAINTS.map(({ key }) => key)).toContain(complaintOf(one));
        for (const { key } of SETTINGS) {
          expect(pullOf(key, one)).toBeGreaterThanOrEqual(0);
          expect(pullOf(key, one)).toBeLessThanOrEqual(1);
        }
      }),
    );
    expect(observedText(felt({ note: "at 90" }))).toBe("A quarter, steady, hot: lean (at 90)");
  });
});

describe("what is ruled out before a quote", () => {
  const checks = (...of: Parameters<typeof ruleOutBefore>) => ruleOutBefore(...of).map((one) => one.check);
  it("begins with what the look showed: leak-down, uneven compression, an oily plug", () => {
    const cylinders = [
      { ...look, compressionKpa: 1150, leakDownPercent: 25, plug: "oily" as const },
      { ...look, compressionKpa: 900 },
    ];
    expect(checks([felt()], cylinders).slice(0, 3)).toEqual([
      "Leak-down of 25 %: listen where it goes",
      "Compression of 1150 and 900 kPa: find out why it differs",
      "Oil on the plug: rings, valve guides, breather",
    ]);
    expect(checks([felt()], []).length).toBe(checks([felt()], cylinders).length - 3);
  });
  it("begins above a fifth of leak-down and at a compression more than 15 % below the best (common practice)", () => {
    const leaks = (...shares: number[]) =>
      checks(
        [],
        shares.map((leakDownPercent) => ({ ...look, leakDownPercent })),
      );
    expect(leaks(20, 5)).toEqual([]);
    expect(leaks(21, 5, 30)).toEqual(["Leak-down of 21 and 30 %: listen where it goes"]);
    const pressures = (...kpa: number[]) =>
      checks(
        [],
        kpa.map((compressionKpa) => ({ ...look, compressionKpa })),
      );
    expect(pressures(1000, 850)).toEqual([]);
    expect(pressures(849)).toEqual([]);
    // One that was not read is no low one.
    expect(checks([], [{ ...look, compressionKpa: 1000, leakDownPercent: 5 }, look])).toEqual([]);
    expect(pressures(849, 1000, 990)).toEqual([
      "Compression of 849 and 1000 and 990 kPa: find out why it differs",
    ]);
    for (const plug of ["tan", "white", "sooty", "wet"] as const)
      expect(checks([], [{ ...look, plug }])).toEqual([]);
    expect(checks([], [{ ...look, plug: "oily" }])).toHaveLength(1);
  });
  it("says clearances that were read, so that they are compared and not forgotten", () => {
    const read = checks([felt()], [{ ...look, intakeClearanceMm: 0.08, exhaustClearanceMm: 0.12 }]);
    expect(read).toContain("Valve clearance: 0.08, 0.12 mm read, compare with the model's");
    expect(read).not.toContain("Valve clearance");
    const unread = checks([felt()], [look]);
    expect(unread).toContain("Valve clearance");
    expect(read.map((one) => (one.startsWith("Valve clearance:") ? "Valve clearance" : one))).toEqual(unread);
    expect(checks([felt()], [{ ...look, intakeClearanceMm: 0.08 }])).toContain(
      "Valve clearance: 0.08 mm read, compare with the model's",
    );
  });
  it("says nothing of an engine that is good and was not looked at", () => {
    expect(checks([felt({ sign: "good" })], [{ ...look, plug: "tan", compressionKpa: 1150 }])).toEqual([]);
  });
});

describe("an intake as typed", () => {
  const parse = (form: object) => IntakeSchema.safeParse({ bikeId: "1", ...form });
  it("takes compression as the gauge says it, and keeps kPa", () => {
    // 1 bar = 100 kPa (BIPM SI brochure, table 8); 1 psi = 6.894757 kPa (NIST SP 811, appendix B).
    const kpa = (compressionKpa: string) => {
      const read = parse({ cylinders: { 1: { compressionKpa } } });
      return read.success ? read.data.cylinders[0]?.compressionKpa : read.error.issues[0]?.message;
    };
    expect(kpa("11,5 bar")).toBe(1150);
    expect(kpa("165 psi")).toBeCloseTo(1137.6, 1);
    expect(kpa("1150")).toBe(1150);
    expect(kpa("11.5")).toContain("with its unit");
    expect(kpa("good")).toContain("with its unit");
  });
  it("leaves out rows that nothing is said in, and refuses to be empty", () => {
    const read = parse({
      complaint: "Flat",
      observations: { 0: { throttle: "quarter", condition: "steady", engine: "hot", sign: "" } },
      cylinders: { 1: { plug: "" }, 2: { plug: "sooty" } },
    });
    expect(read.success && read.data.observations).toEqual([]);
    expect(read.success && read.data.cylinders).toEqual([{ ...look, position: 2, plug: "sooty" }]);
    expect(parse({}).success).toBe(false);
    expect(parse({ complaint: " ", fuelUse: "5,8" }).success).toBe(true);
    expect(parse({ fuelUse: "400" }).success).toBe(false);
    expect(parse({ complaint: "x", cylinders: { 1: { plug: "blue" } } }).success).toBe(false);
  });
});
