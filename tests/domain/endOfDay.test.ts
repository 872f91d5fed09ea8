import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { openDays } from "@/lib/domain/endOfDay/days";
import { denominationsOf } from "@/lib/domain/endOfDay/denominations";
import { compared, countedCash, expectedCash, splitCounted } from "@/lib/domain/endOfDay/drawer";
import { netOf, type TakenRow, takingsOf } from "@/lib/domain/endOfDay/takings";
import { depositLeftOf, movedMinor } from "@/lib/domain/invoices/held";
import { COUNTRY_PRESETS } from "@/lib/domain/tax/presets";
import { FULL } from "../support/size";

const AUD = { currency: "AUD", locale: "en-AU" };
const row = fc.record({
  kind: fc.constantFrom("deposit", "payment", "refund", "writeOff", "bounced", "overpayment"),
  method: fc.constantFrom("cash", "card", "transfer", "balance", "voucher"),
  amountMinor: fc.integer({ min: 0, max: 1_000_000 }),
  roundingMinor: fc.integer({ min: -4, max: 5 }),
  overCounter: fc.boolean(),
}) as fc.Arbitrary<TakenRow>;
const rows = fc.array(row, { maxLength: 60 });
const isMoney = (one: TakenRow) => one.kind !== "writeOff";
const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0);

describe("a day's takings", () => {
  it("re-add to the payments, whatever their order, and each method from its parts", () => {
    fc.assert(
      fc.property(rows, fc.infiniteStream(fc.integer()), (all, keys) => {
        const takings = takingsOf(all);
        const shuffled = all
          .map((one) => ({ one, key: keys.next().value }))
          .sort((x, y) => x.key - y.key)
          .map(({ one }) => one);
        expect(takingsOf(shuffled)).toEqual(takings);
        expect(sum(takings.map((one) => one.netMinor))).toBe(sum(all.filter(isMoney).map(movedMinor)));
        for (const one of takings)
          expect(
            one.soldMinor + one.paidMinor - one.returnedMinor - one.givenBackMinor - one.bouncedMinor,
          ).toBe(one.netMinor);
        // Without the rounding it is what the books hold of it: another reading of the same rows.
        expect(sum(takings.map((one) => one.netMinor - one.roundingMinor))).toBe(depositLeftOf(all));
      }),
      { numRuns: FULL ? 1000 : 100 },
    );
  });

  it("of some days are the sum of each day's", () => {
    fc.assert(
      fc.property(fc.array(rows, { maxLength: 6 }), (days) => {
        for (const method of ["cash", "card", "transfer"])
          expect(netOf(takingsOf(days.flat()), method)).toBe(
            sum(days.map((day) => netOf(takingsOf(day), method))),
          );
      }),
      { numRuns: FULL ? 1000 : 100 },
    );
  });

  it("name cash and card also where there are none", () => {
    expect(takingsOf([]).map(({ method, netMinor }) => [method, netMinor])).toEqual([
      ["cash", 0],
      ["card", 0],
    ]);
  });
});

describe("a drawer", () => {
  it("holds its float and all cash since, whatever the order of the moves", () => {
    // By hand: 100.00 + 25.25 - 3.20 + 10.00.
    const moves = [{ amountMinor: -320 }, { amountMinor: 1000 }];
    expect(expectedCash(10_000, 2525, moves)).toBe(13_205);
    expect(expectedCash(10_000, 2525, [...moves].reverse())).toBe(13_205);
    expect(
      countedCash([
        { valueMinor: 5000, pieces: 2 },
        { valueMinor: 5, pieces: 3 },
      ]),
    ).toBe(10_015);
  });

  it("that differs needs a reason, and says by how much", () => {
    const given = { expectedMinor: 13_205, countedMinor: 13_105, reason: "" };
    expect(() => compared("drawer", given, AUD)).toThrow("The drawer is 1.00 AUD short.");
    expect(() => compared("drawer", { ...given, countedMinor: 13_210 }, AUD)).toThrow(
      "The drawer is 0.05 AUD over.",
    );
    expect(compared("drawer", { ...given, reason: "Nobody knows" }, AUD).differenceMinor).toBe(-100);
    expect(
      compared("terminal", { ...given, countedMinor: 13_205, reason: "Nobody knows" }, AUD),
    ).toMatchObject({
      differenceMinor: 0,
      reason: "",
    });
  });

  it("keeps no more than was counted", () => {
    expect(splitCounted(13_105, 10_000, AUD)).toEqual({ leftMinor: 10_000, takenMinor: 3105 });
    for (const left of [13_106, -1, Number.NaN])
      expect(() => splitCounted(13_105, left, AUD)).toThrow("can stay in the drawer");
  });

  it("can be counted by coins and notes in every country that a shop can open in", () => {
    for (const { currency, cashRounding } of COUNTRY_PRESETS) {
      const list = denominationsOf(currency);
      expect(list, currency).not.toBeNull();
      const values = list?.valuesMinor ?? [];
      expect([...new Set(values)].sort((x, y) => y - x)).toEqual(values);
      expect(values).toContain(list?.notesFromMinor);
      // Every amount in coins can be laid out: the smallest coin is none above the rounding step.
      expect(values.at(-1), currency).toBeLessThanOrEqual(Math.max(1, cashRounding));
    }
    expect(denominationsOf("JPY")).toBeNull();
    expect(denominationsOf("toString")).toBeNull();
  });
});

describe("days to close", () => {
  it("are those with money since the last one, oldest first, and today", () => {
    const last = "2026-11-25";
    expect(openDays(last, ["2026-11-29", "2026-11-27", "2026-11-24"], "2026-11-30")).toEqual({
      days: ["2026-11-27", "2026-11-29", "2026-11-30"],
      fromDay: "2026-11-26",
    });
    expect(openDays("2026-11-30", ["2026-11-30"], "2026-11-30").days).toEqual([]);
    expect(openDays(null, ["2026-11-24"], "2026-11-30")).toEqual({ days: ["2026-11-30"], fromDay: null });
  });
});
