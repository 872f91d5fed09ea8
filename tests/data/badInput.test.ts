import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { previewImport, runImport } from "@/lib/data/imports/run";
import { addToDrafts } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { listSuppliers } from "@/lib/data/orders/suppliers";
import { previewPriceList, takePriceList } from "@/lib/data/parts/priceList";
import { changePart, createPart } from "@/lib/data/parts/save";
import { splitPart } from "@/lib/data/stock/counts";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { decodeFile, MOST_BYTES, MOST_ROWS } from "@/lib/domain/imports/decode";
import { guessMapping } from "@/lib/domain/imports/guess";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";
import { ImportSchema } from "@/lib/schemas/imports";
import { DeliverySchema, PriceListSchema } from "@/lib/schemas/orders";
import { NewPartSchema, PartSchema } from "@/lib/schemas/parts";
import { ReceiveSchema } from "@/lib/schemas/stockMoves";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let made = 0;

const words = (more: Record<string, string> = {}) => ({
  code: `BI-${++made}`,
  name: "Main jet",
  kind: "other",
  unit: "each",
  supplier: "Marl",
  ...more,
});
const part = (more: Record<string, string> = {}) => createPart(a, NewPartSchema.parse(words(more)));

/** All that stock could have changed: it must read the same after a refusal. */
const everything = async (shop: ShopHandle) =>
  JSON.stringify(
    await Promise.all([
      shop.read.part.findMany({ orderBy: { id: "asc" } }),
      shop.read.move.count(),
      shop.read.orderLine.findMany({ orderBy: { id: "asc" } }),
      shop.read.partSupplier.findMany({ orderBy: { id: "asc" } }),
      shop.read.importRun.count(),
      shop.read.auditEntry.count(),
    ]),
  );

/** The refusal of an act that must change nothing in either shop. */
async function refused(act: () => Promise<unknown>): Promise<Refusal> {
  const before = await Promise.all([everything(a), everything(b)]);
  const cause = await act().then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  expect(cause).toBeInstanceOf(Refusal);
  expect(await Promise.all([everything(a), everything(b)])).toEqual(before);
  const refusal = cause as Refusal;
  expect(refusal.message).toMatch(/\.$/);
  expect(refusal.remedy).toMatch(/\.$/);
  return refusal;
}

const issues = (result: { error?: { issues: { path: PropertyKey[]; message: string }[] } | undefined }) =>
  Object.fromEntries((result.error?.issues ?? []).map((issue) => [issue.path.join("."), issue.message]));

beforeAll(async () => {
  ({ a, b } = await twoShops());
});

describe("a receipt", () => {
  it("of less than nothing, of nothing or of no number is refused in its field", async () => {
    for (const quantity of ["-3", "0", "", "three", "1e3", "1.2345", "NaN"])
      expect(issues(ReceiveSchema.safeParse({ partId: "1", quantity }))).toEqual({
        quantity: expect.stringMatching(/^Enter/),
      });
    const id = await part();
    const refusal = await refused(() =>
      recordMove(a, { partId: id, kind: "receipt", quantityMilli: -3_000 }),
    );
    expect(refusal.remedy).toBe("Enter how much came in.");
  });

  it("of a broken jet is refused, and in a delivery its line is named and the other lines stay out as well", async () => {
    const [one, two] = [await part({ opening: "1" }), await part()];
    const loose = await refused(() => recordMove(a, { partId: one, kind: "receipt", quantityMilli: 2_500 }));
    expect(loose.message).toBe("This part is counted in pieces.");
    const [orderId] = await addToDrafts(a, [
      { partId: one, quantityMilli: 4_000 },
      { partId: two, quantityMilli: 4_000 },
    ]);
    const draft = await getOrder(a, orderId as number, true);
    await placeOrder(a, { orderId: orderId as number, version: draft?.version ?? 0 });
    const [first, second] = draft?.lines ?? [];
    const delivery = await refused(() =>
      receiveOrder(a, {
        orderId: orderId as number,
        lines: [
          { lineId: first?.id ?? 0, quantityMilli: 2_000 },
          { lineId: second?.id ?? 0, quantityMilli: 1_500 },
        ],
      }),
    );
    expect(delivery.message).toBe(`${second?.part.code}: This part is counted in pieces.`);
    expect(delivery.fields).toEqual({ [`lines.${second?.id}.quantity`]: "Enter a whole number." });
    const sent = DeliverySchema.safeParse({
      orderId: "1",
      lines: { "7": { quantity: "2", cost: "" }, "8": { quantity: "-1", cost: "" } },
    });
    expect(issues(sent)).toEqual({ "lines.8.quantity": expect.stringMatching(/above 0/) });
  });

  it("is refused ahead of its day, for a part that is not there, and beyond what a shelf holds", async () => {
    const id = await part();
    const move = { partId: id, kind: "receipt", quantityMilli: 1_000 } as const;
    await refused(() => recordMove(a, { ...move, at: new Date("2027-06-01T00:00:00Z") }));
    await refused(() => recordMove(a, { ...move, partId: 999_999 }));
    await refused(() => recordMove(a, { ...move, quantityMilli: 3_000_000_000 }));
  });
});

describe("an assortment", () => {
  it("with a broken jet in it stays shut, and the size is named", async () => {
    const box = await part({ opening: "1", cost: "40" });
    const [jet, other] = [await part(), await part()];
    const refusal = await refused(() =>
      splitPart(a, {
        partId: box,
        quantityMilli: 1_000,
        into: [
          { partId: jet, quantityMilli: 2_000 },
          { partId: other, quantityMilli: 500 },
        ],
      }),
    );
    expect(refusal.message).toMatch(/^BI-\d+: .*pieces/);
    expect(refusal.fields).toEqual({ [`into.${other}`]: "Enter a whole number." });
    await refused(() =>
      splitPart(a, { partId: box, quantityMilli: 2_000, into: [{ partId: jet, quantityMilli: 1_000 }] }),
    );
  });
});

describe("a part", () => {
  it("in an unknown unit, or half a jet of it, is refused in its field", async () => {
    expect(issues(NewPartSchema.safeParse(words({ unit: "furlong" })))).toEqual({
      unit: "Choose how it is counted.",
    });
    await refused(() => part({ opening: "1.5" }));
  });

  it("under another part's code is refused, when it is added and when it is changed", async () => {
    const code = words().code;
    await part({ code });
    expect((await refused(() => part({ code }))).fields.code).toBeTruthy();
    const other = await part();
    const changed = PartSchema.parse({ ...words(), code, id: String(other), version: "1", active: "true" });
    expect((await refused(() => changePart(a, changed))).fields.code).toBeTruthy();
  });
});

/** What stands wrong in row n of the file, which is on line n + 1. */
const BAD = new Map([
  [17, { row: "P17,Jet,jett,each,1.00,1", column: "kind" }],
  [400, { row: "P400,Jet,jet,furlong,1.00,1", column: "unit" }],
  [1_234, { row: ",Jet,jet,each,1.00,1", column: "code" }],
  [2_500, { row: "P2500,Jet,jet,each,four,1", column: "cost" }],
  [3_999, { row: "P3999,Jet,jet,each,1.00,1.5", column: "opening stock" }],
  [4_200, { row: "P4200,Jet,jet,each,1.00,-3", column: "opening stock" }],
  [5_000, { row: 'P5000,"Jet, hex",jet,each,1.00,1,extra', column: "" }],
]);
const HEADING = "code,name,kind,unit,cost,opening stock";
const good = (n: number) => `P${n},Part ${n},other,each,${(n % 90) + 1}.50,1`;
const file = (text: string) => {
  const guess = guessMapping("parts", parseCsv(text).headings);
  const map = Object.fromEntries(
    Object.entries(guess).map(([key, column]) => [key, column === null ? "" : String(column)]),
  );
  return ImportSchema.parse({ noun: "parts", fileName: "list.csv", text, map });
};

describe("a file of 5 000 parts, seven of them bad", () => {
  it("names all seven with line, column and remedy, and none of the 5 000 comes in", async () => {
    const rows = Array.from({ length: 5_000 }, (_, at) => BAD.get(at + 1)?.row ?? good(at + 1));
    const input = file([HEADING, ...rows].join("\n"));
    const view = await previewImport(a, input);
    expect(view.rows).toBe(5_000);
    expect(view.problems.map((problem) => [problem.line, problem.column])).toEqual(
      [...BAD].map(([row, { column }]) => [row + 1, column]),
    );
    expect(view.problems.every((problem) => problem.wrong !== "" && problem.remedy !== "")).toBe(true);
    const refusal = await refused(() => runImport(a, input));
    expect(refusal.message).toContain("7 of 5000 rows cannot come in, so nothing did. Line 18: kind");
  });

  it("comes in whole once they are mended", async () => {
    const rows = Array.from({ length: 5_000 }, (_, at) => good(at + 1));
    expect(await runImport(a, file([HEADING, ...rows].join("\n")))).toMatchObject({
      added: 5_000,
      problems: [],
    });
    expect(await b.read.part.count()).toBe(0);
    expect(await problemsOf(a)).toEqual([]);
  }, 120_000);
});

describe("a supplier's price list", () => {
  const list = async (text: string) => {
    const {
      code = null,
      costE4 = null,
      supplierCode = null,
    } = guessMapping("prices", parseCsv(text).headings);
    const supplierId = (await listSuppliers(a)).find((one) => one.name === "Marl")?.id;
    return PriceListSchema.parse({
      supplierId: String(supplierId),
      fileName: "list.csv",
      text,
      map: { code: String(supplierCode ?? code), costE4: String(costE4) },
      mark: ".",
    });
  };

  it("of any writing says the same: semicolons, a byte order mark, quoted line ends, decimal commas", async () => {
    const id = await part({ code: "PL-1", cost: "4.00", supplierCode: "pl1" });
    for (const text of [
      "code,description,cost\npl1,Jet,4.60\n",
      "\uFEFFcode,description,cost\r\npl1,Jet,4.60\r\n",
      "code;description;cost\npl1;Jet;4,60\n",
      'code;description;cost\n"pl1";"Jet\nof brass; round";"4,60"\n',
      "code\tdescription\tcost\npl1\tJet\t4.60\n",
    ])
      expect((await previewPriceList(a, await list(text))).changes, text).toMatchObject([
        { partId: id, fromE4: 40_000, toE4: 46_000 },
      ]);
  });

  it("names the line a bad row begins on, past texts of several lines, and takes nothing", async () => {
    await part({ code: "PL-2", cost: "4.00", supplierCode: "pl2" });
    const text = 'code;description;cost\npl2;"Jet\nround\nbrass";5,00\npl3;Jet;-1,00\npl4;Jet;much\n';
    const input = await list(text);
    expect((await previewPriceList(a, input)).problems.map((problem) => problem.line)).toEqual([5, 6]);
    const refusal = await refused(() => takePriceList(a, input));
    expect(refusal.message).toMatch(/^2 of 3 rows cannot be read, so nothing was taken\. Line 5/);
  });
});

describe("a file as it is chosen", () => {
  const bytes = (text: string) => new TextEncoder().encode(text);

  it("is read in the encoding it has, and one that is none of them is refused", () => {
    // Windows-1252: ø is F8, å is E5.
    const old = Uint8Array.from([...bytes("code,name\nN1,N"), 0xe5, ...bytes("l-"), 0xf8, 10]);
    expect(decodeFile(old)).toMatchObject({ encoding: "Windows-1252", text: "code,name\nN1,Nål-ø\n" });
    const wide = Uint8Array.from([0xff, 0xfe, ...[..."code\nå"].flatMap((c) => [c.charCodeAt(0), 0])]);
    expect(decodeFile(wide)).toMatchObject({ encoding: "UTF-16", text: expect.stringContaining("code\nå") });
    // The first bytes of a zip, which is what a spreadsheet's own file is.
    for (const none of [
      [0x50, 0x4b, 3, 4, 20, 0, 6, 0],
      [0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0],
    ])
      expect(() => decodeFile(Uint8Array.from(none))).toThrow(/no text file/);
    expect(() => decodeFile(new Uint8Array())).toThrow(/empty/);
  });

  it("is refused when it is too big, in bytes or in rows, with what to do", async () => {
    const big = () => decodeFile(new Uint8Array(MOST_BYTES + 1).fill(65));
    expect(big).toThrow(/at most 5 MB/);
    expect(decodeFile(new Uint8Array(MOST_BYTES).fill(65)).text).toHaveLength(MOST_BYTES);
    const rows = (count: number) => `code,name\n${"A,Jet\n".repeat(count)}`;
    expect(parseCsv(rows(MOST_ROWS)).rows).toHaveLength(MOST_ROWS);
    expect(() => parseCsv(rows(MOST_ROWS + 1))).toThrow(Refusal);
    // Sent past the page, it is refused at the door as well.
    const text = `code,name\nA,${"x".repeat(MOST_BYTES * 1.1)}`;
    const sent = ImportSchema.safeParse({ noun: "parts", text, map: {} });
    expect(issues(sent).text).toMatch(/larger than 5 MB/);
    const small = file("code,name\nA,Jet");
    await refused(() => runImport(a, { ...small, text: rows(MOST_ROWS + 1) }));
  });

  it("with semicolons, a byte order mark and quoted line ends reads as the plain one does", () => {
    const plain = parseCsv('code,name\nA,"Jet\nround"\nB,Needle\n');
    for (const text of [
      '\uFEFFcode,name\nA,"Jet\nround"\nB,Needle\n',
      'code;name\nA;"Jet\nround"\nB;Needle\n',
      '\uFEFFcode;name\r\nA;"Jet\nround"\r\nB;Needle\r\n',
    ])
      expect(parseCsv(text)).toEqual(plain);
    expect(plain.rows.map((row) => row.line)).toEqual([2, 4]);
  });
});
