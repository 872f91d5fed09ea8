import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { moveCash } from "@/lib/data/endOfDay/moves";
import { readBook } from "@/lib/data/ledger/chart";
import { everyEntry, journalEntries, journalPage, journalSums } from "@/lib/data/ledger/journal";
import { stockWorth } from "@/lib/data/ledger/registers";
import { saveBeginning } from "@/lib/data/ledger/save";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import type { BookedEntry } from "@/lib/domain/ledger/book";
import type { Place } from "@/lib/domain/ledger/events";
import type { LedgerRange } from "@/lib/domain/ledger/trial";
import { amountOf } from "@/lib/domain/money/scale";
import { dayIn } from "@/lib/domain/schedule/days";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { nameShop } from "../support/invoices";
import { partToSell } from "../support/sales";
import { as, twoShops } from "../support/shops";
import { FULL } from "../support/size";
import { yearOf } from "../support/yearOf";

let a: ShopHandle;
let b: ShopHandle;

beforeAll(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  for (const [shop, seed] of [
    [a, 11],
    [b, 20_270_303],
  ] as const) {
    const part = await partToSell(shop, { opening: "40.5", unit: "ml", cost: "0.3333" });
    await yearOf(shop, seed);
    for (const [month, quantityMilli] of [
      [2, 3_337],
      [6, -1_111],
      [9, 12_345],
    ] as const) {
      const then = as(shop, { now: new Date(Date.UTC(2027, month, 3, 2)) });
      const day = then.now.toISOString().slice(0, 10);
      await moveCash(then, { day, amountMinor: quantityMilli, reason: "change from the bank" });
      await recordMove(then, { partId: part, kind: quantityMilli < 0 ? "scrap" : "receipt", quantityMilli });
    }
  }
}, 120_000);

/** The journal posted from the first day on, as it was before pages read their range alone. */
async function plain(shop: ShopHandle, range: LedgerRange) {
  const entries: BookedEntry[] = [];
  const all = journalEntries(shop, range);
  for (;;) {
    const next = await all.next();
    if (next.done) return { entries, sums: next.value };
    entries.push(next.value);
  }
}

const day = fc.integer({ min: 0, max: 800 }).map((days) => dayAfter("2026-10-01", days));
const asked = fc.record({
  days: fc.tuple(day, day).map(([one, two]) => (one < two ? { from: one, to: two } : { from: two, to: one })),
  startsOn: fc.option(day, { nil: null }),
  yearMonth: fc.integer({ min: 1, max: 12 }),
  stockToo: fc.boolean(),
});

describe("a range of the journal, read without the days before it", () => {
  it("says of any range, beginning of the books and year what posting from the first day says", async () => {
    for (const shop of [a, b])
      await fc.assert(
        fc.asyncProperty(asked, async ({ days, startsOn, yearMonth, stockToo }) => {
          const { version } = await readBook(shop);
          const late = as(shop, { now: new Date("2029-01-01T02:00:00Z") });
          await saveBeginning(late, { version, startsOn, yearMonth, stockToo, opening: {} });
          const { entries, sums } = await plain(shop, days);
          const { customers: _, ...whole } = sums;
          expect(await journalSums(shop, days)).toEqual(whole);
          const found: BookedEntry[] = [];
          for await (const entry of everyEntry(shop, days)) found.push(entry);
          expect(found).toEqual(entries);
          const page = await journalPage(shop, days);
          expect([page.entries, page.debitMinor]).toEqual([sums.entries, sums.debitMinor]);
        }),
        { numRuns: FULL ? 60 : 10 },
      );
  }, 120_000);

  it("comes page by page to every entry once, in the same order", async () => {
    for (const shop of [a, b]) {
      const days = { from: "2026-01-01", to: "2028-12-31" };
      const { version } = await readBook(shop);
      await saveBeginning(shop, { version, startsOn: null, yearMonth: 1, stockToo: true, opening: {} });
      const { entries } = await plain(shop, days);
      const keys: string[] = [];
      for (let after: Place | undefined, pages = 0; pages < 20; pages++) {
        const page = await journalPage(shop, days, after);
        expect([page.skipped, page.entries]).toEqual([keys.length, entries.length]);
        keys.push(...page.rows.map((row) => row.key));
        if (!page.next) break;
        after = page.next;
      }
      expect(keys.length).toBeGreaterThan(40);
      expect(keys).toEqual(entries.map((entry) => entry.key));
    }
  });

  it("has parts at the end of any day at what their moves say, one by one", async () => {
    for (const shop of [a, b]) {
      const { zone, currency } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
      const moves = await shop.read.move.findMany({ where: { kind: { not: "betweenBins" } } });
      for (const until of ["2026-11-24", "2026-11-25", "2027-03-03", "2027-07-31", "2028-01-01"]) {
        const byPart = Map.groupBy(
          moves.filter((move) => dayIn(zone, move.at) <= until),
          (move) => move.partId,
        );
        const expected = [...byPart].flatMap(([partId, own]) => {
          const quantityMilli = own.reduce((sum, move) => sum + move.quantityMilli, 0);
          const valueMinor = own.reduce(
            (sum, move) => sum + amountOf(move.unitCostE4 ?? 0, move.quantityMilli, currency),
            0,
          );
          const withoutCost = own.some((move) => move.unitCostE4 === null);
          return quantityMilli === 0 && valueMinor === 0
            ? []
            : [{ partId, quantityMilli, valueMinor, withoutCost }];
        });
        const worth = await stockWorth(shop, until);
        expect(
          worth
            .map(({ code: _, name: _n, unit: _u, ...row }) => row)
            .sort((one, two) => one.partId - two.partId),
        ).toEqual(expected.sort((one, two) => one.partId - two.partId));
      }
    }
  });
});
