import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { hashOf } from "@/lib/data/common/hash";
import { storedQuote } from "@/lib/data/documents/quote";
import { postponeLine } from "@/lib/data/orders/cancel";
import { addToDrafts } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { placeOrder } from "@/lib/data/orders/place";
import { previewPriceList, takePriceList } from "@/lib/data/parts/priceList";
import { changePart } from "@/lib/data/parts/save";
import { withExtras } from "@/lib/data/quotes/extras";
import { getQuote } from "@/lib/data/quotes/get";
import { storedFacts } from "@/lib/data/quotes/keptFacts";
import { sendQuote } from "@/lib/data/quotes/send";
import { offerExtras, setValidUntil } from "@/lib/data/quotes/terms";
import { createQuote } from "@/lib/data/quotes/write";
import { getPart } from "@/lib/data/stock/parts";
import type { ShopHandle } from "@/lib/db/shop";
import { PriceListSchema } from "@/lib/schemas/orders";
import { PartSchema } from "@/lib/schemas/parts";
import { ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const draft = async (shop: ShopHandle, id: number) => {
  const found = (await getQuote(shop, id, { margin: true }))?.draft;
  if (!found) throw new Error("not a draft");
  return found;
};
const part = (shop: ShopHandle, code: string) =>
  shop.read.part.findUniqueOrThrow({ where: { code }, select: { id: true, version: true } });

/** Puts so many on order, due on a day; answers the order's line. */
async function due(
  shop: ShopHandle,
  code: string,
  pieces: number,
  dueOn: string,
  jobId?: number,
): Promise<number> {
  const { id: partId } = await part(shop, code);
  const [orderId = 0] = await addToDrafts(shop, [{ partId, quantityMilli: pieces * 1000, jobId }]);
  await placeOrder(shop, { orderId, version: (await getOrder(shop, orderId, true))?.version ?? 0 });
  const lines = (await getOrder(shop, orderId, true))?.lines ?? [];
  const lineId = lines.find((line) => line.part.code === code)?.id ?? 0;
  await postponeLine(shop, { lineId, dueOn });
  return lineId;
}

describe("parts that are not in stock", () => {
  it("are told with the day of their order, and the quote with the day on which all of them can be there", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a, 0);
    const id = await createQuote(a, ready);
    const before = await draft(a, id);
    const jet = before.parts.find((p) => p.setting === "mainJet")?.code ?? "";
    expect(before.parts.map((p) => p.note)).toEqual([
      "not in stock, to be ordered",
      "not in stock, to be ordered",
    ]);
    expect(before.ready).toEqual({ on: null, unknown: [before.parts[0]?.name, "Breather filter"], short: 2 });

    await due(a, jet, 1, "2026-12-04");
    await a.write((tx) => tx.part.update({ where: { code: "BF-20" }, data: { leadDays: 6 } }));
    const after = await draft(a, id);
    expect(after.parts.map((p) => p.note)).toEqual([
      "not in stock, on order, due 4 Dec 2026",
      "not in stock, 6 days to come, 1 Dec 2026 if ordered today",
    ]);
    expect(after.ready).toEqual({ on: "2026-12-04", unknown: [], short: 2 });

    const late = as(a, { now: new Date("2026-12-08T00:30:00Z") });
    expect((await draft(late, id)).parts[0]?.note).toBe(
      "not in stock, on order, was due 4 Dec 2026 and is not here",
    );
    expect((await draft(late, id)).ready).toMatchObject({ on: null, unknown: [after.parts[0]?.name] });
    expect(await b.read.orderLine.count()).toBe(0);
  });

  it("are not counted on where a job waits for what is coming", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a, 0);
    const first = await sentQuote(a, ready);
    await acceptQuote(a, yes(first));
    await due(a, "BF-20", 1, "2026-12-04");
    const id = await createQuote(a, ready);
    const filter = async () => (await draft(a, id)).parts.find((p) => p.code === "BF-20");
    expect(await filter()).toMatchObject({ arrival: { by: "unknown" } });
    await due(a, "BF-20", 1, "2026-12-11");
    expect(await filter()).toMatchObject({ arrival: { by: "order", on: "2026-12-11" } });
  });

  it("change neither what a sent quote printed nor what its extras come to", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a, 0);
    const id = await createQuote(a, ready);
    await offerExtras(a, { id, version: 1, extras: ["check"] });
    const lineId = await due(a, "BF-20", 1, "2026-12-04");
    const { revisionId } = await sendQuote(a, { id, version: 2, origin: ORIGIN });
    const row = () => a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    const hashWith = async () => {
      const { frozen, facts } = await row();
      const kept = storedFacts(facts);
      if (!kept) throw new Error("Facts are kept with extras.");
      return hashOf(await withExtras(storedQuote(frozen), kept, ["check"]));
    };
    const [sent, extra] = [await row(), await hashWith()];
    expect(JSON.stringify(sent.frozen)).not.toMatch(/arrival|coming|dueOn|2026-12-04/);
    await postponeLine(a, { lineId, dueOn: "2027-03-01" });
    await a.write((tx) => tx.part.updateMany({ data: { priceUntil: "2026-11-26" } }));
    expect(await row()).toEqual(sent);
    expect(await hashWith()).toBe(extra);
    // Facts that were kept before they named their format, and before parts told their days.
    const { coming: _c, priceUntil: _p, ...older } = storedFacts(sent.facts)?.parts[0] ?? {};
    const { today: _t, format: _f, version: _v, ...facts } = sent.facts as Record<string, unknown>;
    expect(storedFacts({ ...facts, parts: [older] })).toMatchObject({
      today: null,
      parts: [{ coming: [], priceUntil: null }],
    });
  });
});

describe("a price that is good until a day", () => {
  it("is warned of, by part and day, where the quote is valid for longer, until that is put right", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    const warned = async (shop = a) => (await draft(shop, id)).warnings.filter((w) => w.partId !== undefined);
    expect(await warned()).toEqual([]);
    const filter = await getPart(a, (await part(a, "BF-20")).id, true);
    const form = PartSchema.parse({
      ...Object.fromEntries(
        ["code", "name", "kind", "unit", "supplier"].map((k) => [k, String(filter?.[k as "code"])]),
      ),
      id: String(filter?.id),
      version: String(filter?.version),
      active: "true",
      price: "15.36",
      priceUntil: "2026-12-01",
    });
    await changePart(a, form);
    expect(await warned()).toMatchObject([
      {
        message:
          "The price of Breather filter (BF-20) is good until 1 Dec 2026; this quote is valid until 9 Dec 2026.",
        partId: filter?.id,
        stops: false,
      },
    ]);
    const later = as(a, { now: new Date("2026-12-02T00:30:00Z") });
    expect((await warned(later))[0]?.message).toBe(
      "The price of Breather filter (BF-20) was good until 1 Dec 2026 and has run out.",
    );
    await setValidUntil(a, { id, version: 1, validUntil: "2026-12-01" });
    expect(await warned()).toEqual([]);
    await expect(setValidUntil(a, { id, version: 2, validUntil: "2026-11-24" })).rejects.toThrow(
      /from today/,
    );
    await expect(setValidUntil(a, { id, version: 1, validUntil: "2026-12-02" })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect((await getQuote(a, id, { margin: true }))?.validUntil).toBe("2026-12-01");
  });

  it("is over for a draft too: it says so beside what sends it, with where it is put right, and can be sent after", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b]) {
      const id = await createQuote(shop, await readyToQuote(shop));
      const after = as(shop, { now: new Date("2026-12-11T00:30:00Z") });
      expect((await draft(shop, id)).sendable).toBe(true);
      const late = await draft(after, id);
      expect(late.sendable).toBe(false);
      expect(late.warnings.filter((w) => w.stops)).toEqual([
        {
          message: `The last day of this quote is over: ${shop === a ? "9 Dec 2026" : "9. des. 2026"}.`,
          remedy: "Give it a new last day.",
          stops: true,
          place: "terms",
        },
      ]);
      await expect(sendQuote(after, { id, version: 1, origin: ORIGIN })).rejects.toThrow(/was valid until/);
      await setValidUntil(after, { id, version: 1, validUntil: "2026-12-20" });
      expect((await draft(after, id)).sendable).toBe(true);
      await sendQuote(after, { id, version: 2, origin: ORIGIN });
    }
  });

  it("says nothing of a part that has no line of its own in the price", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    await a.write((tx) =>
      tx.part.updateMany({ where: { code: "RM-155" }, data: { priceUntil: "2026-11-26" } }),
    );
    expect((await draft(a, id)).warnings.filter((w) => w.partId !== undefined)).toEqual([]);
  });

  it("comes with its supplier's list, for what the list confirms too, and goes when a list changes the cost and names none", async () => {
    const { a } = await twoShops();
    await readyToQuote(a);
    const supplier = await a.write((tx) =>
      tx.supplier.create({ data: { name: "Own drawer", searchKey: "own", createdAt: a.now } }),
    );
    const list = (rows: string, goodUntil = "") =>
      PriceListSchema.parse({
        supplierId: String(supplier.id),
        text: `code,cost\n${rows}`,
        map: { code: "0", costE4: "1" },
        goodUntil,
      });
    const days = async () =>
      (await a.read.part.findMany({ where: { priceUntil: { not: null } }, orderBy: { code: "asc" } })).map(
        (p) => [p.code, p.priceUntil],
      );
    const first = list("BF-20,9.60\nRM-140,4.50\n", "2027-01-31");
    expect(await previewPriceList(a, first)).toMatchObject({ unchanged: 1, changes: [{ code: "RM-140" }] });
    expect(await days()).toEqual([]);
    await takePriceList(a, first, "list-once");
    await takePriceList(a, first, "list-once");
    expect(await days()).toEqual([
      ["BF-20", "2027-01-31"],
      ["RM-140", "2027-01-31"],
    ]);
    await takePriceList(a, list("BF-20,9.60\nRM-140,4.80\n"));
    expect(await days()).toEqual([["BF-20", "2027-01-31"]]);
    // Another supplier's list says nothing of a part that is usually bought elsewhere.
    const other = await a.write((tx) =>
      tx.supplier.create({ data: { name: "Ridge Brass", searchKey: "ridge", createdAt: a.now } }),
    );
    const { id: partId } = await part(a, "RM-140");
    await a.write((tx) =>
      tx.partSupplier.create({ data: { partId, supplierId: other.id, code: "RB-140", codeKey: "rb140" } }),
    );
    await takePriceList(a, { ...list("RM-140,4.10\n", "2027-06-30"), supplierId: other.id });
    expect(await days()).toEqual([["BF-20", "2027-01-31"]]);
  });

  it("is refused as a day that is none", () => {
    const named = PartSchema.safeParse({ priceUntil: "soon" });
    expect(named.error?.issues.find((issue) => issue.path[0] === "priceUntil")?.message).toMatch(
      /Enter a day/,
    );
  });
});
