import { journalEntries, journalPage, journalSums } from "@/lib/data/ledger/journal";
import { documentSeries, stockWorth } from "@/lib/data/ledger/registers";
import { orderSuggestions } from "@/lib/data/orders/suggest";
import { listBins } from "@/lib/data/stock/binCounts";
import { listDrawer } from "@/lib/data/stock/drawer";
import { stockFigures } from "@/lib/data/stock/figures";
import { cellEntries, taxReport } from "@/lib/data/taxReport/summary";
import type { ShopHandle } from "@/lib/db/shop";

const MONTH = { from: "2026-11-01", to: "2026-11-25" };
const QUARTER = { from: "2026-09-01", to: "2026-11-25" };
const YEAR = { from: "2025-12-01", to: "2026-11-25" };
const EVER = { from: "2016-11-01", to: "2026-11-25" };
const weigh = (value: unknown) => `${Math.round(JSON.stringify(value).length / 1000)} kB of values`;

/** Each work with what it answers, told in a few words. */
export function worksOf(shop: ShopHandle): [work: string, run: () => Promise<string>][] {
  const paid = { basis: "paid" as const, depositsReceived: true };
  const cell = { part: "main" as const, category: "S", rateBp: 1000, page: 1 };
  return [
    ["journal of a month", async () => weigh(await journalPage(shop, MONTH))],
    ["journal of a year", async () => weigh(await journalPage(shop, YEAR))],
    ["journal of ten years", async () => weigh(await journalPage(shop, EVER))],
    ["the same, posted from the first day", async () => weigh(await postedFromTheFirst(shop, EVER))],
    ["trial balance of a month", async () => weigh((await journalSums(shop, MONTH)).rows)],
    ["trial balance of a year", async () => weigh((await journalSums(shop, YEAR)).rows)],
    ["stock's worth at a day", async () => weigh(await stockWorth(shop, MONTH.to))],
    ["document series", async () => weigh(await documentSeries(shop))],
    ["tax by money, a quarter", async () => weigh(await taxReport(shop.read, { ...QUARTER, ...paid }))],
    ["tax by money, ten years", async () => weigh(await taxReport(shop.read, { ...EVER, ...paid }))],
    ["documents of its cell", async () => weigh(await cellEntries(shop.read, { ...EVER, ...paid }, cell))],
    ["stock figures", async () => weigh(await stockFigures(shop, MONTH.to))],
    ["bins to count", async () => weigh(await listBins(shop))],
    ["the drawer", async () => weigh(await listDrawer(shop))],
    ["what to order", async () => weigh(await orderSuggestions(shop, true))],
  ];
}

/** As the files that need each customer's openings do it. */
async function postedFromTheFirst(shop: ShopHandle, range: typeof EVER): Promise<number> {
  let entries = 0;
  for await (const _ of journalEntries(shop, range)) entries += 1;
  return entries;
}
