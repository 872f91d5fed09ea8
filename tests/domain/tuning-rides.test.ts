import { describe, expect, it } from "vitest";
import { buildOf } from "@/lib/domain/tuning/build";
import { correctionBy } from "@/lib/domain/tuning/correction";
import { feltOpenings } from "@/lib/domain/tuning/feltOpenings";
import { type LambdaBin, readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { logObservations, withMeasured } from "@/lib/domain/tuning/logObservations";
import type { Correction, Observation } from "@/lib/domain/tuning/rideTypes";
import { ruleOutFirst } from "@/lib/domain/tuning/ruleOut";
import { SETTINGS, settingDef } from "@/lib/domain/tuning/settings";
import { decides, stillHolds } from "@/lib/domain/tuning/steadyReading";
import { corrections, type RideSheet } from "@/lib/domain/tuning/symptoms";
import { LEVERS, MEANS, SPECIAL, STEADY } from "@/lib/domain/tuning/symptomTable";
import { unseenWork } from "@/lib/domain/tuning/unseen";
import { wear } from "@/lib/domain/tuning/wear";

const felt = (
  throttle: Observation["throttle"],
  sign: Observation["sign"],
  condition: Observation["condition"] = "steady",
  engine: Observation["engine"] = "hot",
  note?: string,
): Observation => ({ throttle, sign, condition, engine, ...(note === undefined ? {} : { note }) });

const sheet: RideSheet = {
  settings: {
    mainJet: 140,
    pilotJet: 45,
    clipPosition: 3,
    mixtureScrewTurns: 2,
    floatHeightMm: 14,
    springLengthMm: 100,
    idleSpeedRpm: 1300,
  },
  carburettorType: "cv",
  deliveredSpringMm: 112,
};
const lever = (key: string) => {
  const found = LEVERS.find((l) => l.key === key);
  if (!found) throw new Error(key);
  return found;
};

describe("one step of a setting", () => {
  const by = (key: string, sense: 1 | -1, on: RideSheet = sheet) =>
    correctionBy(lever(key), sense, 0.5, [], on);
  it("goes up or down by its own step, in its own unit, and says richer or leaner", () => {
    expect(by("mainJet", 1)).toMatchObject({
      from: 140,
      to: 142.5,
      unit: "",
      direction: "richer",
      score: 0.5,
    });
    expect(by("mixtureScrewTurns", -1)).toMatchObject({ to: 1.75, unit: "turns out", direction: "leaner" });
    // A greater float height is a lower level: leaner (common practice).
    expect(by("floatHeightMm", 1)).toMatchObject({ to: 14.5, unit: "mm", direction: "leaner" });
    expect(by("floatHeightMm", -1)).toMatchObject({ to: 13.5, direction: "richer" });
    // A cut spring gets no longer: up means exchanged for the delivered one (common practice).
    expect(by("springLengthMm", 1)).toMatchObject({ to: 112, direction: "up" });
    expect(by("springLengthMm", 1, { ...sheet, deliveredSpringMm: 100 })).toBeNull();
    expect(by("springLengthMm", -1)).toMatchObject({ to: 98, direction: "down" });
    expect(by("idleSpeedRpm", -1)).toMatchObject({ to: 1250, unit: "rpm", direction: "down" });
  });

  it("stops at the ends of what can be set, and goes up to them", () => {
    const at = (clipPosition: number): RideSheet => ({ settings: { clipPosition } });
    expect(by("clipPosition", 1, at(7))).toBeNull();
    expect(by("clipPosition", -1, at(1))).toBeNull();
    expect(by("clipPosition", 1, at(6))?.to).toBe(7);
    expect(by("clipPosition", -1, at(2))?.to).toBe(1);
    expect(correctionBy({ key: "noSuch" as never, step: 1, richer: 1, ease: 1 }, 1, 1, [], sheet)).toBeNull();
  });

  it("wants a measurement for every leaner main jet, known or not, and for nothing richer", () => {
    expect(by("mainJet", -1)?.needsMeasurement).toContain("full load");
    expect(by("mainJet", -1, { settings: {} })).toMatchObject({
      from: null,
      to: null,
      direction: "leaner",
      needsMeasurement: expect.stringContaining("full load"),
    });
    expect(by("mainJet", 1)).not.toHaveProperty("needsMeasurement");
    expect(by("idleSpeedRpm", -1)).not.toHaveProperty("needsMeasurement");
  });

  it("counts four tenths where the same step was tried and not kept, and says what it did", () => {
    const tried = (setting: string, to: number): RideSheet => ({
      ...sheet,
      tried: [{ setting, to, what: "142.5 on job 612: rich" }],
    });
    const again = by("mainJet", 1, tried("mainJet", 142.5));
    expect(again).toMatchObject({ score: 0.2, firmness: "starting point" });
    expect(again?.because).toEqual([
      { fact: "142.5 on job 612: rich", from: "tried on this bike", effect: "counts less" },
    ]);
    for (const other of [tried("mainJet", 145), tried("pilotJet", 142.5)])
      expect(by("mainJet", 1, other)).toMatchObject({ score: 0.5, because: [] });
    expect(by("mainJet", 1, { settings: {} })).toMatchObject({ to: null, because: [], score: 0.5 });
    // What makes nothing leaner needs no measurement, however far it goes.
    const idle = { ...sheet, accepted: { idleSpeedRpm: 1500 } };
    expect(by("idleSpeedRpm", -1, idle)).not.toHaveProperty("needsMeasurement");
  });

  it("wants one elsewhere beyond one step leaner than what was accepted", () => {
    const accepted = (value: number): RideSheet => ({ ...sheet, accepted: { mixtureScrewTurns: value } });
    expect(by("mixtureScrewTurns", -1, accepted(2))).not.toHaveProperty("needsMeasurement");
    expect(by("mixtureScrewTurns", -1, accepted(2.25))?.needsMeasurement).toBe(
      "Mixture screw would be more than one step leaner than the accepted 2.25: measure lambda there first.",
    );
    expect(by("mixtureScrewTurns", -1, accepted(1))).not.toHaveProperty("needsMeasurement");
    expect(by("floatHeightMm", 1, { ...sheet, accepted: { floatHeightMm: 13.5 } })).toHaveProperty(
      "needsMeasurement",
    );
    expect(by("floatHeightMm", 1, { ...sheet, accepted: { floatHeightMm: 15.5 } })).not.toHaveProperty(
      "needsMeasurement",
    );
    expect(by("pilotJet", -1)).not.toHaveProperty("needsMeasurement");
    expect(by("pilotJet", -1, { settings: {}, accepted: { pilotJet: 45 } })).not.toHaveProperty(
      "needsMeasurement",
    );
  });
});

describe("a ride read", () => {
  const list = (...seen: Observation[]) => corrections(seen, sheet).corrections;
  it("explains each correction by what was felt, where, on which engine, and how much the setting decides there", () => {
    const [clip] = list(felt("quarter", "lean", "steady", "cold", "flat spot"));
    expect(clip?.because).toEqual([
      {
        fact: "A quarter, steady, cold: lean (flat spot)",
        from: "test ride",
        effect: "Clip position from top decides 80 % here, cold engine counts less",
      },
    ]);
    // The screw decides nothing at full throttle, so that nothing is said of it there.
    const screw = list(felt("closed", "lean"), felt("full", "lean")).find(
      (c) => c.setting === "mixtureScrewTurns" && !c.also,
    );
    expect(screw?.because.map((r) => r.fact)).toEqual(["Closed throttle, steady, hot: lean"]);
    expect(list(felt("full", "rich"))[0]?.because[0]).toEqual({
      fact: "Full throttle, steady, hot: rich",
      from: "test ride",
      effect: "Main jet decides 95 % here",
    });
    const places = (["closed", "eighth", "half", "threeQuarter"] as const).map(
      (at) => list(felt(at, "lean"))[0]?.because[0]?.fact.split(",")[0],
    );
    expect(places).toEqual(["Closed throttle", "An eighth", "Half", "Three quarters"]);
  });

  it("scores its best correction 1 at most and the rest below it, best first", () => {
    const seen = list(felt("closed", "lean"), felt("eighth", "lean"), felt("quarter", "lean"));
    const scores = seen.map((c) => c.score);
    expect(scores[0]).toBeLessThanOrEqual(1);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
    // Three observations that point at one setting add up beyond 1 and are brought back to it.
    const more = list(
      felt("half", "lean"),
      felt("quarter", "lean"),
      felt("half", "lean"),
      felt("quarter", "lean"),
    );
    expect(more[0]?.score).toBe(1);
    // One alone is what the table says: 0.9 at half x (0.9 - 0.05) x ease 0.8.
    expect(list(felt("half", "lean"))[0]?.score).toBeCloseTo(0.9 * 0.85 * 0.8, 9);
    expect(list(felt("half", "lean", "steady", "cold"))[0]?.score).toBeCloseTo(0.4 * 0.9 * 0.85 * 0.8, 9);
  });

  it("lets what is good speak against a change there, by seven tenths of what the setting decides", () => {
    const alone = list(felt("half", "lean")).find((c) => c.setting === "mainJet")?.score ?? 0;
    const held = list(felt("half", "lean"), felt("threeQuarter", "good")).find(
      (c) => c.setting === "mainJet",
    );
    expect(held?.score).toBeCloseTo(alone * (1 - 0.7 * 0.65), 9);
    // 0.2 at half x 0.85 x ease 0.8 is 0.136; good at full leaves 33.5 % of it.
    const full = list(felt("half", "lean"), felt("full", "good")).find((c) => c.setting === "mainJet");
    expect(full?.score).toBeCloseTo(0.136 * 0.335, 9);
  });

  it("takes a lean snap for the spring and seven tenths of what a steady reading there would say", () => {
    const snap = list(felt("half", "lean", "snap"));
    expect(snap.find((c) => c.setting === "springLengthMm")).toMatchObject({ to: 112, direction: "up" });
    expect(snap.find((c) => c.setting === "clipPosition")?.score).toBeCloseTo(0.7 * 0.9 * 0.85 * 0.8, 9);
    const rich = list(felt("half", "rich", "snap"));
    expect(rich.find((c) => c.setting === "springLengthMm")?.direction ?? "up").toBe("up");
  });

  it("takes idle, overrun and starting for their own settings, whatever the opening", () => {
    const settings = (condition: Observation["condition"]) =>
      list(felt("full", "lean", condition))
        .filter((c) => !c.also)
        .map((c) => c.setting);
    expect(settings("idle")).toEqual(["mixtureScrewTurns", "pilotJet", "idleSpeedRpm", "floatHeightMm"]);
    expect(settings("decelerating")).toEqual(["mixtureScrewTurns", "pilotJet"]);
    expect(settings("starting")).toEqual(["mixtureScrewTurns", "pilotJet", "floatHeightMm"]);
  });

  it("says where two observations of one place deny each other, and only there", () => {
    const said = (...seen: Observation[]) => corrections(seen, sheet).unexplained;
    expect(said(felt("half", "lean"), felt("half", "rich"))).toContain(
      "Half, steady, hot is said to be both lean and rich.",
    );
    expect(said(felt("half", "lean"), felt("quarter", "rich"))).toEqual([]);
    expect(said(felt("half", "lean"), felt("half", "rich", "snap"))).toEqual([]);
    expect(said(felt("half", "lean"), felt("half", "rich", "steady", "cold"))).toEqual([]);
    expect(said(felt("half", "lean"), felt("half", "lean"))).toEqual([]);
    expect(said(felt("half", "good"))).toEqual([]);
  });

  it("points at the faults to rule out where no setting explains it", () => {
    // Twice good at the same place leaves a twentieth of what is said there.
    const seen = corrections(
      [felt("half", "lean", "steady", "cold"), ...new Array(6).fill(felt("half", "good"))],
      { settings: sheet.settings },
    );
    expect(seen.unexplained.at(-1) ?? "").toMatch(/No single setting|^$/);
    const onlySpring = corrections([felt("half", "rich", "decelerating")], {
      settings: { mixtureScrewTurns: 0, pilotJet: 10 },
    });
    expect(onlySpring.corrections).toEqual([]);
    const besides = corrections([felt("full", "good"), felt("half", "rich", "decelerating")], {
      settings: { mixtureScrewTurns: 0, pilotJet: 10 },
    });
    expect(besides.unexplained).toEqual(onlySpring.unexplained);
    expect(onlySpring.unexplained).toEqual([
      "No single setting explains what was observed: look at the faults to rule out.",
    ]);
  });

  it("stands on likelihoods that add up to one at most, and on settings that a sheet holds", () => {
    for (const { lean, rich } of Object.values(MEANS)) expect(lean + rich).toBeLessThanOrEqual(1);
    for (const pull of [...Object.values(STEADY), ...Object.values(SPECIAL)])
      for (const [key, share] of Object.entries(pull)) {
        expect(settingDef(key), key).toBeDefined();
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
      }
    for (const { key, step } of LEVERS) {
      const def = settingDef(key);
      expect((step / (def?.step ?? Number.NaN)) % 1, key).toBe(0);
    }
    expect(SETTINGS.every((s) => s.low < s.high && s.step > 0)).toBe(true);
    expect(settingDef("noSuch")).toBeUndefined();
  });
});

describe("faults to rule out first (common practice)", () => {
  const checks = (...seen: Observation[]) => ruleOutFirst(seen).map((r) => r.check);
  const lean = checks(felt("half", "lean"));
  const both = ["Valve clearance", "Ignition: plug, cap and timing"];
  const forRich = ["Float level and float valve", "Air filter clean", "Enrichener closes fully"];
  const forLean = [
    "Air leak at the intake boot, plugs and hoses",
    "Fuel flow through filter, tap and hose",
    "Float height, and clean fuel in the bowl",
    "Vent hoses free, not kinked",
  ];
  it("are air, fuel and level for a lean engine, filter and enrichener for a rich one, valves and spark for both", () => {
    for (const sign of ["lean", "surges", "hesitates"] as const)
      expect(checks(felt("half", sign))).toEqual([...forLean, ...both]);
    for (const sign of ["rich", "floods"] as const)
      expect(checks(felt("half", sign))).toEqual([...forRich, ...both]);
    expect(checks(felt("half", "lean"), felt("full", "rich"))).toEqual([...forLean, ...forRich, ...both]);
  });

  it("are the slide after a snap, and none after a ride that was good", () => {
    expect(
      checks(felt("half", "lean", "snap"))
        .filter((c) => !lean.includes(c))
        .join(),
    ).toMatch(/[Ss]lide/);
    expect(lean.join()).not.toMatch(/[Ss]lide/);
    expect(checks(felt("half", "good", "snap"), felt("full", "good"))).toEqual([]);
  });
});

describe("what a ride without an instrument tells of the mixture", () => {
  it("is lean or rich at its opening, steady and hot; all else is left out", () => {
    const openings = (["closed", "eighth", "quarter", "half", "threeQuarter", "full"] as const).map((at) =>
      felt(at, "lean"),
    );
    expect(feltOpenings(openings)).toEqual(
      [0.02, 0.125, 0.25, 0.5, 0.75, 1].map((throttle) => ({ throttle, sign: "lean" })),
    );
    expect(feltOpenings([felt("full", "rich")])).toEqual([{ throttle: 1, sign: "rich" }]);
    expect(
      feltOpenings([
        felt("full", "lean", "snap"),
        felt("full", "lean", "steady", "cold"),
        felt("full", "good"),
        felt("full", "surges"),
      ]),
    ).toEqual([]);
  });
});

describe("a lambda log", () => {
  /** A log at ten readings a second: each part a throttle, a lambda and how many readings. */
  const log = (...parts: (readonly [throttle: number, lambda: number, n: number])[]) => {
    const rows = parts.flatMap(([u, l, n]) => Array.from({ length: n }, () => [u, l] as const));
    return {
      timeS: rows.map((_, i) => i / 10),
      throttle: rows.map(([u]) => u),
      lambda: rows.map(([, l]) => l),
    };
  };

  it("is read from 0.6 s after the throttle last moved faster than 15 % a second", () => {
    const seen = readLambdaLog(log([0.2, 0.95, 10], [0.9, 0.88, 12]));
    // The step is at 1.0 s: 1.0 to 1.5 s are transient, 1.6 s on is steady.
    expect(seen).toMatchObject({ steady: 16, transient: 6, unreadable: 0 });
    expect(seen.bins.map((b) => [Number(b.throttle.toFixed(9)), b.samples])).toEqual([
      [0.2, 10],
      [0.9, 6],
    ]);
    const crept = log([0.2, 0.95, 10], [0.214, 0.95, 10]);
    expect(readLambdaLog(crept).transient).toBe(0);
    expect(readLambdaLog(log([0.2, 0.95, 10], [0.216, 0.95, 10])).transient).toBe(6);
    expect(readLambdaLog(log([0.9, 0.95, 10], [0.2, 0.95, 10])).transient).toBe(6);
  });

  it("is steady again just at 0.6 s, and while the throttle moves by 15 % a second and no faster", () => {
    const two = (timeS: readonly number[], throttle: readonly number[]) =>
      readLambdaLog({ timeS, throttle, lambda: timeS.map(() => 0.9) }).transient;
    expect(two([-1, 0, 0.6], [0.2, 0.9, 0.9])).toBe(1);
    expect(two([0, 1], [0, 0.15])).toBe(0);
    expect(two([0, 1], [0, 0.151])).toBe(1);
  });

  it("falls into bins of equal width, the last one with full throttle in it, from five readings on", () => {
    const bins = (u: number, n: number, of = 8) => readLambdaLog(log([u, 0.9, n]), of).bins;
    expect(bins(1, 5)).toHaveLength(1);
    expect(bins(1, 4)).toEqual([]);
    expect(bins(0, 5)[0]?.throttle).toBe(0);
    const two = readLambdaLog(
      {
        timeS: [0, 1, 2, 3, 4, 10, 20, 21, 22, 23, 24],
        throttle: [0.24, 0.24, 0.24, 0.24, 0.24, 0.25, 0.26, 0.26, 0.26, 0.26, 0.26],
        lambda: new Array(11).fill(0.9),
      },
      4,
    );
    expect(two.bins.map((b) => b.samples)).toEqual([5, 6]);
  });

  it("has the mean and the standard error of its readings beside the sensor's 1.5 %", () => {
    const [bin] = readLambdaLog({
      timeS: [0, 1, 2, 3, 4],
      throttle: [0.5, 0.5, 0.5, 0.5, 0.5],
      lambda: [0.88, 0.9, 0.92, 0.9, 0.9],
      rpm: [4000, 4100, 4200, 4100, 4100],
    }).bins;
    // Sample variance by hand: (0.0004 + 0.0004) / 4 = 0.0002; over five readings 0.00004.
    expect(bin?.lambda).toBeCloseTo(0.9, 12);
    expect(bin?.sigma).toBeCloseTo(Math.hypot(0.015, Math.sqrt(0.000_04) / 0.9), 12);
    expect(bin?.rpm).toBeCloseTo(4100, 9);
    expect(bin?.seconds).toBe(4);
    expect(readLambdaLog(log([0.5, 0.9, 6])).bins[0]?.rpm).toBeNull();
  });

  it("counts a gap as one second at most", () => {
    const seen = readLambdaLog({
      timeS: [0, 0.5, 1, 11, 11.5],
      throttle: new Array(5).fill(0.5),
      lambda: new Array(5).fill(0.9),
    });
    expect(seen.bins[0]?.seconds).toBe(2.5);
  });

  it("counts nothing for its first reading, whatever its clock showed", () => {
    const seen = readLambdaLog({
      timeS: [100, 100.5, 101, 101.5, 102],
      throttle: new Array(5).fill(0.5),
      lambda: new Array(5).fill(0.9),
    });
    expect(seen.bins[0]?.seconds).toBe(2);
  });

  it("has readings that are none: outside 0.5 to 2, no number, no throttle", () => {
    const odd = (lambda: number, throttle = 0.5) =>
      readLambdaLog({
        timeS: [0, 1, 2],
        throttle: [throttle, throttle, throttle],
        lambda: [lambda, lambda, lambda],
      });
    expect([0.5, 2].map((l) => odd(l).unreadable)).toEqual([0, 0]);
    expect([0.49, 2.01, Number.NaN].map((l) => odd(l).unreadable)).toEqual([3, 3, 3]);
    expect([0, 1].map((u) => odd(0.9, u).unreadable)).toEqual([0, 0]);
    expect([-0.01, 1.01, Number.NaN].map((u) => odd(0.9, u).unreadable)).toEqual([3, 3, 3]);
  });

  it("whose columns differ or whose time stands still is refused", () => {
    const good = { timeS: [0, 1], throttle: [0.5, 0.5], lambda: [0.9, 0.9] };
    expect(() => readLambdaLog({ ...good, throttle: [0.5] })).toThrow("differ in length");
    expect(() => readLambdaLog({ ...good, lambda: [0.9] })).toThrow("differ in length");
    expect(() => readLambdaLog({ ...good, rpm: [1] })).toThrow("differ in length");
    expect(() => readLambdaLog({ ...good, timeS: [1, 1] })).toThrow("Time does not run forward at row 2.");
    expect(readLambdaLog({ timeS: [], throttle: [], lambda: [] }).bins).toEqual([]);
  });
});

describe("a log as observations", () => {
  const bin = (throttle: number, lambda: number, more: Partial<LambdaBin> = {}): LambdaBin => ({
    throttle,
    lambda,
    rpm: 6000,
    sigma: 0.01,
    samples: 10,
    seconds: 3,
    ...more,
  });

  it("is good within 3 % or twice its own sigma of the target, lean above and rich below", () => {
    const sign = (lambda: number, sigma = 0.01) => logObservations([bin(1, lambda, { sigma })])[0]?.sign;
    // Full load aims at 0.88.
    expect([0.88 * Math.exp(0.029), 0.88 * Math.exp(0.031)].map((l) => sign(l))).toEqual(["good", "lean"]);
    expect([0.88 * Math.exp(-0.029), 0.88 * Math.exp(-0.031)].map((l) => sign(l))).toEqual(["good", "rich"]);
    expect([0.88 * Math.exp(0.049), 0.88 * Math.exp(0.051)].map((l) => sign(l, 0.025))).toEqual([
      "good",
      "lean",
    ]);
  });

  it("goes to the nearest throttle position, bins taken together by their samples", () => {
    const [half] = logObservations([bin(0.45, 1, { samples: 30 }), bin(0.55, 0.9, { samples: 10 })]);
    expect(half).toMatchObject({ throttle: "half", condition: "steady", engine: "hot" });
    expect(half?.note).toBe("lambda 0.975 ± 0.010, aimed at 0.96: 0.9 % lean, 40 samples");
    const at = [0, 0.06, 0.07, 0.19, 0.37, 0.38, 0.62, 0.63, 0.87, 0.88];
    expect(at.map((u) => logObservations([bin(u, 0.9)])[0]?.throttle)).toEqual([
      "closed",
      "closed",
      "eighth",
      "quarter",
      "quarter",
      "half",
      "half",
      "threeQuarter",
      "threeQuarter",
      "full",
    ]);
    expect(logObservations([])).toEqual([]);
    // Halfway between two positions it is the smaller one's.
    const between = [0.0625, 0.1875, 0.375, 0.625, 0.875];
    expect(between.map((u) => logObservations([bin(u, 0.9)])[0]?.throttle)).toEqual([
      "closed",
      "eighth",
      "quarter",
      "half",
      "threeQuarter",
    ]);
    expect(logObservations([bin(1, 0.8)])[0]?.note).toBe(
      "lambda 0.800 ± 0.008, aimed at 0.88: 9.1 % rich, 10 samples",
    );
    expect(logObservations([bin(1, 0.88)])[0]?.note).toContain("aimed at 0.88: 0.0 %");
  });

  const correction = (setting: Correction["setting"], needsMeasurement?: string): Correction => ({
    setting,
    from: 1,
    to: 2,
    unit: "",
    direction: "leaner",
    score: 1,
    because: [],
    firmness: "starting point",
    ...(needsMeasurement === undefined ? {} : { needsMeasurement }),
  });
  it("is the measurement that a leaner setting waits for, where it was rich and the setting decides", () => {
    const asks = (setting: Correction["setting"], seen: readonly Observation[], bins: readonly LambdaBin[]) =>
      withMeasured([correction(setting, "measure")], seen, bins, 6500)[0]?.needsMeasurement;
    expect(asks("clipPosition", [felt("half", "rich")], [])).toBeUndefined();
    expect(asks("clipPosition", [felt("half", "lean")], [])).toBe("measure");
    // The clip decides half at three quarters, a third at an eighth.
    expect(asks("clipPosition", [felt("threeQuarter", "rich")], [])).toBeUndefined();
    expect(asks("clipPosition", [felt("eighth", "rich")], [])).toBe("measure");
    expect(asks("clipPosition", [felt("full", "lean"), felt("half", "rich")], [])).toBeUndefined();
    // Shims raise the needle as its clip does; a screw is decided elsewhere.
    expect(asks("needleShimBelowMm", [felt("half", "rich")], [])).toBeUndefined();
    expect(asks("needleShimBelowMm", [felt("eighth", "rich")], [])).toBe("measure");
    expect(asks("mixtureScrewTurns", [felt("half", "rich")], [])).toBe("measure");
    expect(asks("mixtureScrewTurns", [felt("closed", "rich")], [])).toBeUndefined();
    const rich = 0.88 * Math.exp(-0.031);
    expect(asks("mainJet", [], [bin(1, rich)])).toBeUndefined();
    expect(asks("mainJet", [], [bin(1, 0.88 * Math.exp(-0.029))])).toBe("measure");
    expect(asks("mainJet", [felt("full", "rich")], [bin(0.75, 0.8)])).toBe("measure");
    expect(asks("mainJet", [], [bin(1, rich, { rpm: 3000 })])).toBe("measure");
    expect(asks("mainJet", [], [bin(0.5, 0.97), bin(1, rich)])).toBeUndefined();
    expect(withMeasured([correction("mainJet")], [], [], 6500)[0]).not.toHaveProperty("needsMeasurement");
  });
});

describe("a steady reading", () => {
  const held = (throttle: number, seconds = 2, rpm: number | null = 5000) => ({ throttle, seconds, rpm });
  it("of a region is held for two seconds inside its openings", () => {
    expect([0, 0.08, 0.09].map((u) => decides("pilot", held(u, 2, null), 6000))).toEqual([true, true, false]);
    expect([0.09, 0.1, 0.35, 0.36].map((u) => decides("straight", held(u), 6000))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect([0.34, 0.35, 0.65, 0.66].map((u) => decides("taper", held(u), 6000))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect([1.9, 2].map((s) => decides("taper", held(0.5, s), 6000))).toEqual([false, true]);
  });

  it("at full load is at nine tenths of throttle and 60 to 115 % of rated speed, which the log must have", () => {
    expect([0.89, 0.9, 1].map((u) => decides("main", held(u), 6000))).toEqual([false, true, true]);
    expect([3599, 3600, 6899, 6901].map((n) => decides("main", held(1, 2, n), 6000))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect(decides("main", held(1, 2, null), 6000)).toBe(false);
    // 115 % of 4000 is 4600 to the last digit.
    expect(decides("main", held(1, 2, 4600), 4000)).toBe(true);
  });

  it("holds while every setting that acts there is as it was", () => {
    const now = { mainJet: 140, clipPosition: 3, pilotJet: 45, mixtureScrewTurns: 2 };
    expect(stillHolds("main", now, { ...now, pilotJet: 47.5, mixtureScrewTurns: 1 })).toBe(true);
    expect(stillHolds("taper", now, { ...now, pilotJet: 47.5 })).toBe(true);
    expect(stillHolds("straight", now, { ...now, pilotJet: 47.5 })).toBe(false);
    expect(stillHolds("pilot", now, { ...now, mixtureScrewTurns: 1 })).toBe(false);
    for (const key of [
      "mainJet",
      "clipPosition",
      "needleSeatMm",
      "slideCutawayMm",
      "floatHeightMm",
      "springLengthMm",
      "springCoils",
      "airboxOpeningMm",
      "snorkelFitted",
      "headerWeldMm",
    ] as const)
      for (const region of ["main", "pilot"] as const)
        expect(stillHolds(region, now, { ...now, [key]: 9 }), key).toBe(false);
    expect(stillHolds("main", now, { ...now, idleSpeedRpm: 1500, liftHoleMm: 3 })).toBe(true);
  });
});

describe("wear", () => {
  it("is worn at its limit and beyond, from whichever side it comes, and unknown until measured", () => {
    const state = (measured: number | null, grows: boolean) => wear("bore", "mm", 10, measured, grows).state;
    expect([9.9, 10, 10.1].map((m) => state(m, true))).toEqual(["within", "worn", "worn"]);
    expect([10.1, 10, 9.9].map((m) => state(m, false))).toEqual(["within", "worn", "worn"]);
    expect(state(null, true)).toBe("unknown");
    expect(wear("bore", "mm", 10, 9, true)).toEqual({
      what: "bore",
      unit: "mm",
      limit: 10,
      measured: 9,
      state: "within",
    });
  });
});

describe("work that the fuel model cannot see", () => {
  const part = (kind: string, name = "Part") => ({ kind, name });
  it("is a needle without a shape and a filter of unknown flow, each said once; jets are seen", () => {
    expect(unseenWork([part("needle", "N1"), part("needle", "N1"), part("filter", "F")], {}, {})).toEqual([
      "N1 was fitted: its shape is on no sheet.",
      "F was fitted: how freely it passes air was not described.",
    ]);
    expect(unseenWork([part("needle", "N1"), part("needle", "N2")], {}, {})).toHaveLength(2);
    expect(unseenWork([part("jet"), part("gasket")], {}, {})).toEqual([]);
  });

  // The fuel model computes with a filter only between two known flows (flowFigures.ts), and a model card knows none.
  it("is a filter of known flow as well, for other bikes of the model", () => {
    const flows = { filter: { flowLMin: 1500, atPa: 1500 } };
    const said = ["F was fitted: its flow counts only against another known one."];
    expect(unseenWork([part("filter", "F")], {}, {}, { flows })).toEqual(said);
    const silencer = { silencer: { flowLMin: 2500, atPa: 3000 } };
    expect(unseenWork([part("filter", "F")], {}, {}, { flows: silencer })).not.toEqual(said);
    expect(unseenWork([], {}, {}, { flows })).toEqual([]);
  });

  it("is a spring where the sheet still says the delivered one", () => {
    const delivered = { springLengthMm: 112, springCoils: 20 };
    const said = (fitted: { springLengthMm?: number; springCoils?: number }) =>
      unseenWork([part("spring", "S")], fitted, delivered).length;
    expect([said({}), said(delivered), said({ springLengthMm: 112 })]).toEqual([1, 1, 1]);
    expect([said({ ...delivered, springCoils: 18 }), said({ ...delivered, springLengthMm: 100 })]).toEqual([
      0, 0,
    ]);
  });

  it("is an exchanged spring whose rate nobody measured, and none that is described with its rate", () => {
    const delivered = { springLengthMm: 112, springCoils: 20 };
    const said = (exchanged: boolean, rateNPerM: number | null, fitted = [part("spring", "S")]) =>
      unseenWork(fitted, delivered, delivered, {
        spring: { freeMm: 112, coils: 20, rateNPerM, exchanged },
      });
    expect(said(true, 80)).toEqual([]);
    const guessed = "The slide spring was exchanged: its rate was not measured.";
    expect(said(true, null)).toEqual([guessed]);
    expect(said(true, null, [])).toEqual([guessed]);
    // The delivered one was described, and another was fitted since.
    expect(said(false, 110)).toEqual(["S was fitted: the sheet says the delivered spring."]);
    expect(said(false, null, [])).toEqual([]);
  });
});

describe("the build of a bike", () => {
  const needle = {
    straightMm: 2.5,
    straightLiftMm: 6,
    clipAt: 3,
    clipStepMm: 1,
    clips: 5,
    tapers: [{ lengthMm: 40, includedAngleDeg: 2 }],
  };
  const card = { needle: { value: needle, how: "read" as const } };
  it("is delivered while airbox, snorkel, header, spring and needle are the maker's; jets and clip do not count", () => {
    const delivered = { headerWeldMm: 3, springLengthMm: 112, springCoils: 20 };
    const build = (settings: Parameters<typeof buildOf>[0]["settings"], shape?: typeof needle) =>
      buildOf({ settings, needle: shape }, delivered, card);
    expect(build({ ...delivered, mainJet: 150, clipPosition: 5, mixtureScrewTurns: 3 })).toBe("delivered");
    expect(build({})).toBe("delivered");
    expect(build({ airboxOpeningMm: 0, snorkelFitted: 1 })).toBe("delivered");
    for (const changed of [
      { airboxOpeningMm: 40 },
      { snorkelFitted: 0 },
      { headerWeldMm: 1 },
      { springLengthMm: 100 },
      { springCoils: 18 },
    ])
      expect(build(changed), JSON.stringify(changed)).toBe("modified");
    expect(build({}, needle)).toBe("delivered");
    expect(build({}, { ...needle, straightMm: 2.45 })).toBe("modified");
    expect(build({}, { ...needle, straightMm: 2.48 }), "worn, read again").toBe("delivered");
    const other = { ...needle, straightMm: 2.45 };
    expect(buildOf({ settings: {}, needle: other }, delivered, {})).toBe("delivered");
    expect(buildOf({ settings: { springLengthMm: 100 } }, undefined, {})).toBe("delivered");
    expect(buildOf({ settings: { airboxOpeningMm: 10 } }, undefined, {})).toBe("modified");
    // A spring of the delivered length that was exchanged is another spring.
    const spring = (exchanged: boolean) => ({ freeMm: 112, coils: 20, rateNPerM: 80, exchanged });
    expect(buildOf({ settings: delivered, spring: spring(true) }, delivered, card)).toBe("modified");
    expect(buildOf({ settings: delivered, spring: spring(false) }, delivered, card)).toBe("delivered");
  });
});
