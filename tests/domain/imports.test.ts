import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeFile, MOST_BYTES } from "@/lib/domain/imports/decode";
import { guessMapping } from "@/lib/domain/imports/guess";
import { guessFile } from "@/lib/domain/imports/keyWays";
import { customerLooks, customerMarks, likeCustomers } from "@/lib/domain/imports/likeness";
import { readNumber } from "@/lib/domain/imports/numbers";
import { readRows } from "@/lib/domain/imports/rows";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";

const terms = { currency: "AUD", mark: ".", distance: "km" } as const;
const number = (text: string, mark: "." | "," = ".") => {
  const read = readNumber(text, mark);
  return "value" in read ? Number(read.value) : read.wrong;
};

function parts(text: string, use: { currency: string; mark: "." | ","; distance: "km" | "mi" } = terms) {
  const csv = parseCsv(text);
  return readRows("parts", csv.headings, csv.rows, guessMapping("parts", csv.headings), use);
}
const first = (text: string) => parts(text).rows[0]?.values;

describe("a number in a file", () => {
  it("is read with either decimal mark, and with groups", () => {
    for (const [text, value] of [
      ["12.5", 12.5],
      ["12,5", 12.5],
      ["1 234,50", 1234.5],
      ["1\u00a0234,50", 1234.5],
      ["1'234.50", 1234.5],
      ["1,234.50", 1234.5],
      ["1.234,50", 1234.5],
      ["1.234.567", 1234567],
      ["-3", -3],
      ["−3", -3],
      ["0,125", 0.125],
      ["1250,125", 1250.125],
    ] as const)
      expect(number(text), text).toBe(value);
  });
  it("that could be read in two ways is read by the file's own decimal mark", () => {
    expect(number("1,250", ".")).toBe(1250);
    expect(number("1,250", ",")).toBe(1.25);
    expect(number("1.250", ".")).toBe(1.25);
    expect(number("1.250", ",")).toBe(1250);
  });
  it("with marks that make no number is refused", () => {
    for (const text of [
      "1,23,456",
      "1.2.3",
      "12,34.56,7",
      "1,2345.6",
      "12.",
      "1..2",
      "x",
      "",
      "1e3",
      "0x10",
      ".",
    ])
      expect(number(text), text).toBeTypeOf("string");
  });
  it("written by either custom comes back the same", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999_999 }), (cents) => {
        const value = cents / 100;
        for (const [locale, mark] of [
          ["en-AU", "."],
          ["de-DE", ","],
          ["nb-NO", ","],
        ] as const) {
          const text = new Intl.NumberFormat(locale, { minimumFractionDigits: 2 }).format(value);
          expect(number(text, mark)).toBe(value);
        }
      }),
    );
  });
});

describe("a file", () => {
  it("in UTF-8, UTF-16 or Windows-1252 is read, and says which it took", () => {
    expect(decodeFile(new TextEncoder().encode("navn\nBjørg"))).toEqual({
      text: "navn\nBjørg",
      encoding: "UTF-8",
    });
    expect(decodeFile(new Uint8Array([0xff, 0xfe, 0x61, 0, 0xf8, 0]))).toEqual({
      text: "aø",
      encoding: "UTF-16",
    });
    expect(decodeFile(new Uint8Array([0x42, 0x6a, 0xf8, 0x72, 0x67]))).toEqual({
      text: "Bjørg",
      encoding: "Windows-1252",
    });
  });
  it("that is empty, no text or too large is refused with what to do", () => {
    for (const bytes of [
      new Uint8Array(),
      new TextEncoder().encode(" \n"),
      new Uint8Array([80, 75, 3, 4, 0, 0]),
      new Uint8Array(MOST_BYTES + 1).fill(65),
    ]) {
      expect(() => decodeFile(bytes)).toThrow(Refusal);
    }
    expect(() => parseCsv("code,name\n")).toThrow("no rows");
    expect(() => parseCsv(`code,name\n${"a,b\n".repeat(20_001)}`)).toThrow("at most 20000");
  });
  it("keeps the line each row begins on, past blank lines and texts of several lines", () => {
    const csv = parseCsv('\uFEFFcode;name\r\nA;"two\r\nlines"\r\n\r\nB;x\r\n');
    expect(csv.headings).toEqual(["code", "name"]);
    expect(csv.rows.map((row) => row.line)).toEqual([2, 5]);
  });
  it("with a quote that is never closed names the line", () => {
    expect(parseCsv('code,name\nA,one\nB,"two\n').problems).toMatchObject([
      { line: 3, wrong: expect.stringContaining("not closed") },
    ]);
  });
  it("is guessed by its headings, each column once", () => {
    expect(
      guessMapping("parts", ["Varenr", "Beskrivelse", "Innpris NOK", "Enhet", "Lager", "?"]),
    ).toMatchObject({
      code: 0,
      name: 1,
      costE4: 2,
      unit: 3,
      bin: 4,
      priceE4: null,
    });
    const guess = guessMapping("bikes", ["VIN", "Owner", "Make", "Model"]);
    expect(guess).toMatchObject({ importKey: 0, frameNumber: null, customerKey: 1, make: 2, model: 3 });
  });
});

describe("the rows of a price list", () => {
  it("come in with signs, codes, commas and blanks", () => {
    expect(first('code,name,cost,price,kind,size\nA,Jet,"$3,40",AUD 6.90,Jets,"142,5"')).toMatchObject({
      name: "Jet",
      costE4: 34_000,
      priceE4: 69_000,
      kind: "jet",
      sizeMilli: 142_500,
    });
    expect(first("code,name,cost,bin\nA,Jet,,")).toMatchObject({ costE4: undefined, bin: undefined });
    expect(first('code,name,cost\nBath,Ultrasonic bath,"1,150.00"')?.costE4).toBe(11_500_000);
  });
  it("in metres, litres and kilograms are kept in mm, ml and g, price and stock alike", () => {
    expect(first("code,name,unit,cost,price,opening stock\nFH,Hose,m,10.20,22.40,3.5")).toMatchObject({
      unit: "mm",
      costE4: 102,
      priceE4: 224,
      openingMilli: 3_500_000,
    });
  });
  it("finer than can be kept are rounded with a note, never in silence", () => {
    const { rows, notes } = parts("code,name,unit,cost\nVH,Hose,m,3.65");
    expect(rows[0]?.values.costE4).toBe(37);
    expect(notes).toEqual([{ line: 2, text: expect.stringContaining("0.00365") }]);
  });
  it("that are wrong are each named with line, column, value and remedy", () => {
    const { rows, problems } = parts(
      [
        "code,name,kind,unit,cost,opening stock,convention",
        ",No code,,,,,",
        "B,,,,,,",
        "C,x,gasketish,,,,",
        "D,x,,furlong,,,",
        "E,x,,,-1,,",
        "F,x,,,EUR 3,,",
        "G,x,,,1.23456,,",
        "H,x,,each,,2.5,",
        "I,x,,,,,,extra",
        "J,x,screw,,,,bore",
        `K,${"x".repeat(161)},,,,,`,
        "L,x,,,999999999,,",
        "OK,fine,,,1,,",
      ].join("\n"),
    );
    expect(rows.map((row) => row.key)).toEqual(["OK"]);
    expect(problems.map((p) => [p.line, p.column])).toEqual([
      [2, "code"],
      [3, "name"],
      [4, "kind"],
      [5, "unit"],
      [6, "cost"],
      [7, "cost"],
      [8, "cost"],
      [9, "opening stock"],
      [10, ""],
      [11, "convention"],
      [12, "name"],
      [13, "cost"],
    ]);
    expect(problems.every((p) => p.wrong !== "" && p.remedy !== "")).toBe(true);
    expect(problems[5]?.wrong).toContain("AUD");
  });
  it("that say the same twice are taken together, filling each other's blanks", () => {
    const { rows, problems, notes } = parts("code,name,cost,bin\nA,Jet,3.40,\nA,Jet,$3.40,A1\nB,Jet,1,");
    expect(problems).toEqual([]);
    expect(rows).toMatchObject([{ key: "A", line: 2, values: { costE4: 34_000, bin: "A1" } }, { key: "B" }]);
    expect(notes).toMatchObject([{ line: 3, text: expect.stringContaining("line 2") }]);
  });
  it("that contradict each other are all refused, each naming the other", () => {
    const { rows, problems } = parts("code,name,cost\nA,Jet,3.40\nB,Jet,1\nA,Jet,3.50");
    expect(rows.map((row) => row.key)).toEqual(["B"]);
    expect(problems).toMatchObject([
      { line: 2, value: "A", wrong: expect.stringContaining("line 4 with a different cost") },
      { line: 4, value: "A", wrong: expect.stringContaining("line 2 with a different cost") },
    ]);
  });
  it("need a column for every field that must be filled", () => {
    const csv = parseCsv("a,b\n1,2");
    const { problems } = readRows("parts", csv.headings, csv.rows, {}, terms);
    expect(problems.map((p) => p.wrong)).toEqual([
      "No column is chosen for code",
      "No column is chosen for name",
    ]);
  });
  it("never make the reader throw, whatever the cells hold", () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom("1,5", "$", "m", "-", "constructor", "__proto__", "1e9"),
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1, maxLength: 15 }), { maxLength: 8 }), (cells) => {
        const headings = [
          "code",
          "name",
          "kind",
          "unit",
          "size",
          "convention",
          "cost",
          "price",
          "min stock",
          "on hand",
        ];
        const rows = cells.map((row, at) => ({ line: at + 2, cells: row }));
        const read = readRows("parts", headings, rows, guessMapping("parts", headings), terms);
        const told = new Set([
          ...read.rows.map((r) => r.line),
          ...read.problems.map((p) => p.line),
          ...read.notes.map((n) => n.line),
        ]);
        for (const row of rows)
          if (row.cells.some((text) => text.trim() !== "")) expect(told.has(row.line)).toBe(true);
      }),
    );
  });
});

describe("the rows of a list of bikes", () => {
  it("turn miles into kilometres (1959 mile, 1.609344 km) where the file is in miles", () => {
    const csv = parseCsv("id,customer id,make,model,odometer\n1,7,Tarrant,Drover 580,10000");
    const read = (distance: "km" | "mi") =>
      readRows("bikes", csv.headings, csv.rows, guessMapping("bikes", csv.headings), { ...terms, distance })
        .rows[0]?.values.odometerKm;
    expect(read("mi")).toBe(16_093);
    expect(read("km")).toBe(10_000);
  });
});

describe("likeness of two records (judgement)", () => {
  const like = (a: Record<string, string>, b: Record<string, string>) =>
    likeCustomers(customerLooks(a), customerLooks(b));
  it("takes a phone's country code, a name's order and a mail's case for nothing", () => {
    expect(
      like({ name: "Nordmann, Kari", phone: "+47 900 11 222" }, { name: "KARI NORDMANN", phone: "90011222" }),
    ).toEqual({
      why: "the same name and phone",
      sure: true,
    });
    expect(
      like({ name: "Kari", email: "K@Example.org" }, { name: "Kari Nordmann", email: "k@example.org" })?.sure,
    ).toBe(true);
    expect(like({ name: "Ås" }, { name: "As" })?.sure).toBe(true);
  });
  it("never takes two of one name with other phones for one, nor two names on one phone", () => {
    expect(like({ name: "Kari N", phone: "90011222" }, { name: "Kari N", phone: "90011333" })?.sure).toBe(
      false,
    );
    expect(like({ name: "Kari N", phone: "90011222" }, { name: "Tor N", phone: "90011222" })?.sure).toBe(
      false,
    );
    expect(like({ name: "Kari N" }, { name: "Tor N" })).toBeNull();
  });
  it("is the same either way round, and finds nothing that shares no mark", () => {
    const text = fc.constantFrom("", "Kari", "Kari Nordmann", "Tor Nordmann", "nordmann kari");
    const one = fc.record({
      name: text,
      phone: fc.constantFrom("", "90011222", "+4790011222", "12"),
      email: fc.constantFrom("", "a@example.org", "A@example.org", "b@example.org"),
    });
    fc.assert(
      fc.property(one, one, (a, b) => {
        expect(like(a, b)).toEqual(like(b, a));
        const marks = customerMarks(customerLooks(b));
        if (like(a, b))
          expect(customerMarks(customerLooks(a)).some((mark) => marks.includes(mark))).toBe(true);
      }),
    );
  });
});

describe("how the rows of a file are known", () => {
  const way = (text: string, noun: "customers" | "bikes" = "customers") => {
    const csv = parseCsv(text);
    return guessFile(noun, csv.headings, csv.rows);
  };
  it("is a number that is filled and differs in every row, else name and phone", () => {
    expect(way("Kundenr,Navn\n1,A\n2,B")).toMatchObject({ way: "column", map: { importKey: 0, name: 1 } });
    expect(way("Kundenr,Navn\n1,A\n1,B")).toMatchObject({ way: "words", map: { importKey: null } });
    expect(way("Kundenr,Navn\n1,A\n,B")).toMatchObject({ way: "words", map: { importKey: null } });
    expect(way("Fornavn,Etternavn,Tlf,Postnr,Poststed\nA,B,1,2,3")).toMatchObject({
      way: "words",
      map: { name: 0, lastName: 1, phone: 2, postcode: 3, city: 4 },
    });
  });
  it("keeps frame numbers, also where they are the key", () => {
    const rows = "Rammenr,Eier,Merke,Modell,Reg.nr,Årsmodell,Forgasser";
    expect(way(`${rows}\nF1,A,Orme,X,AB,2001,vakuum\nF2,A,Orme,X,AC,2001,slid`, "bikes")).toMatchObject({
      way: "column",
      map: { importKey: 0, frameNumber: 0, customerName: 1, plate: 4, year: 5, carburettorType: 6 },
    });
    expect(way(`${rows}\nF1,A,Orme,X,AB,2001,\n,A,Orme,X,AC,2001,`, "bikes")).toMatchObject({
      way: "words",
      map: { importKey: null, frameNumber: 0 },
    });
  });
});

describe("words of the trade in Norwegian and German (common practice, no source)", () => {
  it("are understood as headings and as values, marks and case left out", () => {
    const csv = parseCsv(
      "Varenummer;Benevnelse;Varegruppe;Enhet;Størrelse;Nummerering;Plassering;Innkjøpspris;Utsalgspris;Antall\n1;Dyse;Hoveddyse;stk.;120;boring;A1;10,50;25;3\n2;Nål;Nål;Stk;;;;;;\n3;Slange;SLANGE;meter;;;;;;\n4;Pakning;Dichtung;Stück;;;;;;",
    );
    const { map } = guessFile("parts", csv.headings, csv.rows);
    const { rows, problems } = readRows("parts", csv.headings, csv.rows, map, {
      currency: "NOK",
      mark: ",",
      distance: "km",
    });
    expect(problems).toEqual([]);
    expect(rows.map((row) => [row.values.kind, row.values.unit])).toEqual([
      ["jet", "each"],
      ["needle", "each"],
      ["hose", "mm"],
      ["seal", "each"],
    ]);
    expect(rows[0]?.values).toMatchObject({
      sizeMilli: 120_000,
      convention: "bore",
      bin: "A1",
      costE4: 105_000,
      priceE4: 250_000,
      openingMilli: 3000,
    });
  });
});
