import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { breathingBench } from "@/lib/domain/bench/breathingBench";
import { readDyno } from "@/lib/domain/bench/dynoReading";
import type { DynoRow } from "@/lib/domain/bench/dynoTypes";
import { mapColumns, numbersOf } from "@/lib/domain/bench/logColumns";
import { answerLog } from "@/lib/domain/bench/logReading";
import { compareNeedles, needlesAt } from "@/lib/domain/bench/needlePair";
import { needleThrough, stationsOf } from "@/lib/domain/bench/needleStations";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { seasonRange } from "@/lib/domain/bench/seasonRange";
import { slideBench } from "@/lib/domain/bench/slideBench";
import type { SlideBenchInput } from "@/lib/domain/bench/slideBenchTypes";
import { settingForTrip } from "@/lib/domain/bench/trip";
import type { TripInput } from "@/lib/domain/bench/tripTypes";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import { readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { PRIOR_SIGMA, targetLambda } from "@/lib/domain/tuning/regions";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { benchSchema, fieldText } from "@/lib/schemas/bench";
import { AIR_FIELDS } from "@/lib/schemas/benchFields";
import { dynoRows, lambdaColumns } from "@/lib/schemas/benchLogRead";
import { DynoSchema, LambdaSchema } from "@/lib/schemas/benchLogs";
import { NEEDLE_FIELDS } from "@/lib/schemas/benchPartFields";
import { AS_FOUND, DROVER, mainJets } from "./tuning-demo";

const here = placeAir({ altitudeM: 410, temperatureC: 20, humidity: null });
const trip = (change: Partial<TripInput["there"]> = {}, more: Partial<TripInput> = {}): TripInput => ({
  card: DROVER,
  carburettors: [{ name: "carburettor", settings: AS_FOUND }],
  here,
  there: { lowM: 410, highM: 410, coldC: 20, warmC: 20, humidity: null, ...change },
  jets: mainJets([125, 127.5, 130, 132.5, 135, 137.5, 140, 142.5, 145, 147.5, 150]),
  ...more,
});

describe("the air of a planned place", () => {
  it("has the standard pressure of its altitude (US Standard Atmosphere 1976: 1000 m, 89 876 Pa) and says nobody measured it", () => {
    const air = placeAir({ altitudeM: 1000, temperatureC: 15, humidity: 0 });
    expect(air.pressurePa / 89_876).toBeCloseTo(1, 4);
    expect(air.assumed).toBe(true);
    expect(air.firmness).toBe("starting point");
    expect(() => placeAir({ altitudeM: 9000, temperatureC: 15, humidity: 0 })).toThrow(OutOfRange);
  });
});

describe("a jet for a trip", () => {
  it("stays what it is where nothing changes", () => {
    const answer = settingForTrip(trip());
    expect(answer.corners).toHaveLength(1);
    expect(answer.corners[0]?.exact).toBeCloseTo(140, 1);
    expect(answer.corners[0]?.areaRatio).toBeCloseTo(1, 3);
    expect(answer.chosen.size).toBe(140);
    expect(answer.carry).toBeNull();
  });
  it("keeps the fitted jet that is on target, however unsure the air of the place is", () => {
    const answer = settingForTrip(trip({ humidity: null }));
    expect(answer.chosen.size).toBe(140);
    expect(answer.held).toBeNull();
  });
  it("agrees with the target sheet's own exact size at every corner", () => {
    const answer = settingForTrip(trip({ highM: 1800, coldC: 2, warmC: 30 }));
    expect(answer.corners).toHaveLength(4);
    for (const corner of answer.corners) {
      const sheet = targetSettings({
        card: DROVER,
        carburettors: [{ name: "carburettor", settings: AS_FOUND }],
        changes: [{ setting: "mainJet", change: "computed" }],
        now: corner.air,
        baseline: here,
        jets: mainJets([140]),
      });
      expect(corner.exact).toBeCloseTo(sheet.carburettors[0]?.mainJet?.exact ?? 0, 2);
    }
  });
  it("takes the size whose worst corner is least bad, and names that corner", () => {
    const answer = settingForTrip(trip({ highM: 1400, coldC: 5, warmC: 30 }));
    const best = Math.min(...answer.sizes.map((s) => s.loss));
    expect(answer.chosen.loss).toBeLessThanOrEqual(best + 0.01);
    expect(answer.corners.map((c) => c.name)).toContain(answer.chosen.worst);
    expect(answer.runnerUp?.size).not.toBe(answer.chosen.size);
    expect(answer.carry?.corner).toBe(answer.chosen.worst);
    const leaner = answer.sizes.find((s) => s.size === 127.5);
    expect(leaner?.worst).toBe("410 m, 5 °C");
    expect(leaner?.leanRisk).toBeGreaterThan(0.9);
  });
  it("wants a smaller main jet the higher it goes, never a larger one", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2500 }), fc.integer({ min: 50, max: 1500 }), (low, more) => {
        const exact = (m: number) => settingForTrip(trip({ lowM: m, highM: m })).corners[0]?.exact ?? 0;
        expect(exact(low + more)).toBeLessThan(exact(low));
      }),
      { numRuns: 15 },
    );
  });
  it("goes no leaner than its richest corner's air density alone asks until full load was measured", () => {
    const high = { lowM: 3500, highM: 3500 };
    const held = settingForTrip(trip(high));
    expect(held.chosen.size).toBe(Math.max(...held.corners.map((c) => c.byDensity.size)));
    expect(held.held?.wanted).toBeLessThan(held.chosen.size);
    const measured = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
      region,
      value: 0,
      sigma: 0.02,
      samples: 3,
      measured: true,
    }));
    const free = settingForTrip(trip(high, { calibration: measured }));
    expect(free.held).toBeNull();
    expect(free.chosen.size).toBe(held.held?.wanted);
  });
  it("starts the screw where the richest corner wants it", () => {
    const answer = settingForTrip(trip({ highM: 1800, coldC: -5, warmC: 30 }));
    expect(answer.screw?.value).toBe(Math.max(...answer.corners.map((c) => c.screw?.value ?? 0)));
  });
  it("takes usual half sizes where the drawer is not known, and refuses an unknown main jet or a range upside down", () => {
    expect(settingForTrip(trip({}, { jets: [] })).sizes.every((s) => s.size % 2.5 === 0)).toBe(true);
    expect(() => settingForTrip(trip({}, { carburettors: [{ name: "c", settings: {} }] }))).toThrow(Refusal);
    expect(() => settingForTrip(trip({ lowM: 900, highM: 500 }))).toThrow(OutOfRange);
  });
});

describe("the temperatures of a season", () => {
  it("turn over south of the equator, and the year spans all of them", () => {
    const [north, south] = [
      seasonRange("summer", { latitude: 40 }, 400, 1400),
      seasonRange("winter", { latitude: -40 }, 400, 1400),
    ];
    expect(seasonRange("winter", { latitude: -40 }, 400, 1400)).toEqual(
      seasonRange("winter", { latitude: 40 }, 400, 1400),
    );
    expect(north.warmC).toBeGreaterThan(south.warmC);
    const year = seasonRange("year", { latitude: -40 }, 400, 1400);
    for (const season of ["summer", "autumn", "winter", "spring"] as const) {
      const part = seasonRange(season, { latitude: -40 }, 400, 1400);
      expect(part.coldC).toBeGreaterThanOrEqual(year.coldC);
      expect(part.warmC).toBeLessThanOrEqual(year.warmC);
      expect(part.coldC).toBeLessThan(part.warmC);
    }
  });
});

describe("two needles in one jet", () => {
  const shape = {
    straightMm: 2.5,
    straightLiftMm: 6,
    clipAt: 0,
    clipStepMm: 1,
    clips: 1,
    tapers: [{ lengthMm: 40, includedAngleDeg: 1.79 }],
  };
  const pair = {
    a: { shape, raisedGrooves: 0 },
    b: { shape, raisedGrooves: 0 },
    grooveStepMm: 1,
    needleJetMm: 2.6,
    mainJet: 140,
    convention: "bore" as const,
    fullLiftMm: 38,
  };
  it("leave 0.4006 mm² of a 2.60 mm jet at 2.50 mm (identity)", () => {
    expect(compareNeedles(pair)[0]?.a.ringMm2).toBeCloseTo(0.4006, 4);
  });
  it("are alike at every lift when they are the same", () => {
    for (const point of compareNeedles(pair)) expect(point.ratio).toBe(1);
  });
  it("give more fuel when one is raised, and raising is the same as more lift", () => {
    const up = { ...pair, b: { shape, raisedGrooves: 2 } };
    expect(needlesAt(up, 10).b).toBeCloseTo(needlesAt(pair, 12).a, 9);
    expect(compareNeedles(up).every((p) => p.ratio >= 1)).toBe(true);
  });
  it("measured at stations pass through each of them", () => {
    const stations = stationsOf("0 2,50; 6 2.50; 30 1.75; 40 1.60", "a_stations");
    const through = needleThrough(stations);
    const jet = { ...pair, a: { shape: through, raisedGrooves: 0 }, fullLiftMm: 40 };
    for (const s of stations) expect(needlesAt(jet, s.liftMm).a).toBeCloseTo(s.diameterMm, 9);
    expect(needlesAt(jet, 18).a).toBeCloseTo(2.125, 9);
  });
  it.each(["0 2.50", "0 2.5; x 2.4", "6 2.5; 3 2.4", "0 2.4; 6 2.5", "0 25; 6 2.4"])(
    "measured as %j are refused beside their field",
    (text) => {
      try {
        stationsOf(text, "b_stations");
        expect.unreachable();
      } catch (cause) {
        expect(cause).toBeInstanceOf(Refusal);
        expect(Object.keys((cause as Refusal).fields)).toEqual(["b_stations"]);
      }
    },
  );
});

describe("a slide's spring and lift holes", () => {
  const input: SlideBenchInput = {
    rateNPerM: 110,
    wireMm: null,
    coilMm: null,
    shearGPa: null,
    coils: 112,
    coilsAfter: 100,
    freeMm: 112,
    installedMm: 80,
    boreMm: 38,
    diaphragmMm: 65,
    massG: 42,
    holes: { count: 1, holeMm: 2.5 },
    holesAfter: { count: 2, holeMm: 3 },
    depressionPa: 3000,
    densityKgM3: 1.15,
  };
  it("follow the trade's numbers: 112 to 100 is x 1.12 in rate, one 2.5 mm hole to two of 3.0 mm is x 0.347 in rise time (common practice)", () => {
    const bench = slideBench(input);
    expect(bench.rate.value).toBeCloseTo(1.12, 6);
    expect(bench.holesRatio.value).toBeCloseTo(0.347, 3);
    expect(bench.flutter).toBe(false);
  });
  it("are solved to exactly the holes' ratio when the spring stays (identity)", () => {
    const bench = slideBench({ ...input, coilsAfter: null });
    expect(bench.solved?.ratio).toBeCloseTo(bench.holesRatio.value, 9);
    expect(bench.forceChangeN).toBe(0);
  });
  it("lose exactly k0 Li (N0/N1 - 1) of force at the fitted length when the spring is cut (identity)", () => {
    expect(slideBench(input).forceChangeN).toBeCloseTo(-110 * 0.08 * 0.12, 9);
  });
  it("have the rate of Shigley's spring from wire and coil: .037 in on .400 in, 10.5 coils, 11.85 Mpsi, 723.5 N/m (from memory)", () => {
    const { before } = slideBench({
      ...input,
      rateNPerM: null,
      wireMm: 0.037 * 25.4,
      coilMm: 0.4 * 25.4,
      shearGPa: 11.85e6 * 6894.757e-9,
      coils: 10.5,
      coilsAfter: null,
      depressionPa: 20_000,
    });
    expect(before.rateNPerM).toBeCloseTo(723.5, 0);
  });
  it("are warned about when they are quicker than usually stays calm, and refused without a rate or with added coils", () => {
    expect(slideBench({ ...input, holesAfter: { count: 3, holeMm: 3 } }).flutter).toBe(true);
    expect(() => slideBench({ ...input, rateNPerM: null })).toThrow(Refusal);
    expect(() => slideBench({ ...input, coilsAfter: 120 })).toThrow(Refusal);
    const nested = slideBench({ ...input, innerRateNPerM: 50, innerFreeMm: 90 });
    expect(nested.before.shutN - slideBench(input).before.shutN).toBeCloseTo(50 * 0.01, 9);
    expect(() => slideBench({ ...input, innerRateNPerM: 50 })).toThrow(/only one measure/);
    expect(() => slideBench({ ...input, freeMm: 70 })).toThrow(/shorter than its place/);
  });
});

describe("airbox and header flow", () => {
  const input = {
    card: DROVER,
    displacementCc: 650,
    carburettors: 1,
    ratedRpm: 6500,
    mainJet: 140,
    snorkelMm: 39,
    snorkelHoleMm: 48,
    before: { snorkelIn: true, openingMm: 0, weldMm: 3 },
    after: { snorkelIn: true, openingMm: 51, weldMm: 3 },
    filterLossPa: null,
    headerMm: 38,
    air: here,
  };
  it("asks about + 5 % main for a 51 mm opening with the bowl vented to the open air (common practice)", () => {
    const [answer] = breathingBench(input).vents;
    expect(answer?.vented).toBe("atmosphere");
    expect((answer?.main?.exact ?? 0) / 140 - 1).toBeGreaterThan(0.02);
    expect((answer?.main?.exact ?? 0) / 140 - 1).toBeLessThan(0.08);
  });
  it("shows both vent cases when nobody knows, and the airbox case changes less", () => {
    const bench = breathingBench({ ...input, card: { ...DROVER, ventedTo: undefined } });
    const [air, box] = bench.vents;
    expect([air?.vented, box?.vented]).toEqual(["atmosphere", "airbox"]);
    expect(Math.abs(box?.areaChange ?? 9)).toBeLessThan(Math.abs(air?.areaChange ?? 0));
  });
  it("adds a filter's own loss to the box's depression at the same flow (identity)", () => {
    const [plain, filtered] = [breathingBench(input), breathingBench({ ...input, filterLossPa: 300 })];
    expect(filtered.before.boxPa - plain.before.boxPa).toBeCloseTo(300, 6);
  });
  it("loses less at a lower weld and says when too little would stay", () => {
    const bench = breathingBench({ ...input, after: { ...input.after, weldMm: 0.5 } });
    expect(bench.after.weldK).toBeLessThan(bench.before.weldK);
    expect(bench.thinWeld).toBe(true);
    expect(breathingBench({ ...input, after: { ...input.after, weldMm: 1 } }).thinWeld).toBe(false);
  });
});

const row = (run: string, rpm: number, torqueNm: number, more: Partial<DynoRow> = {}): DynoRow => ({
  run,
  rpm,
  torqueNm,
  powerW: null,
  lambda: null,
  temperatureK: 298,
  pressurePa: 99_000,
  humidity: 0,
  ...more,
});
const pull = (run: string, torque: number, more: Partial<DynoRow> = {}) =>
  [3000, 4000, 5000, 6000].map((rpm) => row(run, rpm, torque, more));
const TERMS = { standard: "none" as const, after: ["after"], lowRpm: null, highRpm: null };

describe("dyno runs", () => {
  it("give the mean gain with the noise of the repeats", () => {
    const reading = readDyno([...pull("b1", 50), ...pull("b2", 50.5), ...pull("c", 53), ...pull("d", 53.5)], {
      ...TERMS,
      after: ["c", "D"],
    });
    expect(reading.comparison.meanGain).toBeCloseTo(53.25 / 50.25 - 1, 9);
    expect(reading.comparison.test?.noise).toBeGreaterThan(0);
    expect(reading.runs.map((r) => r.side)).toEqual(["before", "before", "after", "after"]);
  });
  it("correct each run in its own air: 99 kPa dry and 298 K is 1, pd 95 and 308 K is 1.07175 by EU 134/2014 (identity)", () => {
    const reading = readDyno(
      [...pull("before", 50), ...pull("after", 50, { temperatureK: 308, pressurePa: 95_000 })],
      { ...TERMS, standard: "EU 134/2014" },
    );
    expect(reading.runs[0]?.factor).toBeCloseTo(1, 9);
    expect(reading.runs[1]?.factor).toBeCloseTo(1.07175, 5);
    expect(reading.comparison.meanGain).toBeCloseTo(0.07175, 4);
    expect(reading.standard).toBe("EU 134/2014");
  });
  it("are refused where a side has no run, a name is not in the file, or the correction lacks the air", () => {
    expect(() => readDyno(pull("x", 50), { ...TERMS, after: [] })).toThrow(/No run counts as made after/);
    expect(() => readDyno(pull("x", 50), { ...TERMS, after: ["y"] })).toThrow(/no run "y"/);
    expect(() =>
      readDyno([...pull("before", 50, { pressurePa: null }), ...pull("after", 51)], {
        ...TERMS,
        standard: "SAE J1349",
      }),
    ).toThrow(/pressure/);
  });
});

describe("a log's columns", () => {
  it("are found by their headings, each column once, and by what is said before that", () => {
    const columns = [
      { key: "rpm", name: "Engine speed", words: ["rpm", "speed"] },
      { key: "speed", name: "Road speed", words: ["speed"] },
    ];
    expect(mapColumns(columns, ["Speed", "RPM (1/min)"], {})).toEqual({ rpm: 0, speed: null });
    expect(mapColumns(columns, ["Speed", "RPM (1/min)"], { rpm: "1" })).toEqual({ rpm: 1, speed: 0 });
    expect(mapColumns(columns, ["Speed"], { speed: "none" })).toEqual({ rpm: 0, speed: null });
    expect(() => mapColumns(columns, ["Speed"], { rpm: "4" })).toThrow(Refusal);
  });
  it("name the row that holds a word instead of a number", () => {
    const rows = [
      { line: 2, cells: ["3000"] },
      { line: 3, cells: ["fast"] },
    ];
    expect(() => numbersOf(rows, 0, "rpm", ".", "rpm")).toThrow(/Row 3: "fast" in "rpm" is no number/);
    expect(numbersOf(rows, 0, "rpm", ".", "rpm", true)).toEqual([3000, Number.NaN]);
  });
  it("come from a CSV in the units asked: hp and °F and inHg to SI", () => {
    const input = DynoSchema.parse({
      csv: "rpm;hp;temp;baro;rh;run\n3000;20;77;29,5;40;before\n",
      mark: ",",
      powerUnit: "hp",
      temperatureUnit: "degF",
      pressureUnit: "inHg",
    });
    const [first] = dynoRows(input).rows;
    expect(first?.powerW).toBeCloseTo(20 * 745.699872, 3);
    expect(first?.temperatureK).toBeCloseTo(298.15, 6);
    expect(first?.pressurePa).toBeCloseTo(29.5 * 3386.389, 0);
    expect(first?.humidity).toBeCloseTo(0.4, 9);
  });
  it("name an empty file, a missing column, typed air out of range and a text in the rpm column", () => {
    expect(DynoSchema.safeParse({ csv: "  " }).error?.issues[0]?.message).toContain("empty");
    const read =
      (csv: string, more = {}) =>
      () =>
        dynoRows(DynoSchema.parse({ csv, ...more }));
    expect(read("a,b\n1,2\n")).toThrow(/No column is chosen for engine speed/);
    expect(read("rpm,nm\n1,2\n", { temperature: "95" })).toThrow(/temperature is 95 °C/);
    expect(read("rpm,nm\n3000,40\nx,41\n")).toThrow(/Row 3/);
  });
  it("of a lambda log turn per cent and air/fuel ratio into shares and lambda (E10: 14.01), and count time where there is none", () => {
    const input = LambdaSchema.parse({
      csv: "tps,afr\n50,14.01\n100,12.609\n",
      mixtureUnit: "afr",
      perSecond: "10",
    });
    const { log } = lambdaColumns(input);
    expect(log.throttle).toEqual([0.5, 1]);
    expect(log.lambda[1]).toBeCloseTo(0.9, 6);
    expect(log.timeS).toEqual([0, 0.1]);
    expect(() => lambdaColumns(LambdaSchema.parse({ csv: "tps,afr\n50,14\n" }))).toThrow(/no time/);
  });
});

describe("a lambda log", () => {
  const held = (throttle: number, lambda: number, from: number) =>
    Array.from({ length: 40 }, (_, i) => ({ t: from + i / 10, throttle, lambda }));
  const samples = [...held(0.98, targetLambda(0.98) * 1.06, 0)];
  const reading = readLambdaLog({
    timeS: samples.map((s) => s.t),
    throttle: samples.map((s) => s.throttle),
    lambda: samples.map((s) => s.lambda),
  });
  it("is told against the target, and without a bike fits nothing", () => {
    const answer = answerLog(reading, null, null);
    expect(answer.bins[0]?.richness).toBeCloseTo(1 / 1.06 - 1, 6);
    expect(answer.regions).toBeNull();
  });
  it("of a bike moves the region it sampled and leaves the others at their prior, said so", () => {
    const settings = Object.fromEntries(Object.entries(AS_FOUND).map(([key, known]) => [key, known.value]));
    const answer = answerLog(reading, { card: DROVER, carburettors: 1, settings, baseline: here }, null);
    const main = answer.regions?.find((r) => r.region === "main");
    const pilot = answer.regions?.find((r) => r.region === "pilot");
    expect(main?.atPrior).toBe(false);
    expect(main?.value).toBeLessThan(-0.03);
    expect(pilot).toMatchObject({ atPrior: true, samples: 0, prior: PRIOR_SIGMA.pilot });
    expect(answer.bins[0]?.region).toBe("main");
  });
});

describe("a bench page's address", () => {
  it("keeps the unit a person thinks in and comes out in the field's own", () => {
    const read = benchSchema(AIR_FIELDS, "us").parse({ altitude: "1345", qnh: "29,92", temperature: "68" });
    expect(read.altitude).toBeCloseTo(409.96, 1);
    expect(read.qnh).toBeCloseTo(1013.2, 1);
    expect(read.temperature).toBeCloseTo(20, 6);
    expect(read.from).toBe("read");
    expect(read.dewPoint).toBeNull();
    expect(benchSchema(AIR_FIELDS, "us").parse({ altitude: "410", altitudeUnit: "m" }).altitude).toBe(410);
    expect(fieldText(AIR_FIELDS.altitude, 410, "us")).toBe("1345.14");
  });
  it("names each field that is wrong, with the range in the unit typed", () => {
    const wrong = benchSchema(AIR_FIELDS, "metric").safeParse({
      altitude: "",
      qnh: "2990",
      temperature: "200",
      temperatureUnit: "degF",
    });
    const said = Object.fromEntries(wrong.error?.issues.map((i) => [i.path.join("."), i.message]) ?? []);
    expect(said.altitude).toContain("blank");
    expect(said.qnh).toContain("850 to 1100 hPa");
    expect(said.temperature).toContain("°F");
  });
  it("reads back every example it writes", () => {
    fc.assert(
      fc.property(fc.double({ min: 1.1, max: 5.9, noNaN: true }), (mm) => {
        const text = fieldText(NEEDLE_FIELDS.needleJet, mm, "metric");
        const all = { needleJet: text, mainJet: "140", full: "38", at: "12", grooveStep: "1" };
        expect(benchSchema(NEEDLE_FIELDS, "metric").parse(all).needleJet).toBeCloseTo(mm, 4);
      }),
    );
  });
});
