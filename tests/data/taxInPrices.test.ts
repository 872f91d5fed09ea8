import { beforeEach, describe, expect, it } from "vitest";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { getQuote } from "@/lib/data/quotes/get";
import { sendQuote } from "@/lib/data/quotes/send";
import { saveSettings } from "@/lib/data/quotes/switchTax";
import { keptPrices, keptText } from "@/lib/data/quotes/taxInPrices";
import { createQuote } from "@/lib/data/quotes/write";
import { saveBands, saveGrade } from "@/lib/data/shop/prices";
import type { ShopHandle } from "@/lib/db/shop";
import { nameShop, readyJob } from "../support/invoices";
import { ORIGIN } from "../support/quotes";
import { ROAD_BIKES, type RoadBike, roadBike, roadShop } from "../support/roadPackage";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const settingsOf = (shop: ShopHandle) => shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });

async function turn(shop: ShopHandle, convertPrices?: "convert" | "leave") {
  const { id: _, version, taxNumber, ...rest } = await settingsOf(shop);
  await saveSettings(shop, {
    ...rest,
    version,
    taxNumber: shop === a ? taxNumber : "",
    taxRegime: rest.taxRegime,
    pricesIncludeTax: !rest.pricesIncludeTax,
    convertPrices,
  });
}

/** A draft of all four options: work, set and marked-up prices, a fixed price, a line by hand and an amount off. */
async function drafted(shop: ShopHandle) {
  const packageId = await roadShop(shop, { workshop: 9_000, bench: 12_000 });
  const bikeId = await roadBike(shop, ROAD_BIKES[0] as RoadBike, 0);
  const id = await createQuote(shop, { bikeId, packageId });
  const terms = {
    lines: [{ key: "collect", kind: "text", name: "Collected", priceMinor: 4_000, costMinor: 0 }],
    lineDiscounts: [],
    discount: { kind: "amount", minor: 1_500, why: "Goodwill" },
    deposit: null,
    extras: [],
  };
  await shop.write((tx) => tx.quoteRevision.updateMany({ where: { quoteId: id }, data: { terms } }));
  return id;
}

const priced = async (shop: ShopHandle, id: number) => {
  const quote = await getQuote(shop, id, { margin: true });
  if (!quote?.draft) throw new Error("No draft.");
  return { ...quote, lines: quote.draft.price.lines, price: quote.draft.price };
};

describe("switching whether prices include tax", () => {
  it("says what it changes, with an example, and does nothing until it is told what becomes of the prices", async () => {
    await drafted(b);
    const kept = await keptPrices(b.read);
    expect(kept).toMatchObject({ parts: 1, rates: 2, fixedPrices: 1, draftQuotes: 1 });
    expect(keptText(kept)).toBe(
      "1 part price, 2 labour rates, 1 fixed price of a package and 1 draft quote with amounts of its own",
    );
    // 90.00 x 1.25 = 112.50.
    expect(kept.example).toBe("An hour of Workshop: 90,00 without tax becomes 112,50 with tax in it");
    await expect(turn(b)).rejects.toMatchObject({
      message: expect.stringContaining("1 part price, 2 labour rates"),
      fields: { convertPrices: expect.any(String) },
    });
    expect(await settingsOf(b)).toMatchObject({ pricesIncludeTax: false });
  });

  it("turns every kept price so that customers pay the same, both ways, as one audited act", async () => {
    for (const shop of [a, b]) {
      const id = await drafted(shop);
      const before = await priced(shop, id);
      await turn(shop, "convert");
      const after = await priced(shop, id);
      expect((await settingsOf(shop)).pricesIncludeTax).toBe(shop === b);
      // Each line is kept to the cent, so a line may differ by less than a cent and its tax by as little.
      expect(Math.abs(after.price.grossMinor - before.price.grossMinor)).toBeLessThanOrEqual(5);
      const shown = (of: typeof before, key: string) => of.lines.find((line) => line.key === key)?.shownMinor;
      // Out: 45.67 / 1.1 = 41.518, 40.00 / 1.1 = 36.36, 15.00 / 1.1 = 13.64. In: x 1.25 = 57.0875, 50.00, 18.75.
      const [check, collect, off] = shop === a ? [4_152, 3_636, -1_364] : [5_709, 5_000, -1_875];
      expect(shown(after, "check")).toBe(check);
      expect(shown(after, "hand-collect") ?? shown(after, "collect")).toBe(collect);
      expect(after.lines.find((line) => line.key.startsWith("amount-off"))?.shownMinor).toBe(off);
      const rate = await shop.read.labourGrade.findUniqueOrThrow({ where: { code: "workshop" } });
      expect(rate.ratePerHourMinor).toBe(shop === a ? 8_182 : 11_250);
      // 1.2375 / 1.1 = 1.125; x 1.25 = 1.546875.
      const part = await shop.read.part.findUniqueOrThrow({ where: { code: "TL-M" } });
      expect(part.priceE4).toBe(shop === a ? 11_250 : 15_469);
      const told = await shop.read.auditEntry.findMany({ where: { act: "switched tax in prices" } });
      expect(told.map((one) => one.detail)).toMatchObject([{ converted: true, parts: 1, rates: 2 }]);
      const revisions = await shop.read.packageRevision.findMany({ orderBy: { number: "asc" } });
      expect(revisions.map((one) => [one.number, one.state, one.convertedFrom])).toEqual([
        [1, "published", null],
        [2, "published", revisions[0]?.id],
      ]);
    }
  });

  it("leaves the figures where that is asked for", async () => {
    const id = await drafted(b);
    await turn(b, "leave");
    const rate = await b.read.labourGrade.findUniqueOrThrow({ where: { code: "workshop" } });
    expect(rate.ratePerHourMinor).toBe(9_000);
    expect((await priced(b, id)).lines.find((line) => line.key === "check")?.shownMinor).toBe(4_567);
  });

  it("does not reach a sent quote, and a revision of it starts from what the customer was shown", async () => {
    const id = await drafted(b);
    await sendQuote(b, { id, version: 1, origin: ORIGIN });
    const sent = await getQuote(b, id, { margin: true });
    await turn(b, "convert");
    expect((await getQuote(b, id, { margin: true }))?.hash).toBe(sent?.hash);
    await reviseQuote(b, { id, version: sent?.version ?? 0 });
    const again = await priced(b, id);
    expect(again.lines.find((line) => line.key === "check")?.shownMinor).toBe(5_709);
    expect(Math.abs(again.price.grossMinor - (sent?.frozen?.grossMinor ?? 0))).toBeLessThanOrEqual(5);
  });
});

describe("a shop without a labour rate of its own", () => {
  const forget = (shop: ShopHandle) =>
    shop.write((tx) =>
      tx.labourGrade.updateMany({ data: { ratePerHourMinor: 0, costPerHourMinor: 0, rateSet: false } }),
    );

  it("is told so on the quote, which is not sent, and on an invoice by the hour", async () => {
    const { jobId, ready } = await readyJob(a);
    await forget(a);
    const id = await createQuote(a, ready);
    const { draft } = await priced(a, id);
    expect(draft?.warnings.find((one) => one.place === "labour rates")).toMatchObject({
      stops: true,
      message: "The price of an hour of Workshop is not set: the shop has entered none yet.",
    });
    await expect(sendQuote(a, { id, version: 1, origin: ORIGIN })).rejects.toThrow(/cannot be sent/);
    await a.write((tx) =>
      tx.timeEntry.create({
        data: {
          staffId: a.by.staffId ?? 0,
          jobId,
          startedAt: new Date(a.now.getTime() - 3_600_000),
          endedAt: a.now,
        },
      }),
    );
    await expect(draftInvoice(a, { jobId, basis: "asWorked" })).rejects.toThrow(/not set/);
    const grade = await a.read.labourGrade.findFirstOrThrow();
    await saveGrade(a, { ...grade, ratePerHourMinor: 11_000, costPerHourMinor: 5_000 });
    await saveBands(a, [{ upToE4: null, markupBp: 5_000 }]);
    expect((await priced(a, id)).draft?.sendable).toBe(true);
  });
});
