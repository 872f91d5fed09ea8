import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { guessMark, readAmount } from "@/lib/domain/bank/amounts";
import { guessDates, readDay } from "@/lib/domain/bank/dates";
import { guessColumns } from "@/lib/domain/bank/guess";
import { propose } from "@/lib/domain/bank/propose";
import { readBankList } from "@/lib/domain/bank/readList";
import { addingUpTo } from "@/lib/domain/bank/subset";
import type { BankTerms, OpenItem, Reason, WaitingLine } from "@/lib/domain/bank/types";
import { kidOf } from "@/lib/domain/money/checkDigits";
import { parseCsv } from "@/lib/schemas/csv";
import { FULL } from "../support/size";

const runs = { numRuns: FULL ? 1000 : 150 };
const terms: BankTerms = { dates: "dmy", mark: ".", currency: "AUD" };
const read = (text: string, more: Partial<BankTerms> = {}) => {
  const { headings, rows } = parseCsv(text);
  return readBankList(headings, rows, guessColumns(headings), { ...terms, ...more });
};

describe("a bank's list", () => {
  it("is read with days in any order and amounts in either sign", () => {
    for (const [text, order, day] of [
      ["25.11.2026", "dmy", "2026-11-25"],
      ["25/11/26", "dmy", "2026-11-25"],
      ["11/25/2026", "mdy", "2026-11-25"],
      ["2026-11-25", "ymd", "2026-11-25"],
      ["20261125", "ymd", "2026-11-25"],
      ["25112026", "dmy", "2026-11-25"],
      ["2026-11-25 10:00", "ymd", "2026-11-25"],
      ["31.11.2026", "dmy", null],
      ["2026-11-25", "dmy", null],
      ["1.1.126", "dmy", null],
      ["soon", "dmy", null],
    ] as const)
      expect(readDay(text, order), text).toBe(day);
    expect(guessDates(["03/04/2026", "25/11/2026"], "mdy")).toBe("dmy");
    expect(guessDates(["03/04/2026"], "mdy")).toBe("mdy");
    expect(guessDates(["2026-04-03"], "dmy")).toBe("ymd");
    for (const [text, minor] of [
      ["1,234.50", 123_450],
      ["-12", -1200],
      ["12.00-", -1200],
      ["(12.00)", -1200],
      ["+12", 1200],
      ["$12.34", 1234],
      ["AUD 12.34", 1234],
      ["1 234,50", 123_450],
    ] as const)
      expect(readAmount(text, ".", "AUD"), text).toEqual({ minor });
    expect(readAmount("1.250", ",", "NOK")).toEqual({ minor: 125_000 });
    expect(readAmount("12.345.6", ".", "AUD")).toHaveProperty("wrong");
    expect(readAmount("99999999999", ".", "AUD")).toMatchObject({ wrong: "is larger than can be kept" });
    expect([guessMark(["100", "1.234,50"], "."), guessMark(["100"], ",")]).toEqual([",", ","]);
  });

  it("has its columns guessed, one amount or what came in and went out, in English and Norwegian", () => {
    expect(guessColumns(["Date", "Description", "Amount", "Balance"])).toMatchObject({
      date: 0,
      text: 1,
      amount: 2,
    });
    expect(
      guessColumns(["Bokført dato", "Forklaring", "Ut fra konto", "Inn på konto", "KID", "Avsender"]),
    ).toEqual({
      date: 0,
      text: 1,
      moneyOut: 2,
      moneyIn: 3,
      reference: 4,
      payer: 5,
      amount: null,
    });
  });

  it("tells every bad row with its line and column, and takes the others", () => {
    const { rows, problems } = read(
      "Date;Debit;Credit;Text\n25.11.2026;;100,00;Invoice 2001\n31.11.2026;;5;x\n26.11.2026;30,00;;Fee\n27.11.2026;;;y\n27.11.2026;;abc;z",
      { mark: "," },
    );
    expect(rows.map(({ line, bookedOn, amountMinor, text }) => [line, bookedOn, amountMinor, text])).toEqual([
      [2, "2026-11-25", 10_000, "Invoice 2001"],
      [4, "2026-11-26", -3000, "Fee"],
    ]);
    expect(problems.map(({ line, column, wrong }) => [line, column, wrong])).toEqual([
      [3, "Date", "is no day in the order that was chosen"],
      [5, "", "moves no money"],
      [6, "Credit", "is no number"],
    ]);
  });

  it("gives lines that say the same keys of their own, and the same file the same keys", () => {
    const text = "Date,Amount,Text\n25.11.2026,5,Thanks\n25.11.2026,5,Thanks\n25.11.2026,5,Thanks";
    const keys = read(text).rows.map((row) => row.key);
    expect(new Set(keys).size).toBe(3);
    expect(read(text).rows.map((row) => row.key)).toEqual(keys);
    expect(new Set(read(text).rows.map((row) => row.rowKey)).size).toBe(3);
  });
});

const item = (id: number, leftMinor: number, more: Partial<OpenItem> = {}): OpenItem => ({
  kind: "invoice",
  id,
  written: String(2000 + id),
  kid: "",
  customerId: 1,
  customerName: "Ines Valdborg",
  leftMinor,
  since: "2026-11-01",
  ...more,
});
const line = (
  id: number,
  amountMinor: number,
  text: string,
  more: Partial<WaitingLine> = {},
): WaitingLine => ({
  id,
  bookedOn: "2026-11-25",
  amountMinor,
  text,
  payer: "",
  ...more,
});
const one = (amountMinor: number, text: string, items: readonly OpenItem[], payer = "") => {
  const found = propose([line(1, amountMinor, text, { payer })], items).get(1);
  return (
    found && [
      found.certainty,
      found.takes.map((take) => [take.item.id, take.minor]),
      found.overMinor,
      found.because.map((reason: Reason) => reason.why),
    ]
  );
};

describe("what a line probably pays", () => {
  const items = [
    item(1, 10_000),
    item(2, 2500),
    item(3, 7000, { customerId: 2, customerName: "Odd Rækkje" }),
  ];

  it("is certain by the number and the exact amount, however the number is written", () => {
    expect(one(10_000, "Invoice 2001, thanks", items)).toEqual([
      "certain",
      [[1, 10_000]],
      0,
      ["reference", "exact"],
    ]);
    const prefixed = [item(1, 10_000, { written: "F-2026-0012" })];
    for (const text of ["F-2026-0012", "f 2026 0012", "F20260012", "ref:F-2026/0012."])
      expect(one(10_000, text, prefixed)?.[0], text).toBe("certain");
    const kid = kidOf("invoice", 2001);
    expect(one(10_000, kid, [item(1, 10_000, { kid })])).toEqual([
      "certain",
      [[1, 10_000]],
      0,
      ["kid", "exact"],
    ]);
    expect(one(12_500, "2001 and 2002", items)).toEqual([
      "certain",
      [
        [1, 10_000],
        [2, 2500],
      ],
      0,
      ["reference", "reference", "sum"],
    ]);
  });

  it("is likely by the number with another amount: part of it stays, or is over", () => {
    expect(one(4000, "2001", items)).toEqual(["likely", [[1, 4000]], 0, ["reference", "part"]]);
    expect(one(11_000, "2001", items)).toEqual(["likely", [[1, 10_000]], 1000, ["reference", "over"]]);
    expect(one(12_500, "2001", items)?.[1]).toEqual([
      [1, 10_000],
      [2, 2500],
    ]);
  });

  it("is likely by the name and what is open, one or several", () => {
    expect(one(7000, "transfer", items, "ODD RAEKKJE")).toEqual([
      "likely",
      [[3, 7000]],
      0,
      ["name", "exact"],
    ]);
    expect(one(12_500, "from Ines Valdborg", items)?.[3]).toEqual(["name", "sum"]);
    expect(one(300, "", items, "Valdborg Ines")?.[0]).toBe("possible");
    expect(one(300, "", items, "Ines")).toBeUndefined();
  });

  it("is only possible by the amount alone, and nothing where two would fit or none does", () => {
    expect(one(7000, "transfer", items)).toEqual(["possible", [[3, 7000]], 0, ["amountAlone"]]);
    expect(one(7000, "transfer", [...items, item(4, 7000)])).toBeUndefined();
    expect(one(1, "transfer", items)).toBeUndefined();
    expect(one(-7000, "2003", items)).toBeUndefined();
  });

  it("is not told by a year, nor by a short number without the amount", () => {
    const year = [item(1, 10_000, { written: "2026" })];
    expect(one(4000, "thanks, November 2026", year)).toBeUndefined();
    expect(one(10_000, "2026", year)?.[0]).toBe("certain");
    expect(one(4000, "rent 12", [item(1, 10_000, { written: "12" })])).toBeUndefined();
    // A number inside a longer one is another number.
    expect(one(4000, "120011", items)).toBeUndefined();
  });

  it("is said to be paid already where the number is of something settled", () => {
    expect(one(10_000, "2001", [item(1, 0)])).toEqual(["possible", [], 0, ["used"]]);
  });

  it("of two lines for one invoice the older one gets it, the other is told that it is used", () => {
    const found = propose(
      [line(1, 10_000, "2001"), line(2, 10_000, "2001", { bookedOn: "2026-11-24" })],
      items,
    );
    expect(found.get(2)?.takes).toHaveLength(1);
    expect(found.get(1)).toMatchObject({ takes: [], because: [{ why: "used" }] });
  });

  it("over a deposit alone is a person's to place", () => {
    expect(one(11_000, "1001", [item(1, 10_000, { kind: "deposit", written: "1001" })])).toBeUndefined();
  });
});

describe("amounts that add up", () => {
  it("are found where there is one way, or all do; and none where there are two ways", () => {
    expect(addingUpTo([100, 200, 400], 500)).toEqual([0, 2]);
    expect(addingUpTo([100, 200, 400], 700)).toEqual([0, 1, 2]);
    expect(addingUpTo([100, 100, 400], 500)).toBeNull();
    expect(addingUpTo([100], 100)).toBeNull();
  });
});

describe("any lines and any open papers", () => {
  const anyItems = fc
    .array(
      fc.record({
        left: fc.integer({ min: 0, max: 6 }),
        customer: fc.integer({ min: 1, max: 3 }),
        deposit: fc.boolean(),
      }),
      { maxLength: 8 },
    )
    .map((all) =>
      all.map(({ left, customer, deposit }, at) =>
        item(at + 1, left * 100, {
          customerId: customer,
          customerName: ["Ines Valdborg", "Odd Brekke", "Kari Ro Myhre"][customer - 1] ?? "",
          kind: deposit ? "deposit" : "invoice",
          written: String((deposit ? 1000 : 2000) + at),
        }),
      ),
    );
  const anyLines = fc
    .array(
      fc.record({
        amount: fc.integer({ min: -2, max: 12 }),
        text: fc.constantFrom("2000", "2001 2002", "1003", "thanks", "2002 Odd Brekke", "1000 2001"),
        payer: fc.constantFrom("", "Ines Valdborg", "Odd Brekke", "Kari Ro Myhre"),
        day: fc.constantFrom("2026-11-24", "2026-11-25"),
      }),
      { maxLength: 10 },
    )
    .map((all) =>
      all.map(({ amount, text, payer, day }, at) =>
        line(at + 1, amount * 100, text, { payer, bookedOn: day }),
      ),
    );

  it("never take more than is open of anything, nor more or less than the line brings", () => {
    fc.assert(
      fc.property(anyLines, anyItems, (lines, items) => {
        const found = propose(lines, items);
        const taken = new Map<OpenItem, number>();
        for (const proposal of found.values()) {
          for (const take of proposal.takes) {
            expect(take.minor).toBeGreaterThan(0);
            taken.set(take.item, (taken.get(take.item) ?? 0) + take.minor);
          }
          const own = lines.find((one) => one.id === proposal.lineId);
          const sum = proposal.takes.reduce((so, take) => so + take.minor, proposal.overMinor);
          if (proposal.takes.length > 0) expect(sum).toBe(own?.amountMinor);
          expect(new Set(proposal.takes.map((take) => take.item.customerId)).size).toBeLessThanOrEqual(1);
        }
        for (const [of, minor] of taken) expect(minor).toBeLessThanOrEqual(of.leftMinor);
      }),
      runs,
    );
  });

  it("are proposed alike in whatever order they are given", () => {
    fc.assert(
      fc.property(
        anyLines.chain((lines) =>
          fc.tuple(fc.constant(lines), fc.shuffledSubarray(lines, { minLength: lines.length })),
        ),
        anyItems.chain((items) =>
          fc.tuple(fc.constant(items), fc.shuffledSubarray(items, { minLength: items.length })),
        ),
        ([lines, mixed], [items, shuffled]) => {
          const sorted = (found: ReturnType<typeof propose>) => [...found].sort(([a], [b]) => a - b);
          // Reasons of several references stand in the order of the line's own words.
          expect(sorted(propose(mixed, shuffled))).toEqual(sorted(propose(lines, items)));
        },
      ),
      runs,
    );
  });
});
