import { describe, expect, it } from "vitest";
import { type KeptModelCard, modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import { FACT_GROUPS, HOW_TYPED, MODEL_FACTS, modelFact } from "@/lib/domain/tuning/modelFacts";
import { SETTINGS, settingDef } from "@/lib/domain/tuning/settings";
import { LIMIT_FACTS } from "@/lib/domain/tuning/wearLimits";

describe("facts of a kept model card", () => {
  const fact = (key: string, value: number | null, text: string | null = null, how = "measured") => ({
    key,
    value,
    text,
    how,
  });
  const card = (...facts: KeptModelCard["facts"]): KeptModelCard => ({
    displacementCc: 580,
    cylinders: 1,
    carburettorType: "constant vacuum",
    facts,
  });
  it("are its columns as read, its numbers and words as they were said, and nothing that is empty", () => {
    const facts = modelCardFacts(
      card(
        fact("boreMm", 37, null, "read"),
        fact("ratedRpm", null),
        fact("jetConvention", null, "flow"),
        fact("ventedTo", null, "somewhere"),
        fact("fuel", null, "E85", "assumed"),
      ),
    );
    expect(facts).toMatchObject({
      displacementCc: { value: 580, how: "read" },
      cylinders: { value: 1, how: "read" },
      carburettorType: { value: "cv", how: "read" },
      boreMm: { value: 37, how: "read" },
      jetConvention: { value: "flow", how: "measured" },
      fuel: { value: "E85", how: "assumed" },
    });
    expect([facts.ratedRpm, facts.ventedTo, facts.needle, facts.headerMm]).toEqual(
      new Array(4).fill(undefined),
    );
    const slide = modelCardFacts({ ...card(), carburettorType: "mechanical slide" });
    expect(slide.carburettorType?.value).toBe("mechanical");
    expect(modelCardFacts({ ...card(), carburettorType: "injection" }).carburettorType).toBeUndefined();
  });

  const needle = [
    fact("needleStraightMm", 2.5),
    fact("needleStraightLiftMm", 6, null, "read"),
    fact("needleTaper1LengthMm", 20),
    fact("needleTaper1Deg", 1.5),
  ];
  it("have a needle once its straight part, lift and one whole taper are known, as sure as its least sure measure", () => {
    expect(modelCardFacts(card(...needle)).needle).toEqual({
      how: "read",
      value: {
        straightMm: 2.5,
        straightLiftMm: 6,
        clipAt: 3,
        clipStepMm: 1,
        clips: 5,
        groovesAssumed: true,
        tapers: [{ lengthMm: 20, includedAngleDeg: 1.5 }],
      },
    });
    for (const missing of [0, 1, 2, 3])
      expect(modelCardFacts(card(...needle.filter((_, i) => i !== missing))).needle).toBeUndefined();
    const more = modelCardFacts(
      card(
        ...needle,
        fact("needleTaper2LengthMm", 10),
        fact("needleTaper2Deg", 3),
        fact("needleTaper3LengthMm", 5),
        fact("needleClipAt", 2),
        fact("needleClipStepMm", 0.9),
        fact("needleClips", 6),
        fact("needleStraightLengthMm", 26),
      ),
    ).needle;
    expect(more?.value.groovesAssumed).toBeUndefined();
    expect(more?.value.planeMm).toBe(20);
    expect(more?.value.tapers).toEqual([
      { lengthMm: 20, includedAngleDeg: 1.5 },
      { lengthMm: 10, includedAngleDeg: 3 },
    ]);
    expect(more?.value).toMatchObject({ clipAt: 2, clipStepMm: 0.9, clips: 6 });
    const how = (a: string, b: string) =>
      modelCardFacts(
        card(
          fact("needleStraightMm", 2.5, null, a),
          fact("needleStraightLiftMm", 6, null, b),
          ...needle.slice(2),
        ),
      ).needle?.how;
    expect([how("measured", "measured"), how("measured", "assumed"), how("computed", "read")]).toEqual([
      "measured",
      "assumed",
      "computed",
    ]);
  });

  it("each stand on the form once, with limits, and every number that the model takes is asked for", () => {
    const keys = MODEL_FACTS.map((f) => f.key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const f of MODEL_FACTS) {
      expect(f.name, f.key).not.toBe("");
      if (f.choices) expect(f.choices.length, f.key).toBeGreaterThan(1);
      else expect(f.low, f.key).toBeLessThan(f.high);
      if (f.whole) expect([f.low % 1, f.high % 1, f.step % 1], f.key).toEqual([0, 0, 0]);
    }
    const asked = Object.fromEntries(MODEL_FACTS.filter((f) => !f.choices).map((f) => [f.key, f.low]));
    for (const key of [
      "strokeMm",
      "ratedRpm",
      "boreMm",
      "diaphragmMm",
      "slideMassG",
      "springRateNPerM",
      "springFreeMm",
      "springCoils",
      "springInstalledMm",
      "innerSpringRateNPerM",
      "innerSpringFreeMm",
      "needleJetMm",
      "snorkelMm",
      "snorkelHoleMm",
      "headerMm",
      "deliveredScrewTurns",
      "needleStraightMm",
      "needleStraightLiftMm",
      "needleTaper1LengthMm",
      "needleTaper1Deg",
      "needleTaper2LengthMm",
      "needleTaper3Deg",
      "needleClipAt",
      "needleClipStepMm",
      "needleClips",
    ]) {
      expect(asked, key).toHaveProperty(key);
      const all = modelCardFacts(card(fact(key, 7)));
      if (!key.startsWith("needleStr") && !key.startsWith("needleT") && !key.startsWith("needleCl"))
        expect(all[key as keyof typeof all], key).toEqual({ value: 7, how: "measured" });
    }
    const words = Object.fromEntries(
      MODEL_FACTS.flatMap((f) => (f.choices ? [[f.key, f.choices.map((c) => c.value)]] : [])),
    );
    for (const [key, values] of Object.entries({
      jetConvention: ["bore", "flow"],
      ventedTo: ["atmosphere", "airbox", "unknown"],
      fuel: ["E0", "E10", "E85"],
    }))
      for (const value of values) {
        expect(words[key], key).toContain(value);
        const taken = modelCardFacts(card(fact(key, null, value)));
        expect(taken[key as "fuel"]?.value).toBe(value);
      }
  });

  it("have the unit that their key names, and the limits of the setting that they are the delivered value of", () => {
    const unitOf = (key: string) =>
      key.endsWith("NPerM")
        ? "N/m"
        : key.endsWith("Mm")
          ? "mm"
          : key.endsWith("Rpm")
            ? "rpm"
            : key.endsWith("Deg")
              ? "degrees"
              : key.endsWith("Km")
                ? "km"
                : key.endsWith("MassG")
                  ? "g"
                  : key.endsWith("Turns")
                    ? "turns out"
                    : "";
    for (const f of MODEL_FACTS) expect(f.unit, f.key).toBe(unitOf(f.key));
    const delivered = MODEL_FACTS.filter((f) => f.group === "As delivered");
    const settings = delivered.map((f) => {
      const bare = f.key.replace("delivered", "");
      const def = settingDef(
        bare === "ScrewTurns" ? "mixtureScrewTurns" : bare.replace(/^./, (c) => c.toLowerCase()),
      );
      expect([f.low, f.high, f.step], f.key).toEqual([def?.low, def?.high, def?.step]);
      return def?.key;
    });
    // Shims have no delivered value of their own.
    const asked = SETTINGS.map((s) => s.key).filter((key) => !key.startsWith("needleShim"));
    expect(new Set(settings)).toEqual(new Set(asked));
  });

  it("stand in the form's groups, in its order; those counted in whole numbers are so", () => {
    expect([...new Set(MODEL_FACTS.map((f) => f.group))]).toEqual([...FACT_GROUPS]);
    expect(MODEL_FACTS.filter((f) => f.whole).map((f) => f.key)).toEqual([
      "deliveredClipPosition",
      "deliveredLiftHoleCount",
      "deliveredSnorkelFitted",
      "deliveredIdleSpeedRpm",
      "needleClipAt",
      "needleClips",
      "ratedRpm",
      "guideCheckKm",
      "filterCleanKm",
    ]);
    expect(HOW_TYPED).toEqual(["measured", "read", "assumed"]);
    for (const key of [...LIMIT_FACTS, "openingBreatherMm"]) expect(modelFact(key)?.key).toBe(key);
    expect(modelFact("spoons")).toBeUndefined();
    const choices = MODEL_FACTS.filter((f) => f.choices);
    for (const f of choices) for (const c of f.choices ?? []) expect(c.name, c.value).toMatch(/\w/);
    const shape = ["needleStraightMm", "needleStraightLiftMm", "needleTaper1LengthMm", "needleTaper1Deg"];
    expect(modelCardFacts(card(...shape.map((key) => fact(key, 2)))).needle?.value.straightMm).toBe(2);
    for (const empty of shape)
      expect(
        modelCardFacts(card(...shape.map((key) => fact(key, key === empty ? null : 2)))).needle,
      ).toBeUndefined();
    expect(choices.map((f) => [f.unit, f.low, f.high, f.step])).toEqual(choices.map(() => ["", 0, 0, 1]));
  });
});
