import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { Refusal } from "@/lib/domain/refusal";
import { TAX_REGIMES } from "@/lib/domain/tax/regimes";
import { depositsRule } from "@/lib/domain/taxReport/deposits";
import {
  entriesByMoney,
  entriesOfDeposits,
  type Happening,
  type TaxEntry,
} from "@/lib/domain/taxReport/entries";
import { monthsOf, PERIOD_MONTHS, periodBeside, periodOf } from "@/lib/domain/taxReport/periods";
import { changeOf, grossOf, shareOfCharged, summed, type TaxedAmount } from "@/lib/domain/taxReport/split";
import { summaryOf } from "@/lib/domain/taxReport/summary";
import { FULL } from "../support/size";

const at = (category: string, rateBp: number, netMinor: number, taxMinor: number): TaxedAmount => ({
  category,
  rateBp,
  netMinor,
  taxMinor,
});
const gross = (amounts: readonly TaxedAmount[]) => amounts.reduce((sum, one) => sum + grossOf(one), 0);
const byKey = (amounts: readonly TaxedAmount[]) =>
  Object.fromEntries(
    summed(amounts)
      .filter((one) => one.netMinor !== 0 || one.taxMinor !== 0)
      .map((one) => [`${one.category} ${one.rateBp}`, [one.netMinor, one.taxMinor]])
      .sort(),
  );

describe("money as a share of what is charged", () => {
  // Arithmetic by hand: of 125.00 at 25 % and 75.00 exempt, 100.00 is 62.50 (12.50 tax) and 37.50.
  it("is split over categories and rates in proportion to their totals with tax", () => {
    const charged = [at("S", 2500, 10_000, 2_500), at("E", 0, 7_500, 0)];
    expect(shareOfCharged(10_000, charged)).toEqual([at("S", 2500, 5_000, 1_250), at("E", 0, 3_750, 0)]);
    expect(shareOfCharged(20_000, charged)).toEqual(charged);
    expect(shareOfCharged(99_999, charged)).toEqual(charged);
    expect(gross(shareOfCharged(-5, charged))).toBe(0);
  });

  // 1.00 over three equal groups: largest remainder gives the unit over to the first of them.
  it("loses no cent to rounding", () => {
    const three = [at("S", 2500, 80, 20), at("S", 1500, 100, 0), at("Z", 0, 100, 0)];
    expect(shareOfCharged(100, three).map(grossOf)).toEqual([34, 33, 33]);
  });

  it("mirrors where all that is charged is below zero", () => {
    const charged = [at("S", 1000, 1_001, 100), at("Z", 0, 333, 0)];
    const below = charged.map((one) => at(one.category, one.rateBp, -one.netMinor, -one.taxMinor));
    expect(shareOfCharged(-777, below)).toEqual(
      shareOfCharged(777, charged).map((one) =>
        at(one.category, one.rateBp, 0 - one.netMinor, 0 - one.taxMinor),
      ),
    );
  });
});

const RATES = [
  ["S", 2500],
  ["S", 1500],
  ["S", 1000],
  ["E", 0],
  ["Z", 0],
  ["O", 0],
] as const;
const lines = fc.array(
  fc.record({ rate: fc.constantFrom(...RATES), minor: fc.integer({ min: 1, max: 50_000 }) }),
  { minLength: 1, maxLength: 6 },
);
/** What a document of such lines charges, through the product's own totals. */
function charges(of: readonly { rate: (typeof RATES)[number]; minor: number }[]): TaxedAmount[] {
  const { taxes } = invoiceTotals({
    pricesIncludeTax: false,
    lines: of.map(({ rate: [taxCategory, taxRateBp], minor }) => ({
      netMinor: minor,
      shownMinor: minor,
      taxCategory,
      taxRateBp,
    })) as never,
  });
  return taxes.map((tax) => at(tax.category, tax.rateBp, tax.taxableMinor, tax.taxMinor));
}
const day = fc
  .integer({ min: 0, max: 364 })
  .map((n) => new Date(Date.UTC(2026, 0, 1 + n)).toISOString().slice(0, 10));
const part = fc.double({ min: 0, max: 1.2, noNaN: true });

/** A random life of an invoice: money in parts, some of it back, a part credited, some written off; settled in the end. */
const life = fc
  .record({
    of: lines,
    on: day,
    held: part,
    acts: fc.array(
      fc.record({ what: fc.constantFrom("pay", "back", "credit", "off", "offBack"), much: part, on: day }),
      { maxLength: 8 },
    ),
    end: fc.tuple(day, fc.boolean()),
  })
  .map(({ of, on, held, acts, end }) => {
    const taxes = charges(of);
    let charged = taxes;
    let money = Math.round(gross(taxes) * held);
    let off = 0;
    const happened: Happening[] = [{ kind: "document", on, ref: "invoice", taxes, heldMinor: money }];
    const left = () => gross(charged) - money - off;
    const add = (kind: "money" | "writeOff", day: string, minor: number) => {
      happened.push({ kind, on: day, ref: kind, minor });
      if (kind === "money") money += minor;
      else off += minor;
    };
    for (const { what, much, on: when } of acts) {
      if (what === "pay") add("money", when, Math.round(gross(taxes) * much));
      if (what === "back") add("money", when, 0 - Math.round(money * Math.min(1, much)));
      if (what === "off" && left() > 0) add("writeOff", when, Math.round(left() * Math.min(1, much)));
      if (what === "offBack" && off > 0) add("writeOff", when, 0 - off);
      if (what === "credit" && off === 0) {
        const share = shareOfCharged(Math.round(gross(charged) * Math.min(1, much)), charged);
        const less = share.map((one) => at(one.category, one.rateBp, 0 - one.netMinor, 0 - one.taxMinor));
        charged = summed([...charged, ...less]);
        happened.push({ kind: "document", on: when, ref: "credit", taxes: less, heldMinor: 0 });
      }
    }
    const open = left();
    if (open !== 0) add(open > 0 && end[1] ? "writeOff" : "money", end[0], open);
    return { happened, charged, written: off };
  });

describe("entries by money", () => {
  it("add up, once all is settled, to what the documents charge: with what is written off, to the cent", () => {
    fc.assert(
      fc.property(life, ({ happened, charged, written }) => {
        const { paid, off } = entriesByMoney(happened);
        expect(byKey([...paid, ...off])).toEqual(byKey(charged));
        if (written === 0) expect(byKey(paid)).toEqual(byKey(charged));
        expect(gross(off)).toBe(written);
      }),
      { numRuns: FULL ? 1_000 : 200 },
    );
  });

  it("add up over months, two months, quarters and half-years to those of the year", () => {
    fc.assert(
      fc.property(
        fc.array(life, { minLength: 1, maxLength: 5 }),
        fc.constantFrom(...PERIOD_MONTHS),
        (lives, months) => {
          const all: TaxEntry[] = lives.flatMap(({ happened }) => entriesByMoney(happened).paid);
          const cells = (of: readonly TaxEntry[]) => of.map((one) => ({ ...one, count: 1 }));
          const inside = ({ from, to }: { from: string; to: string }) =>
            all.filter((one) => one.on >= from && one.on <= to);
          const year = summaryOf(cells(inside({ from: "2026-01-01", to: "2026-12-31" })));
          const pieces = [];
          for (
            let period = periodOf("2026-01-01", months);
            period.from <= "2026-12-31";
            period = periodBeside(period, months, 1)
          )
            pieces.push(...summaryOf(cells(inside(period))).cells);
          expect(summaryOf(pieces)).toEqual(year);
          expect(year.grossMinor).toBe(gross(all));
        },
      ),
      { numRuns: FULL ? 1_000 : 60 },
    );
  });

  // By hand: 125.00 invoiced, 150.00 paid: 25.00 is the customer's and counts with nothing; a credit of 62.50 leaves 62.50.
  it("leave out money above what is charged, and follow a credit down", () => {
    const taxes = [at("S", 2500, 10_000, 2_500)];
    const { paid } = entriesByMoney([
      { kind: "document", on: "2026-01-10", ref: "2001", taxes, heldMinor: 0 },
      { kind: "money", on: "2026-02-10", ref: "payment", minor: 15_000 },
      {
        kind: "document",
        on: "2026-03-10",
        ref: "301",
        taxes: [at("S", 2500, -5_000, -1_250)],
        heldMinor: 0,
      },
      { kind: "money", on: "2026-04-10", ref: "refund", minor: -8_750 },
    ]);
    expect(paid.map((one) => [one.on, one.ref, one.source, one.netMinor, one.taxMinor])).toEqual([
      ["2026-02-10", "payment", "money", 10_000, 2_500],
      ["2026-03-10", "301", "document", -5_000, -1_250],
    ]);
  });

  it("take a bounced payment back, and count a deposit with the invoice that takes it off", () => {
    const taxes = [at("S", 1000, 10_000, 1_000), at("E", 0, 1_000, 0)];
    const { paid } = entriesByMoney([
      { kind: "document", on: "2026-01-10", ref: "2001", taxes, heldMinor: 6_000 },
      { kind: "money", on: "2026-02-10", ref: "payment", minor: 6_000 },
      { kind: "money", on: "2026-02-20", ref: "bounced", minor: -6_000 },
    ]);
    expect(byKey(paid.filter((one) => one.on <= "2026-01-31"))).toEqual({
      "E 0": [500, 0],
      "S 1000": [5_000, 500],
    });
    expect(
      changeOf(
        paid.filter((one) => one.ref === "bounced"),
        [],
      ),
    ).toEqual(summed(paid.filter((one) => one.ref === "payment")));
  });
});

describe("deposits whose tax falls due as they come", () => {
  it("come in with the money and go out as the job is invoiced; a taken back invoice brings them in again", () => {
    const agreed = [at("S", 2500, 8_000, 2_000)];
    const money = (on: string, minor: number) => ({ kind: "money" as const, on, ref: on, minor });
    const entries = entriesOfDeposits(
      [
        money("2026-01-10", 2_000),
        money("2026-01-20", -500),
        { kind: "invoiced", on: "2026-02-01", ref: "2001" },
        money("2026-02-05", 8_500),
        { kind: "takenBack", on: "2026-03-01", ref: "301" },
        { kind: "invoiced", on: "2026-03-02", ref: "2002" },
      ],
      agreed,
    );
    expect(entries.map((one) => [one.ref, one.netMinor, one.taxMinor])).toEqual([
      ["2026-01-10", 1_600, 400],
      ["2026-01-20", -400, -100],
      ["2001", -1_200, -300],
      ["301", 8_000, 2_000],
      ["2002", -8_000, -2_000],
    ]);
    expect(gross(entries)).toBe(0);
  });

  it("have a rule with its source in every regime, for an accountant to confirm", () => {
    for (const { key } of TAX_REGIMES) expect(depositsRule(key).source.length).toBeGreaterThan(10);
    expect([depositsRule("gb").due, depositsRule("no").due]).toEqual(["received", "invoiced"]);
    expect(() => depositsRule("xx")).toThrow(Refusal);
  });
});

describe("periods", () => {
  // Norwegian terms are two months, beginning with the year (skatteforvaltningsforskriften § 8-3, from memory).
  it("begin with the year and lie side by side", () => {
    expect(periodOf("2026-11-25", 2)).toEqual({ from: "2026-11-01", to: "2026-12-31" });
    expect(periodOf("2024-02-29", 1)).toEqual({ from: "2024-02-01", to: "2024-02-29" });
    expect(periodOf("2026-05-31", 3)).toEqual({ from: "2026-04-01", to: "2026-06-30" });
    expect(periodBeside(periodOf("2026-01-15", 2), 2, -1)).toEqual({ from: "2025-11-01", to: "2025-12-31" });
    expect(periodBeside({ from: "2026-01-10", to: "2026-01-12" }, null, 1)).toEqual({
      from: "2026-01-13",
      to: "2026-01-15",
    });
    expect(monthsOf({ from: "2026-01-30", to: "2026-03-02" })).toEqual([
      { from: "2026-01-30", to: "2026-01-31" },
      { from: "2026-02-01", to: "2026-02-28" },
      { from: "2026-03-01", to: "2026-03-02" },
    ]);
  });
});
