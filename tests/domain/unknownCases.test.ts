import { describe, expect, it } from "vitest";
import type { FuelState, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { unknownCases } from "@/lib/domain/tuning/unknownCases";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
type Reference = FuelState["reference"];
const state = (
  was: SettingValues,
  now: SettingValues,
  more: Partial<Reference> = {},
  card: FuelState["card"] = DROVER,
): FuelState => ({
  card,
  carburettors: 1,
  settings: { ...settings, ...now },
  reference: { settings: { ...settings, ...was }, air: PLAIN_AIR, ...more },
});
/** Name, and what each case has as found for a setting. */
const seen = (of: FuelState, key: keyof SettingValues) =>
  unknownCases(of).map((one) => [one.name, one.state.reference.settings[key]]);

describe("what nobody looked at", () => {
  it("is nothing where all that changed is known, or nothing changed", () => {
    expect(unknownCases(state({}, {}))).toEqual([]);
    expect(unknownCases(state({}, { mainJet: 150, clipPosition: 4, pilotJet: 47.5 }))).toEqual([]);
  });
  it("is the needle's seat half a millimetre either way, where only the package says it", () => {
    const both = (from: number) => [
      ["needle found 0.5 mm lower", from - 0.5],
      ["needle found 0.5 mm higher", from + 0.5],
    ];
    expect(seen(state({}, { needleSeatMm: 2 }), "needleSeatMm")).toEqual(both(2));
    const unsure = { unsure: ["needleSeatMm"] as const };
    expect(seen(state({ needleSeatMm: 3 }, { needleSeatMm: 2 }, unsure), "needleSeatMm")).toEqual(both(3));
    expect(unknownCases(state({ needleSeatMm: 2 }, { needleSeatMm: 2 }, unsure))).toEqual([]);
    expect(unknownCases(state({ needleSeatMm: 3 }, { needleSeatMm: 2 }))).toEqual([]);
    expect(unknownCases(state({ needleSeatMm: 3 }, {}, unsure)).map((one) => one.state.settings)).toEqual([]);
    expect(unknownCases(state({}, { needleSeatMm: 2 }))[0]?.settle).toContain("seat height");
  });
  it("is no shim below the needle, where the package puts one in and nobody counted", () => {
    expect(seen(state({}, { needleShimBelowMm: 0.5 }), "needleShimBelowMm")).toEqual([
      ["no shim below the needle as found", 0],
    ]);
    expect(unknownCases(state({}, { needleShimBelowMm: 0.5 }))[0]?.settle).toContain("Count and measure");
    expect(unknownCases(state({}, { needleShimBelowMm: 0 }))).toEqual([]);
    expect(unknownCases(state({ needleShimBelowMm: 0.2 }, { needleShimBelowMm: 0.5 }))).toEqual([]);
  });
  it("is the clip a groove either way inside the grooves, where only the card says it", () => {
    const unsure = { unsure: ["clipPosition"] as const };
    const clips = (was: number, now: number) =>
      seen(state({ clipPosition: was }, { clipPosition: now }, unsure), "clipPosition");
    expect(clips(3, 4)).toEqual([
      ["clip found in groove 2", 2],
      ["clip found in groove 4", 4],
    ]);
    expect(clips(1, 2)).toEqual([["clip found in groove 2", 2]]);
    expect(clips(5, 4)).toEqual([["clip found in groove 4", 4]]);
    expect(clips(3, 3)).toEqual([]);
    const { clipPosition: _, ...unclipped } = settings;
    const unread = { ...state({}, { clipPosition: 4 }), reference: { settings: unclipped, air: PLAIN_AIR } };
    expect(unknownCases({ ...state({}, {}, unsure), settings: unclipped })).toEqual([]);
    // The needle's own groove is 3.
    expect(seen(unread, "clipPosition").map(([, groove]) => groove)).toEqual([2, 4]);
    expect(unknownCases(unread)[0]?.settle).toContain("which groove");
    const shape = DROVER.needle?.value;
    if (!shape) throw new Error("no needle");
    const needle = { value: { ...shape, clips: 3, clipAt: 2 }, how: "read" as const };
    const other = { ...unread, reference: { ...unread.reference, needle } };
    expect(seen(other, "clipPosition").map(([, groove]) => groove)).toEqual([1, 3]);
    // Without any needle known five grooves are usual.
    const { needle: _n, ...bare } = DROVER;
    expect(seen(state({ clipPosition: 5 }, { clipPosition: 4 }, unsure, bare), "clipPosition")).toEqual([
      ["clip found in groove 4", 4],
    ]);
    expect(unknownCases({ ...unread, card: bare })).toEqual([]);
  });
  it("is the pilot jet as it is to be, where only the card says it", () => {
    const unsure = { unsure: ["pilotJet"] as const };
    expect(seen(state({}, { pilotJet: 47.5 }, unsure), "pilotJet")).toEqual([
      ["pilot jet found 47.5 already", 47.5],
    ]);
    expect(unknownCases(state({}, {}, unsure))).toEqual([]);
    expect(unknownCases(state({}, { pilotJet: 47.5 }, unsure))[0]?.settle).toContain("pilot jet's number");
    const { pilotJet: _, ...rest } = settings;
    const unread = { ...state({}, { pilotJet: 47.5 }), reference: { settings: rest, air: PLAIN_AIR } };
    expect(unknownCases(unread)).toHaveLength(1);
    expect(unknownCases({ ...state({}, {}, unsure), settings: rest })).toEqual([]);
  });
  it("is how jets are numbered, where one of them changes and the card does not say", () => {
    const { jetConvention: _, ...card } = DROVER;
    const cases = (was: SettingValues, now: SettingValues) => unknownCases(state(was, now, {}, card));
    for (const now of [{ mainJet: 150 }, { pilotJet: 47.5 }]) {
      const [one, ...more] = cases({}, now);
      expect(more).toEqual([]);
      expect(one).toMatchObject({ name: "jets numbered by flow" });
      expect(one?.settle).toContain("by bore or by flow");
      expect(one?.state.card).toEqual({ ...card, jetConvention: { value: "flow", how: "read" } });
    }
    expect(cases({}, {})).toEqual([]);
    const { mainJet: _m, ...rest } = settings;
    const unread = {
      ...state({}, { mainJet: 150 }, {}, card),
      reference: { settings: rest, air: PLAIN_AIR },
    };
    expect(unknownCases(unread)).toEqual([]);
    const kept = { ...state({}, {}, {}, card), settings: rest };
    expect(unknownCases(kept)).toEqual([]);
  });
  it("is a spring that sagged instead of being cut, where nobody counted its coils and it changes", () => {
    const short = { springLengthMm: 106 };
    const [one, ...more] = unknownCases(state(short, { springLengthMm: 100 }));
    expect(more).toEqual([]);
    expect(one).toMatchObject({ name: "slide spring sagged to 106 mm, not cut", movesSlide: true });
    expect(one?.settle).toContain("active coils");
    expect(one?.state.reference.settings.springCoils).toBe(21);
    // Cut from 106 to 100 mm it keeps 21 x 100 / 106 of its coils; put back to 112 mm, all.
    expect(one?.state.settings.springCoils).toBeCloseTo((21 * 100) / 106, 12);
    const coils = (now: SettingValues) => unknownCases(state(short, now))[0]?.state.settings.springCoils;
    expect(coils({ springLengthMm: 112 })).toBe(21);
    expect(coils({ springLengthMm: 100, springCoils: 19 })).toBe(19);
    expect(one?.state.settings.mainJet).toBe(140);
    const { carburettorType: _type, ...card } = DROVER;
    expect(unknownCases(state(short, { springLengthMm: 100 }, {}, card))).toHaveLength(1);
    for (const known of [
      state(short, { springLengthMm: 106 }),
      state(short, short),
      state({ springLengthMm: 118 }, { springLengthMm: 100 }),
      state({ springLengthMm: 120 }, { springLengthMm: 100 }),
      state({ ...short, springCoils: 19 }, { springLengthMm: 100 }),
      state(
        short,
        { springLengthMm: 100 },
        { spring: { freeMm: 106, coils: 19, rateNPerM: 110, exchanged: false } },
      ),
      state(
        short,
        { springLengthMm: 100 },
        {},
        { ...DROVER, carburettorType: { value: "mechanical", how: "read" } },
      ),
      state(short, { springLengthMm: 100 }, {}, { ...DROVER, springFreeMm: undefined }),
      state(short, { springLengthMm: 100 }, {}, { ...DROVER, springCoils: undefined }),
    ])
      expect(unknownCases(known)).toEqual([]);
    const { springLengthMm: _, ...rest } = settings;
    const unsaid = { ...state({}, { springLengthMm: 100 }), reference: { settings: rest, air: PLAIN_AIR } };
    expect(unknownCases(unsaid)).toEqual([]);
    const same = { ...state(short, {}), settings: rest };
    expect(unknownCases(same)).toEqual([]);
  });
});
