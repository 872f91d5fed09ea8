import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { asMoved, sharedParts, shareOut } from "@/lib/domain/invoices/sharing";

const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0);

describe("money for an invoice of several jobs", () => {
  it("fills each job up to what it owes, in order, and no job that owes nothing", () => {
    expect(shareOut(300, [100, 200])).toEqual([100, 200]);
    expect(shareOut(150, [100, 200])).toEqual([100, 50]);
    expect(shareOut(200, [-50, 250])).toEqual([0, 200]);
    // A cent that rounding left over goes to the last.
    expect(shareOut(301, [100, 200])).toEqual([100, 201]);
  });

  it("adds up to what was paid, by each method, with the cash rounding kept once and no row below nothing", () => {
    const amount = fc.integer({ min: 1, max: 100_000 });
    const rounding = fc.integer({ min: -4, max: 5 });
    fc.assert(
      fc.property(
        amount,
        amount,
        rounding,
        fc.array(amount, { minLength: 2, maxLength: 6 }),
        (card, cash, r, owed) => {
          fc.pre(cash + r >= 0);
          const parts = [
            { method: "card" as const, amountMinor: card, roundingMinor: 0, settlesMinor: card },
            { method: "cash" as const, amountMinor: cash + r, roundingMinor: r, settlesMinor: cash },
          ];
          const shared = sharedParts(parts, owed);
          for (const part of parts) {
            const own = shared.filter((one) => one.method === part.method);
            expect(sum(own.map((one) => one.amountMinor))).toBe(part.amountMinor);
            expect(sum(own.map((one) => one.roundingMinor))).toBe(part.roundingMinor);
          }
          for (const one of shared) expect(one.amountMinor - one.roundingMinor).toBe(one.settlesMinor);
          expect(Math.min(...shared.map((one) => one.settlesMinor))).toBeGreaterThan(0);
        },
      ),
      { numRuns: 200 },
    );
  });

  it("is shown as it was paid: one amount for one act and method, each deposit by itself", () => {
    const at = new Date("2026-11-25T00:00:00Z");
    const row = (id: number, kind: string, amountMinor: number, more = {}) => ({
      ...{ id, kind, amountMinor, roundingMinor: 0, method: "card", invoiceId: 7, paidOn: "2026-11-25" },
      ...{ reference: "", at, ...more },
    });
    const rows = [row(3, "payment", 200), row(1, "deposit", 50), row(2, "payment", 100)];
    const later = row(4, "payment", 10, { at: new Date("2026-11-25T00:00:01Z") });
    expect(asMoved([...rows, later]).map((one) => [one.kind, one.amountMinor])).toEqual([
      ["deposit", 50],
      ["payment", 300],
      ["payment", 10],
    ]);
  });
});
