import { describe, expect, it } from "vitest";
import { OutOfRange } from "@/lib/domain/refusal";
import type { DescribedPart } from "@/lib/domain/tuning/describedParts";
import {
  type Flows,
  flowAreaM2,
  flowAreas,
  flowsAfter,
  flowsOf,
  uncountedFlows,
} from "@/lib/domain/tuning/flowFigures";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import type { PartChange } from "@/lib/domain/tuning/partChange";
import { StandIns } from "@/lib/domain/tuning/standIns";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { AS_FOUND, DROVER, mainJets, PLAIN_AIR } from "./tuning-demo";

const part = (kind: "filter" | "silencer", flowLMin: number | null, atPa: number | null) => ({
  kind,
  name: "Foam",
  flowLMin,
  atPa,
});
const sheet = (found: readonly DescribedPart[], put: readonly PartChange[]) =>
  targetSettings({
    card: DROVER,
    carburettors: [{ name: "single", settings: AS_FOUND, parts: found }],
    changes: [{ setting: "mainJet", change: "computed" }],
    partChanges: put,
    now: PLAIN_AIR,
    baseline: PLAIN_AIR,
    jets: mainJets(Array.from({ length: 60 }, (_, i) => 100 + 2.5 * i)),
  });
const exact = (of: ReturnType<typeof sheet>) => of.carburettors[0]?.mainJet?.exact ?? Number.NaN;
const band = (of: ReturnType<typeof sheet>) => {
  const after = of.carburettors[0]?.after;
  const full = after && fuelCurve(after, PLAIN_AIR, 5).points.at(-1);
  return full ? Math.log(full.high / full.low) : Number.NaN;
};

describe("a flow figure", () => {
  it("with the loss it was measured at is an opening, by Bernoulli", () => {
    // 6000 l/min are 0.1 m3/s; at 600 Pa air of 1.2 kg/m3 flows at sqrt(2 x 600 / 1.2) = 31.623 m/s through 3162.3 mm2.
    expect(1e6 * flowAreaM2({ flowLMin: 6000, atPa: 600 })).toBeCloseTo(3162.3, 1);
  });
  it("without that loss tells nothing", () => {
    expect(flowsOf([part("filter", 2400, null), part("silencer", null, 900)])).toBeUndefined();
    const [filter, silencer] = [
      { flowLMin: 2000, atPa: 1500 },
      { flowLMin: 3000, atPa: 3000 },
    ];
    const change = (after: PartChange) => flowsAfter({ filter, silencer }, [{ before: null, after }]);
    expect(change(part("filter", null, null))).toEqual({ silencer });
    expect(change(part("filter", 4000, 1500))).toEqual({ silencer, filter: { flowLMin: 4000, atPa: 1500 } });
  });
});

describe("openings that stand for filter and silencer", () => {
  const filter = { flowLMin: 2000, atPa: 1500 };
  const areas = (...[now, reference]: [Flows | undefined, Flows | undefined]) => {
    const s = new StandIns();
    return { ...flowAreas(now, reference, s), widen: s.widen, said: s.assumptions.map((one) => one.fact) };
  };
  it("are there of a kind that is known on both sides, and widen the band only where it changed", () => {
    const other = { flowLMin: 3000, atPa: 1500 };
    expect(areas({ filter: other }, { filter, silencer: filter })).toEqual({
      now: { filterM2: flowAreaM2(other) },
      reference: { filterM2: flowAreaM2(filter) },
      widen: 0.15,
      said: ["Air filter's loss grows as the square of the flow: 3000 l/min at 1500 Pa"],
    });
    expect(areas({ filter: { flowLMin: 2000, atPa: 1600 } }, { filter }).widen).toBe(0.15);
    const same = areas({ silencer: filter }, { silencer: { ...filter } });
    expect(same).toMatchObject({ widen: 0, now: { silencerM2: flowAreaM2(filter) } });
    expect(same.said[0]).toContain("Silencer's loss");
    for (const none of [areas(undefined, { filter }), areas({ filter }, undefined), areas({ filter }, {})])
      expect(none).toEqual({ now: {}, reference: {}, widen: 0, said: [] });
  });
  it("are of flows from 50 to 100 000 l/min at 10 to 50 000 Pa", () => {
    for (const [flowLMin, atPa] of [
      [49, 100],
      [100_001, 100],
      [1000, 9],
      [1000, 50_001],
    ] as const)
      expect(() => flowAreaM2({ flowLMin, atPa })).toThrow(OutOfRange);
    expect(() => flowAreaM2({ flowLMin: 49, atPa: 100 })).toThrow("flow is 49 l/min");
    expect(() => flowAreaM2({ flowLMin: 1000, atPa: 9 })).toThrow("pressure loss is 9 Pa");
    expect(flowAreaM2({ flowLMin: 50, atPa: 10 })).toBeGreaterThan(0);
    expect(flowAreaM2({ flowLMin: 100_000, atPa: 50_000 })).toBeGreaterThan(0);
  });
  it("are kept or left with what was changed", () => {
    const silencer = { flowLMin: 3000, atPa: 3000 };
    expect(flowsAfter({ filter }, [{ before: null, after: part("silencer", 3000, 3000) }])).toEqual({
      filter,
      silencer,
    });
    expect(flowsAfter({ filter }, [{ before: null, after: part("filter", null, 1500) }])).toBeUndefined();
    expect(flowsAfter(undefined, [])).toBeUndefined();
    expect(
      flowsAfter(undefined, [{ before: null, after: { kind: "liftHoles", holesMm: [2] } }]),
    ).toBeUndefined();
    expect(flowsOf(undefined)).toBeUndefined();
    expect(flowsOf([part("filter", 2000, 1500), part("silencer", 3000, 3000)])).toEqual({ filter, silencer });
    expect(flowsOf([part("filter", null, 1500)])).toBeUndefined();
  });
  it("that are not computed with are said, with which side is not known", () => {
    const put = part("silencer", 3000, 3000);
    const said = (before: DescribedPart | null, after: PartChange = put) =>
      uncountedFlows([{ before, after }]).map((one) => [one.rule, one.message, one.source]);
    expect(said(put)).toEqual([]);
    expect(said(null)).toEqual([
      [
        "flow not known",
        "The change of the silencer is not computed with: how freely the one before passes air is not known.",
        "model",
      ],
    ]);
    const unknown = part("silencer", null, null);
    const both = "The change of the silencer is not computed with: how freely both pass air is not known.";
    expect(said(unknown)[0]?.[1]).toBe(both);
    expect(said(put, unknown)[0]?.[1]).toBe(both);
    expect(said(null, { kind: "liftHoles", holesMm: [2] })).toEqual([]);
  });
});

describe("a filter or silencer exchanged", () => {
  const plain = sheet([], []);
  it("asks for other jets where both are known: freer ones for a bigger main", () => {
    const was = part("filter", 2000, 1500);
    const freer = sheet([was], [part("filter", 4000, 1500)]);
    const tighter = sheet([was], [part("filter", 1500, 1500)]);
    expect(exact(freer)).toBeGreaterThan(exact(plain) + 0.5);
    expect(exact(tighter)).toBeLessThan(exact(plain) - 0.5);
    expect(freer.warnings.map((one) => one.rule)).not.toContain("flow not known");
    expect(freer.assumptions.map((one) => one.fact).join()).toContain(
      "Air filter's loss grows as the square",
    );
    expect(freer.carburettors[0]?.after.flows?.filter).toEqual({ flowLMin: 4000, atPa: 1500 });
    expect(band(freer)).toBeGreaterThan(band(plain));
  });
  it("a silencer asks the other way for fuel that the engine does not burn, and less than a filter", () => {
    const freer = sheet([part("silencer", 3000, 3000)], [part("silencer", 6000, 3000)]);
    expect(exact(freer)).not.toBeCloseTo(exact(plain), 3);
    expect(Math.abs(exact(freer) / exact(plain) - 1)).toBeLessThan(0.1);
  });
  it("the same as before changes nothing", () => {
    const same = part("filter", 2000, 1500);
    expect(exact(sheet([same], [same]))).toBeCloseTo(exact(plain), 6);
    expect(band(sheet([same], [same]))).toBeCloseTo(band(plain), 6);
  });
  it("is not computed with where one of them is not known, and says so", () => {
    const known = part("filter", 4000, 1500);
    for (const found of [[], [part("filter", 2000, null)], [part("filter", null, null)]]) {
      const answer = sheet(found, [known]);
      expect(exact(answer)).toBe(exact(plain));
      expect(answer.warnings.find((one) => one.rule === "flow not known")?.message).toContain(
        "The change of the air filter is not computed with",
      );
    }
  });
});
