import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { changeCustomer, getCustomerToEdit } from "@/lib/data/customers/customers";
import { listImports } from "@/lib/data/imports/list";
import { previewImport, runImport, usualMark } from "@/lib/data/imports/run";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { decodeFile } from "@/lib/domain/imports/decode";
import { guessMapping } from "@/lib/domain/imports/guess";
import type { ImportNoun } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";
import { CustomerSchema } from "@/lib/schemas/customers";
import { ImportSchema } from "@/lib/schemas/imports";
import { type TwoShops, twoShops } from "../support/shops";
import { FULL } from "../support/size";

let shops: TwoShops;
beforeEach(async () => {
  shops = await twoShops();
});

/** A file as the screen posts it, with the columns that are guessed. */
function file(noun: ImportNoun, text: string, more: Record<string, unknown> = {}) {
  const guess = guessMapping(noun, parseCsv(text).headings);
  const map = Object.fromEntries(
    Object.entries(guess).map(([key, column]) => [key, column === null ? "" : String(column)]),
  );
  return ImportSchema.parse({ noun, fileName: `${noun}.csv`, text, map, ...more });
}
const partCount = (shop: ShopHandle) => shop.read.part.count();

/** On hand of every part equals its moves summed. */
async function ledgerHolds(shop: ShopHandle) {
  const sums = await shop.read.move.groupBy({
    by: ["partId"],
    _sum: { quantityMilli: true },
    orderBy: { partId: "asc" },
  });
  const moved = new Map(sums.map((row) => [row.partId, row._sum.quantityMilli]));
  for (const part of await shop.read.part.findMany({
    select: { id: true, code: true, onHandMilli: true },
    orderBy: { id: "asc" },
    take: 1000,
  }))
    expect(part.onHandMilli, part.code).toBe(moved.get(part.id) ?? 0);
}

const shipped = decodeFile(readFileSync(join(import.meta.dirname, "../../demo/price-list.csv"))).text;

describe("the demo price list", () => {
  it("comes in whole: 300 parts from 306 rows, repeats taken together, commas and signs understood", async () => {
    const { a, b } = shops;
    const view = await runImport(a, file("parts", shipped));
    expect(view).toMatchObject({ rows: 306, added: 300, changed: 0, unchanged: 0, problems: [] });
    expect(view.notes.filter((note) => note.text.startsWith("Says the same"))).toHaveLength(6);
    expect(view.notes.filter((note) => note.text.includes("to four decimals"))).toMatchObject([
      { text: expect.stringContaining("3,65") },
    ]);
    expect(await partCount(a)).toBe(300);
    expect(await partCount(b)).toBe(0);
    const part = (code: string) => a.read.part.findUniqueOrThrow({ where: { code } });
    expect(await part("HX-1425")).toMatchObject({
      kind: "jet",
      family: "HX main",
      sizeMilli: 142_500,
      convention: "bore",
      costE4: 34_000,
      priceE4: 69_000,
    });
    expect(await part("HX-1100")).toMatchObject({ costE4: 34_000, priceE4: 69_000 });
    expect(await part("FH-6")).toMatchObject({
      unit: "mm",
      costE4: 102,
      priceE4: 224,
      onHandMilli: 3_500_000,
      averageE4: 102,
    });
    expect(await part("TLK-M")).toMatchObject({
      unit: "ml",
      costE4: 6200,
      onHandMilli: 50_000,
      supplier: "Wattlebridge Trade Fluids",
    });
    expect(await part("BTH-1")).toMatchObject({ costE4: 11_500_000, onHandMilli: 0 });
    expect(await a.read.part.count({ where: { kind: "jet", convention: "flow" } })).toBe(48);
    await ledgerHolds(a);
  });

  it("brought in again changes nothing and books no stock twice", async () => {
    const { a } = shops;
    await runImport(a, file("parts", shipped));
    const moves = await a.read.move.count();
    const again = await runImport(a, file("parts", shipped));
    expect(again).toMatchObject({ added: 0, changed: 0, unchanged: 300, problems: [] });
    expect(await a.read.move.count()).toBe(moves);
    expect((await listImports(a)).map((run) => [run.rows, run.added, run.changed])).toEqual([
      [306, 0, 0],
      [306, 300, 0],
    ]);
  });

  it("broken in seven places is refused whole, and every broken row is named", async () => {
    const { a } = shops;
    const lines = shipped.split("\r\n");
    const breaks: [line: number, from: string | RegExp, to: string][] = [
      [10, "HX-1200", ""],
      [20, ",jet,", ",jett,"],
      [31, /3\.40|"3,40"/, "three"],
      [45, "each", "box"],
      [52, /4\.15|"4,15"/, "NOK 4.15"],
      [62, "3.40", "3.45"],
      [90, /,\d*$/, ",1.5"],
    ];
    for (const [line, from, to] of breaks) {
      const before = lines[line - 1] ?? "";
      lines[line - 1] = before.replace(from, to);
      expect(lines[line - 1], `line ${line} was not broken`).not.toBe(before);
    }
    const input = file("parts", lines.join("\r\n"));
    const view = await previewImport(a, input);
    // Line 62 repeats the jet of line 19 at another cost: both are named.
    expect(view.problems.map((problem) => [problem.line, problem.column])).toEqual([
      [10, "Part no"],
      [19, "Part no"],
      [20, "Type"],
      [31, "Cost AUD"],
      [45, "Unit"],
      [52, "Cost AUD"],
      [62, "Part no"],
      [90, "On hand"],
    ]);
    expect(view.problems.every((problem) => problem.wrong && problem.remedy)).toBe(true);
    const refusal = await runImport(a, input).catch((cause: unknown) => cause);
    expect(refusal).toBeInstanceOf(Refusal);
    expect((refusal as Refusal).message).toContain("8 of 306 rows cannot come in, so nothing did. Line 10");
    expect(await partCount(a)).toBe(0);
    expect(await listImports(a)).toEqual([]);
  });
});

describe("parts", () => {
  it("from a second file are changed where filled, kept where blank", async () => {
    const { a } = shops;
    await runImport(a, file("parts", "code,name,cost,bin\nA,Jet,3.40,A1\nB,Needle,11,"));
    const view = await runImport(
      a,
      file("parts", "code,name,cost,bin\nA,Jet,3.60,\nB,Needle,11,\nC,Spring,6,"),
    );
    expect(view).toMatchObject({ added: 1, changed: 1, unchanged: 1 });
    expect(await a.read.part.findUnique({ where: { code: "A" } })).toMatchObject({
      costE4: 36_000,
      bin: "A1",
      version: 2,
    });
  });
  it("open their stock later if nothing has moved, by the ledger's own rules", async () => {
    const { a } = shops;
    await runImport(a, file("parts", "code,name,cost\nA,Jet,3.40\nB,Jet,3.40"));
    const b = await a.read.part.findUniqueOrThrow({ where: { code: "B" } });
    await recordMove(a, { partId: b.id, kind: "receipt", quantityMilli: 2000, unitCostE4: 34_000 });
    const view = await runImport(a, file("parts", "code,name,opening stock\nA,Jet,5\nB,Jet,5"));
    expect(view).toMatchObject({ changed: 1, unchanged: 1 });
    expect(view.notes).toMatchObject([{ line: 3, text: expect.stringContaining("not booked again") }]);
    const onHand = await a.read.part.findMany({
      select: { onHandMilli: true, averageE4: true },
      orderBy: { code: "asc" },
      take: 9,
    });
    expect(onHand).toEqual([
      { onHandMilli: 5000, averageE4: 34_000 },
      { onHandMilli: 2000, averageE4: 34_000 },
    ]);
    await ledgerHolds(a);
  });
  it("that have moved keep the unit their stock is counted in", async () => {
    const { a } = shops;
    await runImport(a, file("parts", "code,name,unit,opening stock\nT,Threadlocker,ml,50"));
    const view = await previewImport(a, file("parts", "code,name,unit\nT,Threadlocker,g"));
    expect(view.problems).toMatchObject([{ line: 2, column: "unit", wrong: expect.stringContaining("ml") }]);
  });
  it("sent twice with one key come in once, and the answer is the same", async () => {
    const { a } = shops;
    const input = file("parts", "code,name\nA,Jet");
    const [first, second] = await Promise.all([
      runImport(a, input, "import-key-1"),
      runImport(a, input, "import-key-1"),
    ]);
    expect(second).toEqual(first);
    expect(await listImports(a)).toHaveLength(1);
  });
  it("from two people at once make no doubles", async () => {
    const { a } = shops;
    const input = file("parts", "code,name,opening stock\nA,Jet,3");
    const both = await Promise.all([runImport(a, input), runImport(a, input)]);
    expect(both.map((view) => view.added).sort()).toEqual([0, 1]);
    await ledgerHolds(a);
  });
  it("chosen from a column the file does not have are refused", async () => {
    const input = { ...file("parts", "code,name\nA,Jet"), map: { code: 0, name: 7 } };
    await expect(previewImport(shops.a, input)).rejects.toThrow("does not have");
  });
});

describe("prices", () => {
  it("change known parts only, in the shop's own way of writing numbers", async () => {
    const { a, b } = shops;
    await runImport(b, file("parts", "code;name;cost\nA;Dyse;3,40"));
    const list = "varenr;innpris NOK;utpris\nA;kr 1.250,50;2 400,-";
    const view = await runImport(b, file("prices", list, { mark: usualMark("nb-NO") }));
    expect(view).toMatchObject({ added: 0, changed: 1, problems: [] });
    expect(await b.read.part.findUnique({ where: { code: "A" } })).toMatchObject({
      costE4: 12_505_000,
      priceE4: 24_000_000,
    });
    const refused = await previewImport(a, file("prices", "code,price\nA,3"));
    expect(refused.problems).toMatchObject([
      { line: 2, column: "code", value: "A", wrong: "is no part of this shop" },
    ]);
  });
});

describe("customers and bikes", () => {
  const customers =
    "customer no,name,e-mail,phone,company\n7,Ines Valdborg,ines@example.org,0400 1,\n8,Marlow Freight,,,yes";
  const bikes =
    "vin,customer id,make,model,year,rego,odometer,cc,cylinders,carb type\nF1,7,Orme,Twin 750,2004,S12AB,24310,745,2,cv\nF2,8,Orme,Twin 750,2005,,,745,2,cv";

  it("come in by their keys, make the model card and carburettors, and a second run makes no doubles", async () => {
    const { a, b } = shops;
    expect(await runImport(a, file("customers", customers))).toMatchObject({ added: 2 });
    const view = await runImport(a, file("bikes", bikes));
    expect(view).toMatchObject({ added: 2, problems: [] });
    expect(view.notes).toMatchObject([
      { line: 2, text: expect.stringContaining("model card for Orme Twin 750") },
    ]);
    const stored = await a.read.bike.findMany({
      select: {
        plate: true,
        searchKey: true,
        customer: { select: { name: true } },
        carburettors: { select: { label: true }, orderBy: { id: "asc" } },
      },
      orderBy: { id: "asc" },
      take: 9,
    });
    expect(stored[0]).toMatchObject({
      plate: "S12AB",
      customer: { name: "Ines Valdborg" },
      carburettors: [{ label: "Left" }, { label: "Right" }],
    });
    expect(stored[0]?.searchKey).toContain("valdborg");
    expect(await runImport(a, file("customers", customers))).toMatchObject({
      added: 0,
      changed: 0,
      unchanged: 2,
    });
    expect(await runImport(a, file("bikes", bikes))).toMatchObject({ added: 0, changed: 0, unchanged: 2 });
    expect(await b.read.customer.count()).toBe(0);
  });

  it("tell a half-typed form what the import changed", async () => {
    const { a } = shops;
    await runImport(a, file("customers", customers));
    await runImport(a, file("customers", customers.replace("0400 1", "0400 2")));
    const ines = await a.read.customer.findUniqueOrThrow({ where: { importKey: "7" } });
    const late = await changeCustomer(
      a,
      ines.id,
      CustomerSchema.parse({ name: "Ines V", version: "1" }),
    ).catch((cause: unknown) => cause);
    expect((late as Refusal).fields.phone).toBe(
      'Test Owner (import) changed phone from "0400 1" to "0400 2".',
    );
    expect((await getCustomerToEdit(a, ines.id))?.name).toBe("Ines Valdborg");
  });

  it("without an owner, a card or a clear name are each named", async () => {
    const { a } = shops;
    await runImport(a, file("customers", "id,name\n1,Same Name\n2,Same Name\n3,Only One"));
    const text =
      "id,customer id,customer,make,model,year\n1,9,,Orme,X,\n2,,Same Name,Orme,X,\n3,,Nobody,Orme,X,\n4,,Only One,Orme,X,\n5,,,Orme,X,";
    const view = await previewImport(a, file("bikes", text));
    const told = view.problems.map((problem) => `${problem.line} ${problem.column}: ${problem.wrong}`);
    expect(told).toContain("2 customer id: is no customer's key here");
    expect(told).toContain("3 customer: is the name of 2 customers");
    expect(told).toContain("4 customer: is no customer here");
    expect(told).toContain("2 model: has no model card for Orme X, and neither have 3 more rows");
    expect(told).toContain("6 customer id: names no customer");
  });

  it("never turn an odometer back or a bike into another model", async () => {
    const { a } = shops;
    await runImport(a, file("customers", customers));
    await runImport(a, file("bikes", bikes));
    const lower = await runImport(a, file("bikes", bikes.replace("24310", "20000")));
    expect(lower).toMatchObject({ changed: 0, notes: [{ text: expect.stringContaining("24310") }] });
    const other = await previewImport(a, file("bikes", bikes.replaceAll("Twin 750", "Twin 900")));
    expect(other.problems.map((problem) => problem.line)).toEqual([2, 3]);
  });
});

/** The most that an import takes, at full size. */
const MANY = FULL ? 20_000 : 6_000;

it(`${MANY} new rows, and the same rows all changed, each come in within one transaction`, {
  timeout: 120_000,
}, async () => {
  const { a } = shops;
  const list = (cost: string) =>
    `code,name,cost,opening stock\n${Array.from({ length: MANY }, (_, at) => `P${at},Part ${at},${cost},1`).join("\n")}`;
  expect(await runImport(a, file("parts", list("1.00")))).toMatchObject({ added: MANY });
  expect(await runImport(a, file("parts", list("2.00")))).toMatchObject({ changed: MANY });
  const sum = await a.read.part.aggregate({ _sum: { onHandMilli: true, costE4: true } });
  expect(sum._sum).toEqual({ onHandMilli: MANY * 1000, costE4: MANY * 20_000 });
});

it("a file wrong in every row names the first thousand, says how many rows are wrong and how much is not listed", async () => {
  const rows = Array.from({ length: 1500 }, (_, n) => `K-${n},part ${n},dear`);
  const view = await previewImport(shops.a, file("parts", `code,name,cost\n${rows.join("\n")}`));
  expect(view).toMatchObject({ rows: 1500, bad: 1500, unlisted: 500 });
  expect(view.problems).toHaveLength(1000);
  expect(view.problems[0]).toMatchObject({ line: 2, column: "cost", value: "dear" });
  await expect(runImport(shops.a, file("parts", `code,name,cost\n${rows.join("\n")}`))).rejects.toThrow(
    "1500 of 1500 rows cannot come in, so nothing did. Line 2: cost",
  );
  expect(await partCount(shops.a)).toBe(0);
});
