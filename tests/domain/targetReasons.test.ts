import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { VERIFY } from "@/lib/domain/reason";
import { insistOnMeasurement, targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { SettingKey, TargetInput } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, mainJets, OPENED, PLAIN_AIR } from "./tuning-demo";

const verify = { fact: VERIFY, from: "judgement" };
const setting = (input: TargetInput, key: SettingKey) =>
  targetSettings(input).carburettors[0]?.settings.find((s) => s.key === key);
const high = airFromReading({ stationPa: 70_000, temperatureC: 20, humidity: 0.4 });

describe("the reasons of a target sheet", () => {
  it("of a computed jet: the exact size, the choice, the drawer, and to verify", () => {
    const main = setting(OPENED, "mainJet");
    expect(main?.because.slice(-2)).toEqual([
      {
        fact: expect.stringMatching(/^Exactly 14\d\.\d would meet the target$/),
        from: "fuel model",
        effect: "145 chosen: least expected loss, lean counting more than rich",
      },
      verify,
    ]);
    const none = setting({ ...OPENED, jets: mainJets([145], 0, true) }, "mainJet");
    expect(none?.because.at(-2)).toEqual({ fact: expect.stringContaining("order 145"), from: "stock" });
    const pilot = setting({ ...OPENED, changes: [{ setting: "pilotJet", change: "computed" }] }, "pilotJet");
    expect(pilot?.because.map((r) => r.fact).join()).toMatch(/Exactly 4\d\.\d would meet the target/);
    expect(main).toMatchObject({ how: "computed", from: 140, firmness: "starting point" });
  });
  it("of the screw: where it stood, what air and pilot jet ask for, freer breathing, and how far it may go", () => {
    const freer = targetSettings(OPENED).carburettors[0]?.screwStart;
    expect(freer?.because).toEqual([
      { fact: "Stood at 1.75 turns out", from: "as found" },
      {
        fact: expect.stringMatching(/^Air and pilot jet ask for 1\.\d\d turns$/),
        from: "fuel model",
        effect: expect.stringMatching(/^[+-]0\.\d\d turns$/),
      },
      { fact: "Freer breathing", from: "common practice", effect: "about a quarter turn further out" },
      verify,
    ]);
    expect(setting(OPENED, "mixtureScrewTurns")).toEqual(freer);
    expect(freer).toMatchObject({ how: "computed", firmness: "starting point" });
    const still = targetSettings({ ...OPENED, changes: [] }).carburettors[0]?.screwStart;
    expect(still?.because.map((r) => r.fact)).not.toContain("Freer breathing");
    const pilot = (value: number) =>
      targetSettings({ ...OPENED, changes: [{ setting: "pilotJet", change: "set", value }] }).carburettors[0]
        ?.screwStart?.because;
    const kept = {
      fact: "Kept within half a turn",
      from: "common practice",
      effect: "a pilot jet is nearer the need",
    };
    // What is asked for is searched no further than half a turn, so that freer breathing alone goes beyond.
    expect(pilot(37.5)?.map((r) => r.fact)).not.toContain(kept.fact);
    const both = targetSettings({
      ...OPENED,
      changes: [
        { setting: "pilotJet", change: "set", value: 37.5 },
        { setting: "snorkelFitted", change: "set", value: 0 },
      ],
    }).carburettors[0]?.screwStart;
    expect(both?.because).toContainEqual(kept);
    expect(both?.value).toBe(2.25);
    expect(pilot(37.5)?.[1]?.effect).toBe("+0.50 turns");
    expect(pilot(100)?.[1]?.effect).toBe("-0.50 turns");
    expect(pilot(100)?.map((r) => r.fact)).not.toContain(kept.fact);
    // Thin air and a large pilot jet ask for far less than half a turn in.
    const large = [{ setting: "pilotJet", change: "set", value: 100 }] as const;
    const thin = targetSettings({ ...OPENED, now: high, changes: large }).carburettors[0]?.screwStart;
    expect([thin?.value, thin?.because[1]?.effect]).toEqual([1.25, "-0.50 turns"]);
    expect(pilot(70)?.[1]?.effect).toMatch(/^-0\.\d\d turns$/);
  });
  it("of what a package sets, and what follows from it, is a starting point", () => {
    const changes = [{ setting: "springCoils", change: "set", value: 18.9 }] as const;
    const coiled = { ...AS_FOUND, springCoils: { value: 21, how: "read" as const } };
    const input = { ...OPENED, carburettors: [{ name: "c", settings: coiled }], changes };
    expect(setting(input, "springCoils")).toMatchObject({ firmness: "starting point" });
    expect(setting(input, "springLengthMm")).toMatchObject({
      firmness: "starting point",
      because: [{ fact: "Follows from the package", from: "package" }],
    });
  });
  it("of a needle that stays or moves, by clip or by shims", () => {
    const clip = setting(OPENED, "clipPosition");
    expect(clip?.because.at(-1)).toEqual(verify);
    expect(clip?.because[0]?.from).toBe("fuel model");
    const shape = DROVER.needle?.value;
    if (!shape) throw new Error("no needle");
    const { clipPosition: _, ...unclipped } = AS_FOUND;
    const shims = (now = PLAIN_AIR) =>
      setting(
        {
          ...OPENED,
          card: { ...DROVER, needle: { value: { ...shape, clips: 0, clipAt: 0 }, how: "read" } },
          carburettors: [
            { name: "c", settings: { ...unclipped, needleShimBelowMm: { value: 1, how: "measured" } } },
          ],
          changes: [{ setting: "clipPosition", change: "computed" }],
          now,
          shims: [
            { sizeMm: 0.3, free: 4 },
            { sizeMm: 0.2, free: 0 },
          ],
        },
        "needleShimBelowMm",
      );
    expect(shims()?.because).toEqual([
      { fact: "Half throttle stays on target", from: "fuel model", effect: "1 mm of shims" },
      verify,
    ]);
    expect(shims(high)?.because[0]).toEqual({
      fact: "Half throttle is nearest target here",
      from: "fuel model",
      effect: "needle down",
    });
    expect(((1 - (shims(high)?.value ?? 9)) / 0.3) % 1).toBeCloseTo(0, 9);
  });
  it("say what to measure, by the setting's own name, and what is missing of the air", () => {
    const sheet = targetSettings({
      ...OPENED,
      changes: [{ setting: "mainJet", change: "computed" }],
      now: high,
      jets: mainJets([110, 115, 120, 125, 130, 135, 140]),
    });
    const [held] = sheet.refusals;
    expect(() => insistOnMeasurement(sheet)).toThrow(
      expect.objectContaining({ fields: { mainJet: held?.message } }),
    );
    expect(sheet.warnings.filter((w) => w.rule === "assumed air")).toEqual([]);
    const assumed = targetSettings({ ...OPENED, now: { ...PLAIN_AIR, assumed: true } }).warnings;
    expect(assumed.find((w) => w.rule === "assumed air")).toMatchObject({ source: "model" });
  });
  it("a jet that no size can put on target is told as out of reach, and the rest is computed", () => {
    // A needle jet so wide that what comes through beside the needle floods half the range: no main jet counts any more.
    const wide = { ...DROVER, needleJetMm: { value: 2.52, how: "read" as const } };
    const lean = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
      region,
      value: -0.8,
      sigma: 0.02,
      samples: 1,
      measured: true,
    }));
    const sheet = targetSettings({ ...OPENED, card: wide, calibration: lean });
    const told = sheet.warnings.filter((w) => w.rule === "jet out of reach");
    expect(told.map((w) => w.message.split(" meets")[0])).toContain("No main jet");
    expect(sheet.carburettors[0]?.mainJet).toBeNull();
    expect(sheet.carburettors[0]?.screwStart).not.toBeNull();
  });
  it("no needle needs to be known", () => {
    const { needle: _, ...bare } = DROVER;
    const rules = targetSettings({ ...OPENED, changes: [], card: bare }).warnings.map((w) => w.rule);
    expect(rules).not.toContain("needle with cut opening");
  });
  it("no cutaway is computed for a constant-vacuum slide", () => {
    const changes = [{ setting: "slideCutawayMm", change: "computed" }] as const;
    expect(setting({ ...OPENED, changes }, "slideCutawayMm")).toBeUndefined();
    expect(targetSettings({ ...OPENED, changes }).carburettors[0]?.after.settings).not.toHaveProperty(
      "slideCutawayMm",
    );
  });
  it("parts that the work changes stand with their carburettor, and none where it changes none", () => {
    const put = { kind: "liftHoles", holesMm: [3] } as const;
    const [c] = targetSettings({ ...OPENED, partChanges: [put] }).carburettors;
    expect(c?.parts).toEqual([{ before: null, after: put }]);
    expect(targetSettings(OPENED).carburettors[0]).not.toHaveProperty("parts");
  });
  it("a new needle starts from its own groove, and one without any has no clip", () => {
    const shape = DROVER.needle?.value;
    if (!shape) throw new Error("no needle");
    const fitted = (clips: number, clipAt: number) =>
      setting(
        { ...OPENED, changes: [], newNeedle: { value: { ...shape, clips, clipAt }, how: "read" } },
        "clipPosition",
      );
    expect(fitted(5, 4)).toMatchObject({ value: 4, from: 3 });
    expect(fitted(0, 0)).toBeUndefined();
    const asked = setting(
      {
        ...OPENED,
        changes: [{ setting: "clipPosition", change: "computed" }],
        newNeedle: { value: { ...shape, clipAt: 4 }, how: "read" },
      },
      "clipPosition",
    );
    expect(asked).toMatchObject({ value: 4, how: "computed" });
  });
});
