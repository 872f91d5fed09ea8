import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { amountOfJob, amountsOfInvoice, sumColumns } from "@/lib/domain/chasing/accountLines";
import { ageOf, daysPast } from "@/lib/domain/chasing/age";
import { nextReminder, stopHolds, turnOf } from "@/lib/domain/chasing/nextReminder";
import { type DatedInvoice, type DatedMoney, openAt, stoodOn } from "@/lib/domain/chasing/openAt";
import type { ReminderTerms } from "@/lib/domain/chasing/reminderTerms";
import { moneyEntries, runningBalance } from "@/lib/domain/chasing/statement";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { FULL } from "../support/size";

const day = fc.integer({ min: 0, max: 200 }).map((days) => dayAfter("2026-01-01", days));
const minor = fc.integer({ min: 0, max: 500_000 });
const KINDS = ["deposit", "payment", "refund", "writeOff", "bounced", "overpayment"] as const;

const money = fc.record({
  kind: fc.constantFrom(...KINDS),
  amountMinor: minor,
  roundingMinor: fc.integer({ min: -2, max: 2 }),
  invoiceId: fc.constantFrom(1, 2, null),
  paidOn: day,
}) satisfies fc.Arbitrary<DatedMoney>;

const invoice = fc.record({
  id: fc.constant(1),
  issuedOn: day,
  dueOn: day,
  grossMinor: minor,
  prepaidMinor: minor,
  takenBack: fc.boolean(),
  credits: fc.array(fc.record({ issuedOn: day, grossMinor: minor.map((some) => 0 - some) }), {
    maxLength: 3,
  }),
  money: fc.array(money, { maxLength: 8 }),
});

/** Money by the day, added up again without the product's own sums: what a row of each kind does to what the shop has. */
const SIGN = { deposit: 1, payment: 1, refund: -1, writeOff: 1, bounced: -1, overpayment: 1 } as const;
const paidBy = (rows: readonly DatedMoney[], on: string) =>
  rows
    .filter((row) => row.paidOn <= on)
    .reduce((sum, row) => sum + SIGN[row.kind] * (row.amountMinor - row.roundingMinor), 0);

const creditedBy = (of: DatedInvoice, on: string) =>
  of.credits.filter((credit) => credit.issuedOn <= on).reduce((sum, credit) => sum + credit.grossMinor, 0);

describe("how long something is past due", () => {
  it("is not past due on its day, then up to 30, 60, 90 days and over", () => {
    const on = (days: number) => ageOf("2026-03-01", dayAfter("2026-03-01", days));
    expect([-5, 0, 1, 30, 31, 60, 61, 90, 91, 700].map(on)).toEqual([
      "notDue",
      "notDue",
      "to30",
      "to30",
      "to60",
      "to60",
      "to90",
      "to90",
      "over90",
      "over90",
    ]);
    expect(ageOf(null, "2026-03-01")).toBe("notDue");
    // 2028 has a 29 February.
    expect(daysPast("2028-02-28", "2028-03-01")).toBe(2);
  });
});

describe("what was open on a day", () => {
  it("adds up to total plus credit notes less all money, on any day of any history", () => {
    fc.assert(
      fc.property(invoice, day, (of, on) => {
        const { totalMinor } = sumColumns(amountsOfInvoice(of, on));
        const owed = of.grossMinor + creditedBy(of, on) - paidBy(of.money, on);
        expect(totalMinor).toBe(stoodOn(of, on) ? owed : 0);
      }),
      { numRuns: FULL ? 1000 : 200 },
    );
  });

  it("is in one column of age, or in the customer's favour, and never in both", () => {
    fc.assert(
      fc.property(invoice, day, (of, on) => {
        const { columns } = sumColumns(amountsOfInvoice(of, on));
        const { openMinor } = openAt(of, on);
        expect((columns.balance ?? 0) + (columns.credit ?? 0)).toBe(
          stoodOn(of, on) ? Math.min(0, openMinor) : 0,
        );
        expect(columns[ageOf(of.dueOn, on)] ?? 0).toBe(stoodOn(of, on) ? Math.max(0, openMinor) : 0);
      }),
      { numRuns: FULL ? 1000 : 200 },
    );
  });

  const issued: DatedInvoice & { dueOn: string } = {
    id: 1,
    issuedOn: "2026-05-01",
    dueOn: "2026-05-15",
    grossMinor: 100_00,
    prepaidMinor: 20_00,
    takenBack: false,
    credits: [],
    money: [
      { kind: "deposit", amountMinor: 20_00, roundingMinor: 0, invoiceId: null, paidOn: "2026-04-01" },
      { kind: "payment", amountMinor: 30_00, roundingMinor: 0, invoiceId: 1, paidOn: "2026-06-20" },
    ],
  };

  it("is what was left by then, not what is left now", () => {
    expect(amountsOfInvoice(issued, "2026-04-30")).toEqual([]);
    expect(amountsOfInvoice(issued, "2026-05-15")).toEqual([{ column: "notDue", minor: 80_00 }]);
    expect(amountsOfInvoice(issued, "2026-06-19")).toEqual([{ column: "to60", minor: 80_00 }]);
    expect(amountsOfInvoice(issued, "2026-06-20")).toEqual([{ column: "to60", minor: 50_00 }]);
  });

  it("leaves what was paid too much to the credit notes first, and the rest to over-payments", () => {
    const over = {
      ...issued,
      credits: [{ issuedOn: "2026-07-01", grossMinor: -70_00 }],
      money: [
        ...issued.money,
        { kind: "overpayment", amountMinor: 60_00, roundingMinor: 0, invoiceId: 1, paidOn: "2026-06-20" },
      ] satisfies DatedMoney[],
    };
    expect(amountsOfInvoice(over, "2026-06-30")).toEqual([{ column: "balance", minor: -10_00 }]);
    expect(amountsOfInvoice(over, "2026-07-01")).toEqual([
      { column: "credit", minor: -70_00 },
      { column: "balance", minor: -10_00 },
    ]);
  });

  it("hands the money of an invoice that was taken back to its job, from the day of the credit note on", () => {
    const gone = { ...issued, takenBack: true, credits: [{ issuedOn: "2026-07-01", grossMinor: -100_00 }] };
    expect(stoodOn(gone, "2026-06-30")).toBe(true);
    expect(amountsOfInvoice(gone, "2026-07-01")).toEqual([]);
    const job = { money: gone.money, creditedBefore: true };
    expect(amountOfJob(job, "2026-07-01")).toEqual([{ column: "credit", minor: -50_00 }]);
    expect(amountOfJob({ ...job, creditedBefore: false }, "2026-04-01")).toEqual([
      { column: "deposit", minor: -20_00 },
    ]);
    expect(amountOfJob(job, "2026-03-31")).toEqual([]);
  });
});

describe("a statement's lines", () => {
  const row = fc.record({
    act: fc.constantFrom("one", "two"),
    kind: fc.constantFrom(...KINDS),
    on: day,
    method: fc.constantFrom("cash", "transfer", ""),
    reference: fc.constantFrom("", "both"),
    amountMinor: minor,
    roundingMinor: fc.integer({ min: -2, max: 2 }),
    number: fc.constantFrom("2001", "2002"),
  });

  it("add up to the money, whichever rows are one act, and run on by day", () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 12 }), minor, (rows, opening) => {
        const entries = runningBalance(opening, moneyEntries(rows));
        const paid = paidBy(
          rows.map((one) => ({ ...one, invoiceId: null, paidOn: one.on })),
          "9999-12-31",
        );
        expect(entries.at(-1)?.balanceMinor ?? opening).toBe(opening - paid);
        const days = entries.map((entry) => entry.on);
        expect(days).toEqual([...days].sort());
        entries.forEach((entry, at) => {
          expect(entry.balanceMinor - entry.minor).toBe(entries[at - 1]?.balanceMinor ?? opening);
        });
      }),
      { numRuns: FULL ? 1000 : 200 },
    );
  });

  it("tell one payment of several invoices, with what was paid over, as the bank does", () => {
    const paid = { act: "one", on: "2026-05-01", method: "transfer", reference: "both", roundingMinor: 0 };
    expect(
      moneyEntries([
        { ...paid, kind: "payment", amountMinor: 60_00, number: "2001" },
        { ...paid, kind: "payment", amountMinor: 30_00, number: "2002" },
        { ...paid, kind: "overpayment", amountMinor: 5_00, number: "2002" },
        { ...paid, kind: "refund", method: "balance", reference: "", amountMinor: 5_00, number: "2002" },
        { ...paid, kind: "payment", method: "balance", reference: "", amountMinor: 5_00, number: "2003" },
      ]),
    ).toEqual([
      {
        on: "2026-05-01",
        kind: "payment",
        numbers: ["2001", "2002"],
        method: "transfer",
        reference: "both",
        minor: -95_00,
      },
    ]);
  });
});

describe("which reminder of a late invoice comes next", () => {
  const usual = (more: Partial<Record<1 | 2 | 3, number | null>> = {}): ReminderTerms => ({
    feeTaxMark: "",
    levels: ([1, 2, 3] as const).map((level) => ({
      level,
      days: level in more ? (more[level] ?? null) : ([7, 21, 35][level - 1] ?? null),
      feeMinor: 0,
      automatic: false,
    })),
  });
  const due = { dueOn: "2026-03-01", paidOn: null };

  it("is so many days after it was due, and after the one before it as far as the shop's days lie apart", () => {
    expect(nextReminder({ ...due, sent: [] }, usual())).toMatchObject({ level: 1, fromDay: "2026-03-08" });
    // Looked at late: the second one still waits for the fourteen days that lie between them.
    expect(nextReminder({ ...due, sent: [{ level: 1, onDay: "2026-05-01" }] }, usual())).toMatchObject({
      level: 2,
      fromDay: "2026-05-15",
    });
    expect(nextReminder({ ...due, paidOn: "2026-03-20", sent: [] }, usual())?.fromDay).toBe("2026-03-27");
    expect(nextReminder({ ...due, paidOn: "2026-02-20", sent: [] }, usual())?.fromDay).toBe("2026-03-08");
    expect(nextReminder({ ...due, sent: [] }, usual({ 1: null }))).toMatchObject({ level: 2 });
    expect(nextReminder({ ...due, sent: [{ level: 3, onDay: "2026-05-01" }] }, usual())).toBeNull();
    expect(nextReminder({ ...due, sent: [] }, usual({ 1: null, 2: null, 3: null }))).toBeNull();
  });

  it("rises, comes to an end, and is never written twice in a day, whenever it is looked at", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 60 }), { minLength: 3, maxLength: 3 }),
        fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 4, maxLength: 12 }),
        (days, gaps) => {
          const [one = 1, two = 2, three = 3] = [...days].sort((a, b) => a - b);
          const sent: { level: number; onDay: string }[] = [];
          let today = due.dueOn;
          for (const gap of gaps) {
            today = dayAfter(today, gap);
            const next = nextReminder({ ...due, sent }, usual({ 1: one, 2: two, 3: three }));
            if (!next || next.fromDay > today) continue;
            expect(next.level).toBe(sent.length + 1);
            expect(sent.every((before) => before.onDay < today)).toBe(true);
            sent.push({ level: next.level, onDay: today });
          }
          expect(sent.length).toBeLessThanOrEqual(3);
        },
      ),
      { numRuns: FULL ? 1000 : 200 },
    );
  });

  it("begins anew with the last payment that was not taken back", () => {
    const row = (id: number, kind: string, reversesId: number | null = null) => ({
      id,
      kind,
      paidOn: `2026-03-0${id}`,
      reversesId,
    });
    expect(turnOf([row(1, "deposit"), row(2, "writeOff")])).toBeNull();
    expect(turnOf([row(1, "payment"), row(2, "payment")])?.id).toBe(2);
    expect(turnOf([row(1, "payment"), row(2, "payment"), row(3, "bounced", 2)])?.id).toBe(1);
    expect(turnOf([row(1, "payment"), row(2, "bounced", 1)])).toBeNull();
  });

  it("is stopped until a day is over, or until somebody ends it", () => {
    const at = new Date("2026-03-01T00:00:00Z");
    expect(stopHolds({ untilOn: null, endedAt: null }, "2030-01-01")).toBe(true);
    expect(stopHolds({ untilOn: "2026-03-05", endedAt: null }, "2026-03-05")).toBe(true);
    expect(stopHolds({ untilOn: "2026-03-05", endedAt: null }, "2026-03-06")).toBe(false);
    expect(stopHolds({ untilOn: null, endedAt: at }, "2026-03-02")).toBe(false);
  });
});
