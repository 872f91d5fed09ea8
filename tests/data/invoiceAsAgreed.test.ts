import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { storedQuote } from "@/lib/data/documents/quote";
import { previewInvoice } from "@/lib/data/invoices/get";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { NO_TERMS } from "@/lib/domain/quoting/terms";
import { nameShop } from "../support/invoices";
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

/** All four options of the package agreed with these terms, and the job done: minutes by step, parts by the step that took them. */
async function worked(shop: ShopHandle, terms: QuoteTerms) {
  const packageId = await roadShop(shop, { workshop: 9_000, bench: 12_000 });
  for (const part of await shop.read.part.findMany({ orderBy: { id: "asc" } }))
    await recordMove(shop, {
      partId: part.id,
      kind: "opening",
      quantityMilli: 9000,
      unitCostE4: part.costE4 ?? undefined,
    });
  const bikeId = await roadBike(shop, ROAD_BIKES[0] as RoadBike, 750);
  const id = await createQuote(shop, { bikeId, packageId });
  await shop.write((tx) =>
    tx.quoteRevision.updateMany({ where: { quoteId: id }, data: { terms: terms as never } }),
  );
  const { revisionId } = await sendQuote(shop, { id, version: 1, origin: ORIGIN });
  const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  const frozen = storedQuote(row.frozen);
  const { jobId } = await acceptQuote(shop, {
    revisionId,
    typedName: "Ines Valdborg",
    acknowledgements: frozen.acknowledgements.map((one) => one.key),
    shownHash: row.hash ?? "",
    agent: "test browser",
  });
  const steps = await shop.read.step.findMany({ where: { jobId }, orderBy: { position: "asc" } });
  const step = (key: string, kind = "operation") =>
    steps.find((one) => one.key === key && one.kind === kind)?.id ?? 0;
  const minutes: [number, number][] = [
    [step("cut"), 40],
    [step("jet"), 10],
    [step("check"), 25],
    [step("seat", "open"), 12],
  ];
  await shop.write(async (tx) => {
    for (const [stepId, spent] of minutes)
      await tx.timeEntry.create({
        data: {
          staffId: shop.by.staffId ?? 0,
          jobId,
          stepId,
          startedAt: new Date(shop.now.getTime() - 86_400_000),
          endedAt: new Date(shop.now.getTime() - 86_400_000 + spent * 60_000),
        },
      });
    // The parts reserved for the job go as they would on its card.
    await tx.reservation.updateMany({ where: { jobId }, data: { state: "released", reservedMilli: 0 } });
    await tx.part.updateMany({ data: { reservedMilli: 0 } });
    await tx.job.update({ where: { id: jobId }, data: { state: "ready", finishedAt: shop.now } });
  });
  const use = async (code: string, quantityMilli: number, stepId: number) => {
    const { id: partId } = await shop.read.part.findUniqueOrThrow({ where: { code } });
    await recordMove(shop, { partId, kind: "use", quantityMilli, jobId, stepId });
  };
  await use("BF-20", 1000, step("breather"));
  await use("TL-M", 1500, step("breather"));
  await use("RM-142.5", 1000, step("jet"));
  // A fixed price pays for what its own step takes.
  await use("TL-M", 500, step("check"));
  return { jobId, frozen, step };
}

const shownOf = async (shop: ShopHandle, jobId: number) => {
  const { doc } = (await previewInvoice(shop, jobId))?.asWorked ?? {};
  return { doc, lines: Object.fromEntries((doc?.lines ?? []).map((line) => [line.key, line.shownMinor])) };
};

const AGREED: QuoteTerms = {
  ...NO_TERMS,
  lines: [
    { key: "collect", kind: "text", name: "Collected from the coast", priceMinor: 4_000, costMinor: 0 },
    { key: "weld", kind: "outside", name: "Header weld", priceMinor: 8_800, costMinor: 6_000 },
  ],
  lineDiscounts: [
    { line: "work-workshop", bp: 1_000, why: "Reserved" },
    { line: "BF-20", bp: 2_000, why: "Old stock" },
  ],
};

describe("an invoice as worked keeps what was agreed", () => {
  it("fixed prices instead of their time and parts, lines by hand, discounts of lines and a share off all", async () => {
    const { jobId } = await worked(b, {
      ...AGREED,
      discount: { kind: "percent", bp: 500, why: "Neighbour" },
    });
    const { doc, lines } = await shownOf(b, jobId);
    // Workshop 40 + 12 min at 90.00: 78.00; the 25 min of the fixed check are in its price. Bench 10 min at 120.00: 20.00.
    // Filter 12.3456 + 60 %: 19.75. Threadlocker 1.5 x 1.2375: 1.86. Jet 4.1735 + 100 %: 8.35. Check 45.67.
    // Quoted: 34 min of workshop work 51.00 with 10 % off, 21 min of opening 31.50 without: 5.10 of 82.50 is 6.18 %.
    // 6.18 % of 78.00: 4.82. 20 % of 19.75: 3.95. Sum 301.63 - 8.77 = 292.86, 5 % of it 14.64: 278.22. Tax 25 %: 69.56.
    expect(lines).toEqual({
      "worked-workshop": 7_800,
      "worked-bench": 2_000,
      "BF-20": 1_975,
      "TL-M": 186,
      "RM-142.5": 835,
      check: 4_567,
      weld: 8_800,
      collect: 4_000,
      "off-worked-workshop": -482,
      "off-BF-20": -395,
      "discount-S-2500": -1_464,
    });
    expect([doc?.netMinor, doc?.taxMinor, doc?.grossMinor]).toEqual([27_822, 6_956, 34_778]);
    expect(await a.read.job.count()).toBe(0);
  });

  it("the customer's own share as it was when quoted, and an amount off", async () => {
    const { jobId } = await worked(a, {
      ...AGREED,
      discount: { kind: "amount", minor: 1_500, why: "Goodwill" },
    });
    await a.write((tx) => tx.customer.updateMany({ data: { discountBp: 0, discountClass: "" } }));
    const { doc, lines } = await shownOf(a, jobId);
    // With GST in the prices: filter 12.3456 x 1.6 x 1.1 = 21.73, jet 4.1735 x 2 x 1.1 = 9.18. Sum 304.44.
    // Off 4.82 and 20 % of 21.73, 4.35: 295.27. 7.5 % of it 22.15: 273.12. Less 15.00: 258.12, 1/11 of it 23.47.
    expect(lines).toMatchObject({
      "BF-20": 2_173,
      "RM-142.5": 918,
      "off-worked-workshop": -482,
      "off-BF-20": -435,
      "discount-S-1000": -2_215,
      "amount-off-S-1000": -1_500,
    });
    expect([doc?.grossMinor, doc?.taxMinor]).toEqual([25_812, 2_347]);
  });

  it("amounts as agreed where the shop has since turned its prices from without tax to with it", async () => {
    const { jobId } = await worked(b, AGREED);
    await b.write((tx) => tx.settings.update({ where: { id: 1 }, data: { pricesIncludeTax: true } }));
    const { lines } = await shownOf(b, jobId);
    // 45.67 x 1.25 = 57.0875; 40.00 x 1.25 = 50.00; 88.00 x 1.25 = 110.00: what the customer pays stays the same.
    expect(lines).toMatchObject({ check: 5_709, collect: 5_000, weld: 11_000 });
  });

  it("drops a fixed price none of whose work was done, and keeps it where some was", async () => {
    const { jobId, step } = await worked(b, AGREED);
    expect((await shownOf(b, jobId)).lines.check).toBe(4_567);
    await b.write((tx) =>
      tx.step.update({ where: { id: step("check") }, data: { state: "skipped", reason: "Not wanted" } }),
    );
    expect((await shownOf(b, jobId)).lines).not.toHaveProperty("check");
  });
});
