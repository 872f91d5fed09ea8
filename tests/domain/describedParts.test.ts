import { describe, expect, it } from "vitest";
import { type DescribedPart, figuresOf, nearBreather, partWords } from "@/lib/domain/tuning/describedParts";
import { DescribePartSchema } from "@/lib/schemas/describedParts";

const typed = (fields: Record<string, string>) =>
  DescribePartSchema.safeParse({ bikeId: "1", carburettor: "1", ...fields });
const part = (fields: Record<string, string>): DescribedPart => {
  const read = typed(fields);
  if (!read.success) throw new Error(read.error.message);
  return read.data.part;
};

describe("parts that a single figure cannot hold", () => {
  it("are a jet of ours by pin gauge in hundredths of a millimetre, or by flow in its own numbering", () => {
    const drilled = part({
      kind: "jet",
      setting: "mainJet",
      by: "pin gauge",
      measured: "1,46",
      number: "140",
    });
    expect(figuresOf(drilled)).toEqual([{ setting: "mainJet", value: 146 }]);
    expect(partWords(drilled)).toBe("ours, 1.46 mm by pin gauge, made from a 140");
    const flowed = part({ kind: "jet", setting: "pilotJet", by: "flow", measured: "47.5" });
    expect(figuresOf(flowed)).toEqual([{ setting: "pilotJet", value: 47.5 }]);
    expect(partWords(flowed)).toBe("ours, flows 47.5");
    // Hundredths of a millimetre are kept to a tenth.
    expect(figuresOf(part({ kind: "jet", measured: "1,4567" }))).toEqual([
      { setting: "mainJet", value: 145.7 },
    ]);
  });
  it("are lift holes and openings, which count as ones of the same area (by hand: 3 and 4 make 5)", () => {
    const holes = part({ kind: "liftHoles", holes: "2.3; 2.8" });
    expect(figuresOf(holes)).toEqual([
      { setting: "liftHoleCount", value: 2 },
      { setting: "liftHoleMm", value: 2.562 },
    ]);
    expect(2 * 2.562 ** 2).toBeCloseTo(2.3 ** 2 + 2.8 ** 2, 2);
    const openings = part({ kind: "openings", openings: "30 80; 40" });
    expect(figuresOf(openings)).toEqual([{ setting: "airboxOpeningMm", value: 50 }]);
    expect(partWords(openings)).toBe(
      "30 mm, 80 mm from the breather; 40 mm, distance from the breather not measured",
    );
    expect(figuresOf(part({ kind: "liftHoles", holes: "" }))).toEqual([
      { setting: "liftHoleCount", value: 0 },
    ]);
    expect(figuresOf(part({ kind: "openings", openings: "" }))).toEqual([
      { setting: "airboxOpeningMm", value: 0 },
    ]);
    expect(partWords(part({ kind: "liftHoles", holes: "" }))).toBe("none");
    expect(partWords(part({ kind: "openings", openings: "" }))).toBe("none");
    expect(partWords(holes)).toBe("2.3 mm, 2.8 mm");
    expect(figuresOf(part({ kind: "openings", openings: "10; 10" }))).toEqual([
      { setting: "airboxOpeningMm", value: 14.14 },
    ]);
  });
  it("keep openings away from the breather where the model card limits it (common practice, no source)", () => {
    const openings = part({ kind: "openings", openings: "30 80; 40 50; 20" });
    expect(nearBreather(openings, 60)).toEqual([
      "The 40 mm opening is 50 mm from the breather, nearer than 60 mm.",
      "How far the 20 mm opening is from the breather is not measured: at least 60 mm.",
    ]);
    expect(nearBreather(openings, null)).toEqual([]);
    expect(nearBreather(part({ kind: "openings", openings: "40 60" }), 60)).toEqual([]);
    expect(nearBreather(part({ kind: "liftHoles", holes: "2" }), 60)).toEqual([]);
  });
  it("are springs cut or exchanged, and filters and silencers whose flow may not be known", () => {
    const spring = part({ kind: "spring", change: "cut", freeMm: "100", coils: "17" });
    expect(figuresOf(spring)).toEqual([
      { setting: "springLengthMm", value: 100 },
      { setting: "springCoils", value: 17 },
    ]);
    expect(partWords(spring)).toBe("cut: 100 mm free, wire not measured, 17 coils, rate not measured");
    const bare = part({ kind: "spring", freeMm: "108", rateNPerM: "104", wireMm: "0.9" });
    expect(figuresOf(bare)).toEqual([{ setting: "springLengthMm", value: 108 }]);
    expect(partWords(bare)).toBe("delivered: 108 mm free, wire 0.9 mm, coils not counted, 104 N/m");
    expect(partWords(part({ kind: "filter", name: "Oiled foam" }))).toBe("Oiled foam: flow not known");
    expect(partWords(part({ kind: "silencer", name: "Quiet core", flowLMin: "4 200" }))).toBe(
      "Quiet core: 4200 l/min, at which loss is not said",
    );
    expect(figuresOf(part({ kind: "silencer", name: "Quiet core" }))).toEqual([]);
    const known = { kind: "filter", name: "Foam", flowLMin: "2400", atPa: "1500" };
    expect(partWords(part(known))).toBe("Foam: 2400 l/min at 1500 Pa");
  });
  it("are refused field by field where a form cannot be read", () => {
    const faults = (fields: Record<string, string>) =>
      typed(fields).error?.issues.map((issue) => issue.path.join("."));
    expect(faults({ kind: "jet", measured: "" })).toEqual(["measured"]);
    expect(faults({ kind: "spring", freeMm: "5" })).toEqual(["freeMm"]);
    expect(faults({ kind: "spring", freeMm: "100", coils: "many" })).toEqual(["coils"]);
    expect(faults({ kind: "liftHoles", holes: "2.3 2.8" })).toEqual(["holes"]);
    expect(faults({ kind: "liftHoles", holes: "23" })).toEqual(["holes"]);
    expect(faults({ kind: "openings", openings: "big" })).toEqual(["openings"]);
    expect(faults({ kind: "filter", name: "" })).toEqual(["name"]);
  });
});
