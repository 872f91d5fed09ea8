import { describe, expect, it } from "vitest";
import { checkSheet } from "@/lib/domain/sheets/check";
import { compareSheets } from "@/lib/domain/sheets/compare";
import { modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import { MODEL_FACTS, modelFact } from "@/lib/domain/tuning/modelFacts";

const one = [{ position: 1, label: "Carburettor" }];
const value = (setting: string, number: number, how = "measured", carburettor = 1) => ({
  carburettor,
  setting,
  value: number,
  how,
});

describe("a setting sheet", () => {
  it("with known settings inside their limits is right", () => {
    expect(checkSheet("asFound", [value("mainJet", 142.5), value("clipPosition", 3, "read")], one)).toEqual(
      {},
    );
  });
  it("names the field and the limits of a value outside them", () => {
    const wrong = checkSheet("asLeft", [value("floatHeightMm", 41), value("idleSpeedRpm", 599)], one);
    expect(wrong).toEqual({
      "values.1.floatHeightMm": "Float height, Carburettor is 41 mm, outside 0 to 40 mm: enter one inside.",
      "values.1.idleSpeedRpm":
        "Idle speed, Carburettor is 599 rpm, outside 600 to 3000 rpm: enter one inside.",
    });
  });
  it("refuses half a clip groove, an unknown setting, a carburettor the bike lacks, a value twice and not a number", () => {
    const wrong = checkSheet(
      "asFound",
      [
        value("clipPosition", 2.5),
        value("colour", 1),
        value("mainJet", 140, "read", 2),
        value("pilotJet", 40),
        value("pilotJet", 42.5),
        value("mainJet", Number.NaN),
      ],
      one,
    );
    expect(Object.keys(wrong).sort()).toEqual([
      "values.1.clipPosition",
      "values.1.colour",
      "values.1.mainJet",
      "values.1.pilotJet",
      "values.2.mainJet",
    ]);
  });
  it("as found holds nothing computed; a target may", () => {
    const computed = [value("mainJet", 142.5, "computed")];
    expect(Object.keys(checkSheet("asFound", computed, one))).toEqual(["how.1.mainJet"]);
    expect(checkSheet("target", computed, one)).toEqual({});
    expect(Object.keys(checkSheet("target", [value("mainJet", 142.5, "guessed")], one))).toEqual([
      "how.1.mainJet",
    ]);
  });
});

describe("sheets side by side", () => {
  it("mark a value that differs from the one before it, skipping gaps", () => {
    const rows = compareSheets([
      [value("mainJet", 140), value("pilotJet", 40)],
      null,
      [value("mainJet", 142.5), value("pilotJet", 40)],
    ]);
    expect(rows.map((row) => [row.setting, row.differs])).toEqual([
      ["mainJet", true],
      ["pilotJet", false],
    ]);
    expect(rows[0]?.cells.map((cell) => (cell ? cell.differs : null))).toEqual([false, null, true]);
  });
  it("see no difference in the last bit of a decimal", () => {
    const [row] = compareSheets([[value("mixtureScrewTurns", 0.1 + 0.2)], [value("mixtureScrewTurns", 0.3)]]);
    expect(row?.differs).toBe(false);
  });
  it("list each carburettor by itself and leave out what no sheet knows", () => {
    const rows = compareSheets([[value("mainJet", 140, "read", 2), value("mainJet", 140)]]);
    expect(rows.map((row) => `${row.carburettor} ${row.setting}`)).toEqual(["1 mainJet", "2 mainJet"]);
  });
});

describe("the facts of a model card", () => {
  it("have one definition per key, with limits in order", () => {
    expect(new Set(MODEL_FACTS.map((fact) => fact.key)).size).toBe(MODEL_FACTS.length);
    for (const fact of MODEL_FACTS) if (!fact.choices) expect(fact.low, fact.key).toBeLessThan(fact.high);
    expect(modelFact("boreMm")?.unit).toBe("mm");
    expect(modelFact("toString")).toBeUndefined();
  });
  it("become what the tuning calculations read, a needle from its measures", () => {
    const fact = (key: string, number: number | null, how = "measured", text: string | null = null) => ({
      key,
      value: number,
      text,
      how,
    });
    const facts = modelCardFacts({
      displacementCc: 578,
      cylinders: 1,
      carburettorType: "constant vacuum",
      facts: [
        fact("boreMm", 40),
        fact("ventedTo", null, "read", "airbox"),
        fact("jetConvention", null, "read", "nonsense"),
        fact("needleStraightMm", 2.5),
        fact("needleStraightLiftMm", 8, "assumed"),
        fact("needleTaper1LengthMm", 20),
        fact("needleTaper1Deg", 1.5),
        fact("needleTaper3LengthMm", 9),
      ],
    });
    expect(facts.boreMm).toEqual({ value: 40, how: "measured" });
    expect(facts.carburettorType).toEqual({ value: "cv", how: "read" });
    expect(facts.ventedTo).toEqual({ value: "airbox", how: "read" });
    expect(facts.jetConvention).toBeUndefined();
    expect(facts.strokeMm).toBeUndefined();
    expect(facts.needle?.how).toBe("assumed");
    expect(facts.needle?.value.tapers).toEqual([{ lengthMm: 20, includedAngleDeg: 1.5 }]);
  });
});
