import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedQuote } from "@/lib/data/documents/quote";
import { previewInvoice } from "@/lib/data/invoices/get";
import { accountForOne } from "@/lib/data/jobs/partsLeft";
import { removePart } from "@/lib/data/parts/remove";
import { getQuote } from "@/lib/data/quotes/get";
import { sendQuote } from "@/lib/data/quotes/send";
import { addLine, discountLine, removeLine } from "@/lib/data/quotes/terms";
import { createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { nameShop } from "../support/invoices";
import { ORIGIN, readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a, { pricesIncludeTax: false });
  await nameShop(b);
});

const draftOf = async (shop: ShopHandle, id: number) => {
  const quote = await getQuote(shop, id, { margin: true });
  if (!quote?.draft) throw new Error("No draft.");
  return { ...quote, draft: quote.draft };
};
const add = async (shop: ShopHandle, id: number, more: Partial<Parameters<typeof addLine>[1]>) =>
  addLine(shop, {
    ...{ id, version: (await draftOf(shop, id)).version },
    ...{ kind: "part", name: "", price: "", cost: "", ...more },
  });

/** A draft with two spare jets at 12.00 each and a filter at its own price, besides its package. */
async function withParts(shop: ShopHandle) {
  const id = await createQuote(shop, await readyToQuote(shop, 5));
  await add(shop, id, { part: "RM-150", name: "Spare jet", quantity: 2000, price: "12.00", cost: "4.00" });
  await add(shop, id, { part: "BF-20" });
  return id;
}

async function accepted(shop: ShopHandle, id: number) {
  const { revisionId } = await sendQuote(shop, {
    id,
    version: (await draftOf(shop, id)).version,
    origin: ORIGIN,
  });
  const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  const frozen = storedQuote(row.frozen);
  const { jobId } = await acceptQuote(shop, {
    revisionId,
    typedName: "Ines Valdborg",
    acknowledgements: frozen.acknowledgements.map((one) => one.key),
    shownHash: row.hash ?? "",
    agent: "test browser",
  });
  return { jobId, frozen };
}

describe("a part of stock written on a quote by hand", () => {
  it("is priced as agreed or as the part is, counted against the drawer, and reserved for the job", async () => {
    for (const shop of [a, b]) {
      const id = await withParts(shop);
      const { draft } = await draftOf(shop, id);
      expect(
        draft.parts.filter((part) => part.byHand).map((part) => [part.code, part.quantityMilli]),
      ).toEqual([
        ["RM-150", 2000],
        ["BF-20", 1000],
      ]);
      const line = (key: string) => draft.price.lines.find((one) => one.key === key);
      // 2 x 12.00; cost 2 x 4.00.
      expect(line("hand-1")).toMatchObject({
        kind: "part",
        name: "Spare jet",
        shownMinor: 2_400,
        costMinor: 800,
      });
      expect(line("hand-2")?.shownMinor).toBe(line("BF-20")?.shownMinor);
      const { jobId, frozen } = await accepted(shop, id);
      expect(frozen.parts.filter((part) => part.operation === null)).toMatchObject([
        { code: "RM-150", quantityMilli: 2000 },
        { code: "BF-20", quantityMilli: 1000 },
      ]);
      const held = await shop.read.reservation.findMany({
        where: { jobId, stepId: null },
        select: { reservedMilli: true, part: { select: { code: true } } },
        orderBy: { id: "asc" },
      });
      expect(held).toEqual([
        { reservedMilli: 2000, part: { code: "RM-150" } },
        { reservedMilli: 1000, part: { code: "BF-20" } },
      ]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is charged as worked at the price that was agreed, as far as it was used", async () => {
    for (const shop of [a, b]) {
      const id = await withParts(shop);
      await discountLine(shop, {
        ...{ id, version: (await draftOf(shop, id)).version },
        ...{ line: "hand-1", percent: 1_000, why: "Two at once" },
      });
      const { jobId } = await accepted(shop, id);
      const [jets, filter] = await shop.read.reservation.findMany({
        where: { jobId, stepId: null },
        orderBy: { id: "asc" },
      });
      await accountForOne(shop, { jobId, reservationId: jets?.id ?? 0, used: true, why: "" });
      await accountForOne(shop, { jobId, reservationId: filter?.id ?? 0, used: false, why: "Still clean" });
      await shop.write((tx) =>
        tx.job.update({ where: { id: jobId }, data: { state: "ready", finishedAt: shop.now } }),
      );
      const { fixed, asWorked } = (await previewInvoice(shop, jobId)) ?? {};
      const shown = (doc: typeof fixed, key: string) =>
        doc?.doc?.lines.find((line) => line.key === key)?.shownMinor;
      expect([shown(fixed, "hand-1"), shown(asWorked, "hand-1")]).toEqual([2_400, 2_400]);
      // 10 % of 24.00.
      expect([shown(fixed, "off-hand-1"), shown(asWorked, "off-hand-1")]).toEqual([-240, -240]);
      expect(shown(asWorked, "hand-2")).toBeUndefined();
      expect(asWorked?.doc?.lines.some((line) => line.key === "RM-150")).toBe(false);
    }
  });

  it("is taken off again with its discount, and keeps its part from being removed meanwhile", async () => {
    const id = await withParts(a);
    const { id: partId, version } = await a.read.part.findUniqueOrThrow({ where: { code: "RM-150" } });
    const { number } = await a.read.quote.findUniqueOrThrow({ where: { id } });
    await expect(removePart(a, { id: partId, version })).rejects.toThrow(
      `RM-150 is taken by quote ${number}.`,
    );
    await discountLine(a, {
      ...{ id, version: (await draftOf(a, id)).version },
      ...{ line: "hand-1", percent: 1_000, why: "Two at once" },
    });
    await removeLine(a, { id, version: (await draftOf(a, id)).version, line: "hand-1" });
    const { draft } = await draftOf(a, id);
    expect(draft.agreed.lineDiscounts).toEqual([]);
    expect(draft.parts.some((part) => part.byHand === "hand-1")).toBe(false);
    // Its number is not given to the next line while another stands.
    await add(a, id, { part: "RM-152.5" });
    expect((await draftOf(a, id)).draft.agreed.parts?.map((part) => part.key)).toEqual(["hand-2", "hand-3"]);
  });

  it("is refused where the shop has no such part, also one of another shop, and tells what is short", async () => {
    const id = await withParts(a);
    await b.write((tx) =>
      tx.part.create({
        data: { code: "ONLY-B", name: "Theirs", kind: "other", searchKey: "x", createdAt: b.now },
      }),
    );
    await expect(add(a, id, { part: "ONLY-B" })).rejects.toMatchObject({
      message: "No part has the code ONLY-B.",
      fields: { part: expect.any(String) },
    });
    // Of the five in the drawer the package's own work takes one.
    await add(a, id, { part: "RM-145", quantity: 7000 });
    const { draft } = await draftOf(a, id);
    expect(draft.parts.find((part) => part.byHand === "hand-3")).toMatchObject({ shortMilli: 3000 });
  });
});
