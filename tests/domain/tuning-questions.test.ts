import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { expectedLoss } from "@/lib/domain/tuning/choose";
import { jetLimits } from "@/lib/domain/tuning/jetLimits";
import { type JetTask, jetQuestion, jetReach } from "@/lib/domain/tuning/jetQuestion";
import { chooseWithinStep, equivalentSize } from "@/lib/domain/tuning/jetStep";
import { bestCutaway, rankNeedles } from "@/lib/domain/tuning/mechanical";
import { REGIONS } from "@/lib/domain/tuning/regions";
import { bestClip, errorOver, stationsFor } from "@/lib/domain/tuning/solve";
import { logRichness, resolve } from "@/lib/domain/tuning/station";
import type { FuelState, RegionCorrection, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, mainJets, PLAIN_AIR } from "./tuning-demo";

const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
const known = <T>(value: T) => ({ value, how: "read" as const });
const base: FuelState = { card: DROVER, carburettors: 1, settings, reference: { settings, air: PLAIN_AIR } };
const learned = (value: number, measured = false): readonly RegionCorrection[] =>
  REGIONS.map((region) => ({ region, value, sigma: 0.02, samples: 1, measured }));
const thin = airFromReading({ stationPa: 85_000, temperatureC: 20, humidity: 0.4 });

function task(more: Partial<JetTask> = {}, change: Partial<FuelState> = {}, air = PLAIN_AIR): JetTask {
  const state = { ...base, ...change };
  const r = resolve(state, air);
  return {
    r,
    stations: stationsFor(r),
    key: "mainJet",
    values: { ...settings, ...state.settings },
    needle: r.now.needle,
    fitted: 140,
    jets: mainJets(Array.from({ length: 25 }, (_, i) => 110 + 2.5 * i)),
    needed: 1,
    ...more,
  };
}
const facts = (t: JetTask) => jetQuestion(t).because.map((r) => [r.fact, r.effect]);

describe("what is asked of a jet", () => {
  it("is nothing where nothing changed: the same jet, as sure as the air and 1.2 % (judgement)", () => {
    const q = jetQuestion(task());
    expect(q.exact).toBeCloseTo(140, 4);
    expect(q.error(140)).toBeCloseTo(0, 12);
    expect(q.sigma).toBeCloseTo(Math.hypot(0.012, 0.5 * Math.SQRT2 * PLAIN_AIR.sigma), 9);
    expect(facts(task())).toEqual([
      ["The fitted jet stays on target at three quarters of throttle and more", "the same jet"],
    ]);
    expect(q).toMatchObject({ setting: "mainJet", convention: "bore", fitted: 140, needed: 1 });
  });

  it("is a smaller jet in thin air and a larger one with a freer airbox, in per cent of the fitted one", () => {
    const rich = jetQuestion(task({}, {}, thin));
    expect(rich.exact).toBeLessThan(140);
    const percent = (100 * Math.expm1(rich.error(140))).toFixed(1);
    expect(rich.because[0]).toMatchObject({
      fact: `The fitted jet would run ${percent} % rich at three quarters of throttle and more`,
      effect: "smaller jet",
      firmness: "starting point",
    });
    const open = { ...settings, airboxOpeningMm: 47 };
    const lean = jetQuestion(task({}, { settings: open }));
    expect(lean.exact).toBeGreaterThan(140);
    expect(lean.because[0]?.fact).toMatch(/^The fitted jet would run \d\.\d % lean/);
    expect(lean.because[0]?.effect).toBe("larger jet");
    // Three tenths of the change join what is unsure.
    expect(lean.sigma).toBeCloseTo(
      Math.hypot(0.012, 0.3 * lean.error(140), 0.5 * Math.SQRT2 * PLAIN_AIR.sigma),
      9,
    );
  });

  it("of a pilot jet is asked at a closed throttle", () => {
    const [said] = jetQuestion(task({ key: "pilotJet", fitted: 45 })).because;
    expect(said?.fact).toBe("The fitted jet stays on target at closed throttle");
    expect(jetQuestion(task({ key: "pilotJet", fitted: 45 })).exact).toBeCloseTo(45, 3);
  });

  it("is no less sure for what was learned, which moves the answer alone", () => {
    const taught = jetQuestion(task({}, { calibration: learned(-0.05) }));
    expect(taught.error(140)).toBeCloseTo(-0.05, 9);
    expect(taught.exact).toBeGreaterThan(142);
    expect(taught.sigma).toBeCloseTo(jetQuestion(task()).sigma, 9);
  });

  it("names a change of fuel and of its warmth, entered or as warm as the air", () => {
    const said = (change: Partial<FuelState>, air = PLAIN_AIR) =>
      jetQuestion(task({}, change, air)).because.slice(1);
    expect(said({ fuel: "E0" })).toEqual([
      {
        fact: "E10 before, E0 now",
        from: "stoichiometric ratio and density of the fuels",
        effect: "air/fuel 14.01 to 14.6",
        firmness: "firm",
      },
    ]);
    expect(said({ fuelTemperatureK: 294.15 })).toEqual([]);
    expect(said({ fuelTemperatureK: 303.15 })[0]).toMatchObject({
      fact: "Fuel at 30 C, before at 20 C",
      from: "entered",
    });
    const hot = airFromReading({ stationPa: 101_325, temperatureC: 35, humidity: 0.4 });
    expect(said({}, hot)[0]).toMatchObject({
      fact: "Fuel at 35 C, before at 20 C",
      from: "assumed as warm as the air",
      firmness: "starting point",
    });
  });

  it("is the mean of both cases where the vents are not known, and less sure by half of their difference", () => {
    const card = { ...DROVER, ventedTo: known("unknown" as const) };
    const open = { ...settings, airboxOpeningMm: 47 };
    const both = jetQuestion(task({}, { card, settings: open }));
    const one = (ventedTo: "atmosphere" | "airbox") =>
      jetQuestion(task({}, { card: { ...DROVER, ventedTo: known(ventedTo) }, settings: open })).error(140);
    const [out, box] = [one("atmosphere"), one("airbox")];
    expect(both.error(140)).toBeCloseTo((out + box) / 2, 9);
    expect(both.sigma).toBeCloseTo(
      Math.hypot(0.012, 0.3 * both.error(140), (out - box) / 2, 0.5 * Math.SQRT2 * PLAIN_AIR.sigma),
      9,
    );
    expect(both.because.at(-1)?.effect).toBe("mean of both cases");
  });

  it("is out of reach where even twice the area is lean, or three tenths of it rich", () => {
    expect(jetReach(task())).toBe("");
    expect(jetReach(task({}, { calibration: learned(-1) }))).toBe(
      `even ${Math.round(140 * Math.SQRT2)} is lean, the rest of its circuit holds the fuel back`,
    );
    expect(jetReach(task({}, { calibration: learned(1.2) }))).toBe(
      `even ${Math.round(140 * Math.sqrt(0.3))} is rich`,
    );
  });
});

describe("how far a jet may go unmeasured", () => {
  it("is one step either way where nothing changed, a main one step more than the sheet asks", () => {
    const main = jetLimits(task(), 140);
    expect([main.low, main.high].map((n) => Number(n.toFixed(6)))).toEqual([137.5, 142.5]);
    expect(main.described).toBeCloseTo(140, 3);
    const pilot = jetLimits(task({ key: "pilotJet", fitted: 45 }), 45);
    expect([pilot.low, pilot.high].map((n) => Number(n.toFixed(6)))).toEqual([42.5, 47.5]);
  });

  it("follows air density to the lean side and the sheet's changes to the rich side, not what was learned", () => {
    const high = airFromReading({ stationPa: 75_000, temperatureC: 20, humidity: 0.4 });
    const up = jetLimits(task({}, {}, high), 140);
    expect(up.low).toBeCloseTo(up.density.exact, 6);
    expect(up.low).toBeLessThan(137.5);
    const open = jetLimits(
      task({}, { settings: { ...settings, airboxOpeningMm: 60, snorkelFitted: 0 } }),
      140,
    );
    expect(open.high).toBeCloseTo(Math.ceil(open.described / 2.5) * 2.5 + 2.5, 6);
    expect(open.high).toBeGreaterThan(145);
    expect(jetLimits(task({}, { calibration: learned(-0.1) }), 140).described).toBeCloseTo(140, 3);
  });

  // Jets are looked for from 0.3 to 2 times the fitted one's area.
  it("ends where jets are looked for, however far a change of fuel, air and breathing goes", () => {
    const cold = airFromReading({ stationPa: 105_000, temperatureC: -20, humidity: 0.4 });
    const open = { ...settings, airboxOpeningMm: 120, snorkelFitted: 0 };
    const most = jetLimits(task({}, { settings: open, fuel: "E85" }, cold), 140);
    expect(most.described).toBeCloseTo(140 * Math.SQRT2, 6);
    const summit = airFromReading({ stationPa: 45_000, temperatureC: 30, humidity: 0 });
    const onEthanol = { settings, air: PLAIN_AIR, fuel: "E85" as const };
    const least = jetLimits(task({}, { fuel: "E0", reference: onEthanol }, summit), 140);
    expect(least.described).toBeCloseTo(140 * Math.sqrt(0.3), 6);
  });

  it("has no limit once the region was measured, the main's by the main and the pilot's by the pilot", () => {
    const only = (region: "main" | "pilot") =>
      learned(0).map((c) => ({ ...c, measured: c.region === region }));
    const at = (key: "mainJet" | "pilotJet", region: "main" | "pilot") =>
      jetLimits(
        task({ key, fitted: key === "mainJet" ? 140 : 45 }, { calibration: only(region) }),
        key === "mainJet" ? 140 : 45,
      );
    expect(at("mainJet", "main")).toMatchObject({ low: 0, high: Number.POSITIVE_INFINITY });
    expect(at("pilotJet", "pilot")).toMatchObject({ low: 0, high: Number.POSITIVE_INFINITY });
    expect(at("mainJet", "pilot").high).toBeLessThan(200);
    expect(at("pilotJet", "main").high).toBeLessThan(200);
  });

  it("is where the choice stops, with what is held back; an unknown jet has nothing to be held from", () => {
    const held = chooseWithinStep(task({}, { calibration: learned(0.12) }), "left");
    expect(held.choice.chosen.size).toBe(137.5);
    expect(held.refusal).toMatchObject({ carburettor: "left", setting: "mainJet", allowed: 137.5 });
    expect(held.refusal?.wanted ?? 999).toBeLessThan(135);
    const free = chooseWithinStep(task({ fitted: null }, { calibration: learned(0.12) }), "left");
    expect(free.refusal).toBeNull();
    expect(free.choice.chosen.size).toBeLessThan(137.5);
    expect(free.choice.density).toBeUndefined();
    const kept = chooseWithinStep(task(), "left");
    expect(kept).toMatchObject({ refusal: null, choice: { chosen: { size: 140 }, density: { size: 140 } } });
    const richer = chooseWithinStep(task({}, { calibration: learned(-0.12) }), "left");
    expect(richer.choice.chosen.size).toBe(142.5);
    expect(richer.refusal?.message).toContain("one step richer");
  });

  it("counts a jet of the other numbering by its area", () => {
    const { r } = task();
    const choice = chooseWithinStep(
      task({
        jets: [{ setting: "mainJet", convention: "flow", size: 196, free: 1, orderable: false }],
        fitted: null,
      }),
      "",
    );
    expect(equivalentSize(r, choice.choice)).toBeCloseTo(140, 6);
    expect(equivalentSize(r, chooseWithinStep(task(), "").choice)).toBe(140);
  });
});

describe("clip, cutaway and needle by least loss", () => {
  it("keep the fitted groove on a tie, and move it where the openings want it", () => {
    const t = task();
    expect(bestClip(t.r, t.stations, settings, t.needle, 0.03).clip).toBe(3);
    const lean = task({}, { calibration: learned(-0.08) });
    const up = bestClip(lean.r, lean.stations, settings, lean.needle, 0.03);
    expect(up.clip).toBeGreaterThan(3);
    expect(up.phiError).toBeCloseTo(
      errorOver(lean.r, lean.stations.clipPosition, { ...settings, clipPosition: up.clip }, lean.needle),
      9,
    );
    const rich = task({}, { calibration: learned(0.08) });
    expect(bestClip(rich.r, rich.stations, settings, rich.needle, 0.03).clip).toBeLessThan(3);
  });

  it("add up the loss of each opening, and keep the fitted groove within two thousandths of the best", () => {
    const t = task({}, { calibration: learned(0.03) });
    const loss = (clipPosition: number, needle = t.needle) => {
      const all = t.stations.clipPosition.map((station) =>
        expectedLoss(
          logRichness(t.r, station, { settings: { ...settings, clipPosition }, needle }),
          0.03,
          1.5,
        ),
      );
      return all.reduce((sum, one) => sum + one, 0) / all.length;
    };
    const best = bestClip(t.r, t.stations, settings, t.needle, 0.03);
    expect(best.loss).toBeCloseTo(loss(best.clip), 12);
    // Grooves so near to each other that no two differ by two thousandths: none of them is worth a change.
    const fine = { ...t.needle, clipStepMm: 0.1 };
    const losses = [1, 2, 3, 4, 5].map((clip) => loss(clip, fine));
    expect(Math.max(...losses) - Math.min(...losses)).toBeGreaterThan(0.002);
    for (const clipPosition of [2, 3, 4, 5]) {
      const kept = (losses[clipPosition - 1] ?? 0) <= Math.min(...losses) + 0.002;
      const answer = bestClip(t.r, t.stations, { ...settings, clipPosition }, fine, 0.03).clip;
      expect(answer).toBe(kept ? clipPosition : losses.indexOf(Math.min(...losses)) + 1);
    }
  });

  it("answer no groove for a needle that has none, judged as it hangs", () => {
    const t = task();
    const { clipPosition: _, ...unclipped } = settings;
    const plain = { ...t.needle, clips: 0 };
    const answer = bestClip(t.r, t.stations, unclipped, plain, 0.03);
    expect(answer.clip).toBe(0);
    expect(answer.phiError).toBeCloseTo(errorOver(t.r, t.stations.clipPosition, unclipped, plain), 12);
    expect(bestClip(t.r, t.stations, settings, plain, 0.03)).toEqual(answer);
  });

  const slide = { ...DROVER, carburettorType: known("mechanical" as const) };
  const cut = { ...settings, slideCutawayMm: 2.5 };
  const mechanical = (calibration?: readonly RegionCorrection[]) =>
    task(
      { values: cut },
      {
        card: slide,
        settings: cut,
        reference: { settings: cut, air: PLAIN_AIR },
        ...(calibration ? { calibration } : {}),
      },
    );
  it("leave a cutaway that is right, take one step unmeasured and as many as it needs measured", () => {
    const best = (t: JetTask) => bestCutaway(t.r, t.stations, t.values, t.needle);
    expect(best(mechanical())).toBe(2.5);
    expect(best(mechanical(learned(0.1)))).toBe(3);
    expect(best(mechanical(learned(-0.1)))).toBe(2);
    expect(best(mechanical(learned(0.1, true))) ?? 0).toBeGreaterThan(3);
    expect(best(task({ values: cut }))).toBeNull();
    const unknown = task({ values: settings }, { card: slide });
    expect(best(unknown)).toBeNull();
  });

  it("rank needles with the fitted one among them, best first, each by its own best groove", () => {
    const t = task();
    const straight = { ...t.needle, tapers: [{ lengthMm: 40, includedAngleDeg: 1 }] };
    const ranked = rankNeedles(t.r, t.stations, settings, [{ name: "N2", shape: straight }]);
    expect(ranked.map((n) => n.name)).toEqual(["as fitted", "N2"]);
    expect(ranked[0]?.loss ?? 9).toBeLessThan(ranked[1]?.loss ?? 0);
    expect(ranked[1]?.clip).toBe(bestClip(t.r, t.stations, {}, straight, 0.03).clip);
    expect(rankNeedles(t.r, t.stations, settings, [])).toEqual([]);
  });
});
