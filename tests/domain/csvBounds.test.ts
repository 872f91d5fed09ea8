import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDyno } from "@/lib/domain/bench/dynoReading";
import { mapColumns, numbersOf } from "@/lib/domain/bench/logColumns";
import { readNumber } from "@/lib/domain/imports/numbers";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";
import { MOST_COLUMNS } from "@/lib/schemas/csvShape";
import { DYNO_COLUMNS, LAMBDA_COLUMNS } from "@/lib/schemas/logColumns";

const LARGE = 4_900_000;
const refusal = (run: () => unknown): string => {
  try {
    run();
  } catch (cause) {
    if (cause instanceof Refusal) return cause.message;
    throw cause;
  }
  return "";
};

describe("the shape of a file", () => {
  it("is at most 200 columns, in its heading as in any row", () => {
    const row = (cells: number) => Array(cells).fill("x").join(",");
    expect(parseCsv(`${row(MOST_COLUMNS)}\n${row(MOST_COLUMNS)}`).headings).toHaveLength(MOST_COLUMNS);
    expect(refusal(() => parseCsv(`${row(MOST_COLUMNS + 1)}\n1`))).toContain("Line 1 has more than 200");
    expect(refusal(() => parseCsv(`a,b\n1,2\n${row(MOST_COLUMNS + 1)}`))).toContain(
      "Line 3 has more than 200",
    );
    expect(refusal(() => parseCsv(`${",".repeat(LARGE)}\n1,2`))).toContain("more than 200 columns");
  });

  it("is not got around by quotes within a cell, by single returns or by blank lines", () => {
    const marks = ",".repeat(500);
    for (const text of [
      `a,b\nx"${marks}1`,
      `a,b\n"x"${marks}1`,
      `a,b\n"x"""${marks}1`,
      `a,b\r1,2\r${marks}1`,
    ])
      expect(refusal(() => parseCsv(text))).toContain("more than 200 columns");
    for (const end of ["\n", "\r", "\r\n"])
      expect(refusal(() => parseCsv(`a,b${end.repeat(2_000_000)}1,2`))).toContain("more than 20000 rows");
  });

  it("may have marks and line ends inside quotes, and a million blank lines at its end", () => {
    const text = `a,b\r\n"${"1,".repeat(300)}","said ""no, ${"no, ".repeat(200)}no"""\r\n`;
    const plain = parseCsv(text);
    expect(plain.rows).toHaveLength(1);
    expect(plain.rows[0]?.cells[1]).toMatch(/^said "no, .* no"$/);
    expect(parseCsv(text + ",\r\n".repeat(1_000_000))).toEqual(plain);
  });
});

describe("the columns of a log", () => {
  it("are at most 200, and a heading without end is read by its beginning", () => {
    expect(refusal(() => mapColumns(DYNO_COLUMNS, Array(1_000_000).fill(""), {}))).toContain("at most 200");
    expect(mapColumns(LAMBDA_COLUMNS, [`Throttle ${"%".repeat(LARGE)}`, "Lambda"], {})).toEqual({
      time: null,
      throttle: 0,
      mixture: 1,
      rpm: null,
    });
  });

  it("hold the same numbers by the quick way as by the careful one", () => {
    const cell = fc.oneof(
      fc.stringMatching(/^-?\d{1,17}([.,]\d{0,17})?$/),
      fc.stringMatching(/^[ -]?\d{1,3}([.,]\d{3}){0,2}([.,]\d{1,2})?$/),
      fc.string({ maxLength: 6 }),
    );
    fc.assert(
      fc.property(cell, fc.constantFrom("." as const, "," as const), (text, mark) => {
        const read = readNumber(text.trim(), mark);
        const [number] = numbersOf([{ line: 2, cells: [text] }], 0, "rpm", mark, "rpm", true);
        expect(number).toBe("value" in read ? Number(read.value) : Number.NaN);
      }),
      { numRuns: 2000 },
    );
  });

  it("hold no number of more than sixty digits", () => {
    expect(readNumber("1".repeat(61), ".")).toHaveProperty("wrong");
    expect(readNumber("1".repeat(60), ".")).toHaveProperty("value");
  });
});

describe("the runs of a dyno file", () => {
  const rows = (count: number, run: (n: number) => string) =>
    Array.from({ length: count }, (_, n) => ({
      rpm: 2000 + (n % 5000),
      powerW: null,
      torqueNm: 30,
      lambda: null,
      temperatureK: null,
      pressurePa: null,
      humidity: null,
      run: run(n),
    }));
  const terms = { standard: "none" as const, after: [], lowRpm: null, highRpm: null };

  it("are read in time that grows with their rows", () => {
    const reading = readDyno(
      rows(200_000, (n) => (n < 100_000 ? "before" : "after")),
      terms,
    );
    expect(reading.runs.map((run) => run.rows)).toEqual([100_000, 100_000]);
    expect(reading.comparison.meanGain).toBe(0);
  });

  it("are at most a hundred", () => {
    expect(refusal(() => readDyno(rows(202, String), terms))).toContain("at most 100 can be compared");
  });
});
