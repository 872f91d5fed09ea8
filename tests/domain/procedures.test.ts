import { describe, expect, it } from "vitest";
import { DASHES, LETTER, LINE_WIDTHS, SHEET_WIDTH } from "@/lib/domain/procedures/drawing";
import { PROCEDURES, procedure, proceduresFor, proceduresOfStep } from "@/lib/domain/procedures/procedures";
import { MEASURABLES, measurable } from "@/lib/domain/tuning/measurables";

/** Every number of a path, as points: the last two of each command are where it leads. */
function pointsOf(d: string): { x: number; y: number }[] {
  const points: { x: number; y: number }[] = [];
  let [x, y] = [0, 0];
  for (const [, command = "", rest = ""] of d.matchAll(/([MLHVCQAZ])([^MLHVCQAZ]*)/g)) {
    const numbers = (rest.match(/-?[\d.]+/g) ?? []).map(Number);
    if (command === "H") x = numbers.at(-1) ?? x;
    else if (command === "V") y = numbers.at(-1) ?? y;
    else if (command !== "Z") [x, y] = [numbers.at(-2) ?? x, numbers.at(-1) ?? y];
    points.push({ x, y });
  }
  return points;
}

/** About how wide a text is: 0.56 of its height for a letter of Atkinson Hyperlegible, measured on its widest words. */
const widthOf = (text: string) => text.length * LETTER * 0.56;

describe("measuring procedures", () => {
  it("are each found by an id that fits an address, and say all that a hand needs", () => {
    expect(new Set(PROCEDURES.map((one) => one.id)).size).toBe(PROCEDURES.length);
    for (const one of PROCEDURES) {
      expect(one.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(procedure(one.id)).toBe(one);
      expect(one.steps.length, one.id).toBeGreaterThanOrEqual(3);
      expect(one.cautions.length, one.id).toBeGreaterThan(0);
      for (const text of [one.instrument, one.resolution, one.readings, one.kept, one.drawing.description])
        expect(text.length, one.id).toBeGreaterThan(3);
      for (const key of one.measures) expect(measurable(key), `${one.id} measures ${key}`).toBeDefined();
    }
    expect(procedure("dowsing")).toBeUndefined();
  });

  it("cover everything that a gauge reads, but for what is read off a part or a counter", () => {
    const readOff = [
      "mainJet",
      "pilotJet",
      "clipPosition",
      "snorkelFitted",
      "idleSpeedRpm",
      "slideCutawayMm",
    ];
    const byNeedle = ["needleSeatMm", "needleShimBelowMm", "needleShimAboveMm"];
    for (const { key } of MEASURABLES)
      expect(proceduresFor([key]).length > 0, key).toBe(![...readOff, ...byNeedle].includes(key));
  });

  it("warn of what runs and burns wherever the engine runs or the bowl is opened", () => {
    const said = (id: string) => procedure(id)?.cautions.join(" ") ?? "";
    for (const id of ["float-height-by-gauge", "float-height-by-tube", "diaphragm-by-light"])
      expect(said(id), id).toContain("Fuel vapour burns");
    for (const id of ["float-height-by-tube", "vacuum-balance"]) {
      expect(said(id), id).toContain("fresh air");
      expect(said(id), id).toContain("stands clear");
      expect(said(id), id).toContain("maker's manual or local law");
    }
    for (const id of ["header-weld", "valve-clearance", "vacuum-balance"])
      expect(said(id), id).toContain("header burns");
  });

  it("are found from a step by what its hold points read and what it makes", () => {
    const hold = (kind: string, measures: string) => ({ kind, measures });
    const ids = (makes: string[], holdPoints: { kind: string; measures: string }[]) =>
      proceduresOfStep({ makes, holdPoints }).map((one) => one.id);
    expect(ids([], [hold("reading", "floatHeightMm")])).toEqual(["float-height-by-gauge"]);
    expect(ids([], [hold("check", "floatHeightMm")])).toEqual([]);
    expect(ids(["needle"], [])).toEqual(["needle-at-stations"]);
    expect(ids(["liftHoleMm", "springLengthMm"], [])).toEqual([
      "spring-length-and-rate",
      "hole-by-drill-shank",
    ]);
    expect(ids(["mainJet"], [])).toEqual([]);
    expect(ids([], [hold("reading", "vacuumSpreadKpa"), hold("reading", "")])).toEqual(["vacuum-balance"]);
  });
});

describe("a line drawing", () => {
  it("lies on its sheet whole, words too, with no letter under 12 px on a phone of 360", () => {
    // The phone's text column is 328 px wide: 360 less 16 on either side.
    expect((LETTER * 328) / SHEET_WIDTH).toBeGreaterThanOrEqual(12);
    for (const { id, drawing } of PROCEDURES) {
      const inside = (x: number, y: number, what: string) => {
        expect(x, `${id}: ${what}`).toBeGreaterThanOrEqual(0);
        expect(x, `${id}: ${what}`).toBeLessThanOrEqual(SHEET_WIDTH);
        expect(y, `${id}: ${what}`).toBeGreaterThanOrEqual(0);
        expect(y, `${id}: ${what}`).toBeLessThanOrEqual(drawing.height);
      };
      for (const { kind, d } of drawing.strokes) {
        expect(d, id).toMatch(/^M[MLHVCQAZ\d\s.-]*$/);
        for (const { x, y } of pointsOf(d)) inside(x, y, `${kind} ${d}`);
      }
      for (const { x, y, text, anchor } of drawing.labels) {
        const width = widthOf(text);
        const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
        inside(left, y - LETTER * 0.75, text);
        inside(left + width, y + 3, text);
      }
    }
  });

  it("keeps its words apart from each other", () => {
    for (const { id, drawing } of PROCEDURES) {
      const boxes = drawing.labels.map(({ x, y, text, anchor }) => {
        const width = widthOf(text);
        const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
        return { text, left, right: left + width, top: y - LETTER * 0.75, bottom: y + 3 };
      });
      for (const [at, one] of boxes.entries())
        for (const other of boxes.slice(at + 1))
          expect(
            one.right <= other.left ||
              other.right <= one.left ||
              one.bottom <= other.top ||
              other.bottom <= one.top,
            `${id}: “${one.text}” over “${other.text}”`,
          ).toBe(true);
    }
  });

  it("gives every kind of stroke a width or a fill", () => {
    for (const kind of PROCEDURES.flatMap((one) => one.drawing.strokes.map((stroke) => stroke.kind)))
      expect(LINE_WIDTHS[kind]).toBeGreaterThanOrEqual(0);
    for (const dash of Object.values(DASHES)) expect(dash).toMatch(/^\d+ \d+$/);
  });
});
