import { describe, expect, it } from "vitest";
import { keptDifferent, type StepWas, whatWasDifferent } from "@/lib/domain/packages/different";
import { BREATHING } from "../support/quotes";

const step = (kind: StepWas["kind"], key: string, more: Partial<StepWas> = {}): StepWas => ({
  kind,
  key,
  spentMinutes: 0,
  parts: [],
  letPass: [],
  ...more,
});
const part = (code: string, used: number, wanted: number, why = "") => ({
  code,
  usedMilli: used * 1000,
  wantedMilli: wanted * 1000,
  why,
});

describe("what was different on a job", () => {
  // Judgement: three minutes and 15 % are the least that is worth a revision.
  it("is minutes that were taken and are off by three and by 15 %, of work, opening and closing alike", () => {
    const found = whatWasDifferent(BREATHING, [
      step("operation", "needle", { spentMinutes: 39 }),
      step("operation", "cut", { spentMinutes: 33 }),
      step("operation", "snorkel", { spentMinutes: 3 }),
      step("open", "seat", { spentMinutes: 4 }),
      step("close", "seat", { spentMinutes: 0 }),
      step("operation", "gone", { spentMinutes: 90 }),
    ]);
    expect(found.map((one) => [one.item, one.was, one.now])).toEqual([
      ["Cut the opening", 28, 33],
      ["Seat and tank off", 9, 4],
    ]);
    const kept = keptDifferent(BREATHING, found);
    expect(kept.operations.find(({ key }) => key === "cut")?.minutes).toBe(33);
    expect(kept.accesses.find(({ key }) => key === "seat")).toMatchObject({
      openMinutes: 4,
      closeMinutes: 12,
    });
  });

  it("is parts used otherwise than planned: more, none with the reason, or one nobody planned; a computed jet is none", () => {
    const found = whatWasDifferent(BREATHING, [
      step("operation", "breather", { parts: [part("BF-20", 2, 1), part("CLIP-8", 3, 0)] }),
      step("operation", "fit-main", { parts: [part("RM-140", 0, 1, "the old one fits")] }),
    ]);
    expect(found.map(({ evidence }) => evidence)).toEqual([
      "2 of BF-20 were used, 1 planned",
      "3 of CLIP-8 were used, 0 planned",
    ]);
    const parts = keptDifferent(BREATHING, found).operations.find(({ key }) => key === "breather")?.parts;
    expect(parts).toEqual([
      { kind: "part", code: "BF-20", quantityMilli: 2000 },
      { kind: "part", code: "CLIP-8", quantityMilli: 3000 },
    ]);
    const none = whatWasDifferent(BREATHING, [
      step("operation", "breather", { parts: [part("BF-20", 0, 1, "still clean")] }),
    ]);
    expect(none[0]?.evidence).toContain("still clean");
    expect(keptDifferent(BREATHING, none).operations.find(({ key }) => key === "breather")?.parts).toEqual(
      [],
    );
  });

  it("changes a part where the package names it: in the option that the operation belongs to", () => {
    const recipe = {
      ...BREATHING,
      options: BREATHING.options.map((one) =>
        one.key === "needle"
          ? { ...one, parts: [{ kind: "part" as const, code: "SEAL", quantityMilli: 1000 }] }
          : one,
      ),
    };
    const found = whatWasDifferent(recipe, [step("operation", "needle", { parts: [part("SEAL", 2, 1)] })]);
    const kept = keptDifferent(recipe, found);
    expect(kept.options.find(({ key }) => key === "needle")?.parts).toMatchObject([{ quantityMilli: 2000 }]);
    expect(kept.operations.find(({ key }) => key === "needle")?.parts).toEqual([]);
  });

  it("is a limit that an owner let a reading past, with the reason", () => {
    const said = { name: "Float height", value: 13.5, why: "new needle sits higher" };
    const letPass = [said];
    const found = whatWasDifferent(BREATHING, [step("operation", "fit-main", { letPass })]);
    expect(found).toMatchObject([{ side: "high", was: 13, now: 13.5 }]);
    expect(found[0]?.evidence).toBe("13.5 mm was let pass: new needle sits higher");
    const hold = keptDifferent(BREATHING, found).operations.find(({ key }) => key === "fit-main")
      ?.holdPoints[0];
    expect(hold).toMatchObject({ low: 12, high: 13.5 });
    const inside = step("operation", "fit-main", { letPass: [{ ...said, value: 12.5 }] });
    expect(whatWasDifferent(BREATHING, [inside])).toEqual([]);
  });
});
