import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { addToJob } from "@/lib/data/acceptance/addToJob";
import { openJob } from "@/lib/data/acceptance/openJob";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedQuote } from "@/lib/data/documents/quote";
import { previewInvoice } from "@/lib/data/invoices/get";
import { openKitInto } from "@/lib/data/kits/intoOption";
import { getKit, listKits } from "@/lib/data/kits/read";
import { retireKit, saveKit } from "@/lib/data/kits/write";
import { mergeParts, previewParts } from "@/lib/data/merging/parts";
import { publishRevision } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { getPackage } from "@/lib/data/packages/get";
import { printOf, saveItem } from "@/lib/data/packages/items";
import { removePart } from "@/lib/data/parts/remove";
import { getQuote } from "@/lib/data/quotes/get";
import { saveSettings } from "@/lib/data/quotes/switchTax";
import { writeKit } from "@/lib/data/quotes/works";
import { createQuote } from "@/lib/data/quotes/write";
import { findKitsForSale, saleBookOf } from "@/lib/data/sales/parts";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { openKit } from "@/lib/domain/pricing/kit";
import { AddToJobSchema, OpenJobSchema } from "@/lib/schemas/agreements";
import { KitSchema } from "@/lib/schemas/kits";
import { OptionFormSchema } from "@/lib/schemas/recipeForms";
import { nameShop } from "../support/invoices";
import { makeBike, readyToQuote, sentQuote, yes } from "../support/quotes";
import { line, partToSell, saleOf, sold } from "../support/sales";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

const code = async (shop: ShopHandle, id: number) =>
  (await shop.read.part.findUniqueOrThrow({ where: { id }, select: { code: true } })).code;
const typed = (more: object = {}) => ({
  code: "KIT-BOWL",
  name: "Bowl kit",
  fits: "Round 34",
  price: "19.90",
  ...more,
});

/** A kit of four screws and a seal; answers its id and its parts'. */
async function bowlKit(shop: ShopHandle, more: object = {}) {
  const screw = await partToSell(shop, { name: "Screw M4 x 12", price: "0.80", opening: "11" });
  const seal = await partToSell(shop, { name: "Bowl seal", price: "12.50", opening: "3" });
  const parts = {
    "0": { code: await code(shop, screw), quantity: "4" },
    "1": { code: await code(shop, seal), quantity: "1" },
  };
  const id = await saveKit(shop, KitSchema.parse(typed({ parts, ...more })));
  return { id, screw, seal, parts };
}
const kitOf = async (shop: ShopHandle, id: number) => getKit(shop, id, await saleBookOf(shop.read));

describe("a kit", () => {
  it("is parts with quantities and a price, and says how many the free stock makes; the other shop has none", async () => {
    const { id, parts } = await bowlKit(a);
    const kit = await kitOf(a, id);
    expect(kit).toMatchObject({ code: "KIT-BOWL", priceMinor: 1990, free: 2 });
    expect(kit?.parts.map(({ quantityMilli }) => quantityMilli)).toEqual([4000, 1000]);
    expect(await listKits(b, await saleBookOf(b.read))).toEqual([]);
    await expect(saveKit(a, KitSchema.parse(typed({ parts })))).rejects.toThrow("belongs to");
    await expect(
      saveKit(a, KitSchema.parse(typed({ code: "K2", parts: { "0": { code: "NOPE", quantity: "1" } } }))),
    ).rejects.toMatchObject({ fields: { "parts.0.code": "There is no part NOPE." } });
    const edit = KitSchema.parse(typed({ id: String(id), version: "1", price: "", parts }));
    await saveKit(a, edit);
    expect((await kitOf(a, id))?.priceMinor).toBeNull();
    await expect(saveKit(a, edit)).rejects.toThrow("changed since you opened it");
  });

  it("keeps its parts from being removed, and follows none that is put away to the counter", async () => {
    const { id, seal } = await bowlKit(a);
    await expect(removePart(a, { id: seal, version: 1 })).rejects.toThrow("kit");
    expect(await findKitsForSale(a, "bowl KIT")).toHaveLength(1);
    await a.write((tx) => tx.part.update({ where: { id: seal }, data: { active: false } }));
    expect(await findKitsForSale(a, "KIT-BOWL")).toEqual([]);
    await retireKit(a, { id, version: 1, active: "no" });
    expect((await kitOf(a, id))?.active).toBe(false);
  });

  it("has so many of the kept one where two of its parts become one", async () => {
    const { id, screw, seal } = await bowlKit(a);
    const found = await previewParts(a.read, seal, screw);
    if (!found) throw new Error("Both are there.");
    const { kept, gone } = found.preview;
    await mergeParts(a, {
      keptId: kept.id,
      keptVersion: kept.version,
      goneId: gone.id,
      goneVersion: gone.version,
    });
    const kit = await kitOf(a, id);
    expect(kit?.parts.map((part) => [part.id, part.quantityMilli])).toEqual([[seal, 5000]]);
  });

  it("sold over the counter comes to its price to the cent and takes its parts out of stock", async () => {
    await nameShop(a, { cashRoundingMinor: 5 });
    const { screw, seal } = await bowlKit(a);
    const [kit] = await findKitsForSale(a, "KIT-BOWL");
    if (!kit) throw new Error("The kit is found.");
    const opened = openKit(
      kit.parts.map(({ part, quantityMilli }) => ({ code: part.code, quantityMilli, priceE4: part.priceE4 })),
      kit.priceMinor,
      2,
      "AUD",
    );
    const sale = await sold(
      a,
      saleOf(
        kit.parts.map(({ part }, at) =>
          line(part.id, (opened[at]?.quantityMilli ?? 0) / 1000, opened[at]?.unitPriceE4 ?? 0),
        ),
      ),
    );
    expect(sale.invoices[0]?.grossMinor).toBe(3980);
    expect(sale.moves.map(({ partId, quantityMilli }) => [partId, quantityMilli])).toEqual([
      [screw, -8000],
      [seal, -2000],
    ]);
    const left = await a.read.part.findMany({ where: { id: { in: [screw, seal] } }, orderBy: { id: "asc" } });
    expect(left.map(({ onHandMilli }) => onHandMilli)).toEqual([3000, 1000]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("put on a quote is a work of its own at its price, with its parts to be reserved", async () => {
    const { bikeId, packageId } = await readyToQuote(a);
    const { id: kitId } = await bowlKit(a);
    const id = await createQuote(a, { bikeId, packageId });
    const before = await getQuote(a, id, { margin: true });
    if (!before?.draft) throw new Error("The quote is a draft.");
    await writeKit(a, { id, version: before.version, kitId, count: 2 });
    const after = await getQuote(a, id, { margin: true });
    expect(after?.works.at(-1)).toMatchObject({ name: "Bowl kit, 2 kits" });
    const gross = (quote: typeof after) => quote?.draft?.price.grossMinor ?? 0;
    expect(gross(after) - gross(before)).toBe(3980);
    await expect(writeKit(a, { id, version: after?.version ?? 0, kitId: 999, count: 1 })).rejects.toThrow(
      "no such kit",
    );
  });

  it("opened into an option of a package adds its parts to what the option has, once for one request", async () => {
    const { packageId } = await readyToQuote(a);
    await beginDraft(a, { packageId });
    const { id: kitId, parts } = await bowlKit(a);
    const input = { packageId, kitId, option: "needle", key: "open-kit-1" };
    await openKitInto(a, input);
    await openKitInto(a, input);
    await openKitInto(a, { ...input, key: "open-kit-2" });
    const option = (await getPackage(a, packageId))?.shown?.recipe.options.find(
      ({ key }) => key === "needle",
    );
    const kit = "KIT-BOWL";
    expect(option?.parts).toEqual([
      { kind: "part", code: parts["0"].code, quantityMilli: 8000, kit },
      { kind: "part", code: parts["1"].code, quantityMilli: 2000, kit },
    ]);
    expect(option?.kits).toEqual([{ code: kit, name: "Bowl kit", priceMinor: 3980 }]);
    await expect(openKitInto(a, { packageId, kitId, option: "gone" })).rejects.toThrow("not in the draft");
  });

  it("opened into an option costs its price on the quote, as quoted, and as worked by what of it was fitted", async () => {
    for (const shop of [a, b]) {
      await nameShop(shop);
      const ready = await readyToQuote(shop);
      await beginDraft(shop, { packageId: ready.packageId });
      const { id: kitId, screw, seal } = await bowlKit(shop);
      await openKitInto(shop, { packageId: ready.packageId, kitId, option: "breather" });
      const plain = await createQuote(shop, { bikeId: ready.bikeId, packageId: ready.packageId });
      const [draft] = await shop.read.packageRevision.findMany({ where: { state: "draft" } });
      await publishRevision(shop, { revisionId: draft?.id ?? 0, version: draft?.version ?? 0 });
      const sent = await sentQuote(shop, ready);
      const before = await getQuote(shop, plain, { margin: true });
      const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
      expect(row.grossMinor - (before?.draft?.price.grossMinor ?? 0)).toBe(1990);
      const ofKit = storedQuote(row.frozen).lines.filter((line) => line.kit);
      expect(ofKit.map((line) => [line.quantityMilli, line.shownMinor])).toEqual([
        [4000, 406],
        [1000, 1584],
      ]);
      const { jobId } = await acceptQuote(shop, yes(sent));
      const step = await shop.read.step.findFirstOrThrow({ where: { jobId, key: "breather" } });
      await shop.write(async (tx) => {
        await tx.reservation.updateMany({ where: { jobId }, data: { state: "released", reservedMilli: 0 } });
        await tx.part.updateMany({ data: { reservedMilli: 0 } });
        await tx.job.update({ where: { id: jobId }, data: { state: "ready", finishedAt: shop.now } });
      });
      const use = (partId: number, quantityMilli: number) =>
        recordMove(shop, { partId, kind: "use", quantityMilli, jobId, stepId: step.id });
      // Two of its four screws: 2.03 of 4.06. A second seal is none of the kit's, so it goes at its own 12.50.
      await use(screw, 2000);
      await use(seal, 2000);
      const { fixed, asWorked } = (await previewInvoice(shop, jobId)) ?? {};
      const shown = (lines: typeof ofKit = []) =>
        lines.map((line) => [line.kit?.code ?? "", line.shownMinor]);
      const parts = asWorked?.doc?.lines.filter((line) => line.kind === "part");
      expect(shown(parts)).toEqual([
        ["KIT-BOWL", 203],
        ["KIT-BOWL", 1584],
        ["", 1250],
      ]);
      expect(fixed?.doc?.grossMinor).toBe(row.grossMinor);
    }
  });

  it("keeps its price through the forms of its option, and through a switch of tax in prices", async () => {
    const { packageId } = await readyToQuote(a);
    await beginDraft(a, { packageId });
    const { id: kitId, parts } = await bowlKit(a);
    await openKitInto(a, { packageId, kitId, option: "needle" });
    const optionNow = async () =>
      (await getPackage(a, packageId))?.shown?.recipe.options.find(({ key }) => key === "needle");
    const seen = await optionNow();
    const form = OptionFormSchema.parse({
      packageId: String(packageId),
      key: "needle",
      seen: printOf(seen),
      name: "Needle",
      group: "fuel",
      parts: { "0": { kind: "part", what: parts["1"].code, quantity: "1", kit: "KIT-BOWL" } },
    });
    const { item, fixedPrice, ...ref } = form;
    await saveItem(a, "options", ref, item, fixedPrice);
    expect((await optionNow())?.kits).toEqual([{ code: "KIT-BOWL", name: "Bowl kit", priceMinor: 1990 }]);
    const { id: _, version, ...settings } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    const other = { ...settings, version, pricesIncludeTax: !settings.pricesIncludeTax };
    await saveSettings(a, { ...other, convertPrices: "convert" });
    // 19.90 with 10 % in it is 18.09 without.
    expect((await kitOf(a, kitId))?.priceMinor).toBe(1809);
    expect((await optionNow())?.kits?.[0]?.priceMinor).toBe(1809);
  });

  it("written on a job that stands on a word costs its price there", async () => {
    await nameShop(a);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const { id: kitId } = await bowlKit(a);
    const asked = { bikeId: String(bikeId), kind: "word", title: "Bowl leaks", saidBy: "Ines", upTo: "60" };
    const jobId = await openJob(a, OpenJobSchema.parse(asked));
    const more = { jobId: String(jobId), title: "Bowl kit", kitId: String(kitId) };
    await addToJob(a, AddToJobSchema.parse({ ...more, kitCount: "2" }));
    const agreed = () =>
      a.read.quoteRevision.findMany({ where: { frozenAt: { not: null } }, orderBy: { id: "asc" } });
    expect((await agreed()).map(({ grossMinor }) => grossMinor)).toEqual([0, 3980]);
    const held = await a.read.reservation.findMany({ where: { jobId }, orderBy: { id: "asc" } });
    expect(held.map(({ wantedMilli }) => wantedMilli)).toEqual([8000, 2000]);
    await expect(addToJob(a, AddToJobSchema.parse({ ...more, kitCount: "2" }))).rejects.toThrow(
      "agreed up to",
    );
    expect(await agreed()).toHaveLength(2);
  });
});
