import { expect, it } from "vitest";
import { previewInvoice } from "@/lib/data/invoices/get";
import { createPart } from "@/lib/data/parts/save";
import { getQuote } from "@/lib/data/quotes/get";
import { getWork } from "@/lib/data/quotes/getWork";
import { addLine } from "@/lib/data/quotes/terms";
import { writeWork } from "@/lib/data/quotes/works";
import { createQuote } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart } from "@/lib/data/stock/parts";
import { NewPartSchema } from "@/lib/schemas/parts";
import { WrittenWorkSchema } from "@/lib/schemas/works";
import { workForm } from "../support/chain";
import { nameShop, readyJob } from "../support/invoices";
import { readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

it("parts and lines by hand marked as not taxed stand in groups of their own, with tax in the prices and on top", async () => {
  const { a, b } = await twoShops();
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  for (const shop of [a, b]) {
    const ready = await readyToQuote(shop);
    await shop.write((tx) =>
      tx.part.update({ where: { code: "BF-20" }, data: { taxCategory: "Z", priceE4: 200_000 } }),
    );
    const id = await createQuote(shop, ready);
    const line = {
      id,
      version: 1,
      kind: "text",
      name: "Insurance passed on",
      price: "30",
      cost: "",
    } as const;
    await addLine(shop, { ...line, taxMark: "O" });
    const price = (await getQuote(shop, id, { margin: true }))?.draft?.price;
    const of = (key: string) => price?.lines.find((one) => one.key === key);
    expect(of("BF-20")).toMatchObject({ taxCategory: "Z", taxRateBp: 0, netMinor: 2_000, shownMinor: 2_000 });
    expect(of("hand-1")).toMatchObject({
      taxCategory: "O",
      taxRateBp: 0,
      netMinor: 3_000,
      shownMinor: 3_000,
    });
    const taxed = price?.taxes.find((tax) => tax.category === "S");
    const untaxed = price?.taxes.filter((tax) => tax.category !== "S");
    expect(untaxed?.map((tax) => [tax.category, tax.taxableMinor, tax.taxMinor])).toEqual([
      ["O", 3_000, 0],
      ["Z", 2_000, 0],
    ]);
    expect(price?.taxMinor).toBe(taxed?.taxMinor);
    expect(price?.netMinor).toBe((taxed?.taxableMinor ?? 0) + 5_000);
  }
});

it("work from outside in a written work may be marked too, is priced so and stays so when it is written anew", async () => {
  const { a, b } = await twoShops();
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  for (const shop of [a, b]) {
    const ready = await readyToQuote(shop);
    const id = await createQuote(shop, ready);
    const before = (await getQuote(shop, id, { margin: true }))?.draft?.price;
    const form = (version: number, taxMark: string) =>
      workForm({
        id: String(id),
        version: String(version),
        name: "Tank sent away",
        outside: {
          0: { name: "Inspection fee passed on", price: "80.00", cost: "80.00", taxMark },
          1: { name: "Tank sealed", price: "50.00", cost: "30.00" },
        },
        ...(version > 1 ? { work: "w2", isNew: "no" } : {}),
      });
    await writeWork(shop, form(1, "O"));
    const priced = async () => (await getQuote(shop, id, { margin: true }))?.draft?.price;
    const after = await priced();
    const of = (key: string) => after?.lines.find((one) => one.key === key);
    expect(of("w2:outside-1")).toMatchObject({ taxCategory: "O", taxRateBp: 0, netMinor: 8_000 });
    expect(of("w2:outside-2")).toMatchObject({ taxCategory: "S", shownMinor: 5_000 });
    // 80.00 without tax and 50.00 with it: in the price (AUD), or 25 % on top (NOK).
    expect((after?.grossMinor ?? 0) - (before?.grossMinor ?? 0)).toBe(8_000 + (shop === a ? 5_000 : 6_250));
    expect((await getWork(shop, id, "w2"))?.work).toMatchObject({
      outside: [{ taxMark: "O", priceMinor: 8_000 }, { priceMinor: 5_000 }],
    });
    await writeWork(shop, form(2, ""));
    expect((await priced())?.lines.find((one) => one.key === "w2:outside-1")?.taxCategory).toBe("S");
    expect(
      WrittenWorkSchema.safeParse({
        id: "1",
        version: "1",
        name: "x",
        outside: { 0: { name: "x", price: "1", taxMark: "S" } },
      }).success,
    ).toBe(false);
  }
});

it("a part's mark is kept with it, and an invoice as worked bills it so", async () => {
  const { a, b } = await twoShops();
  await nameShop(a);
  const { jobId } = await readyJob(a);
  const fields = { code: "MAN-1", name: "Workshop manual", kind: "other", unit: "each", price: "40" };
  const partId = await createPart(
    a,
    NewPartSchema.parse({ ...fields, taxMark: "E", opening: "2", cost: "20" }),
  );
  expect((await getPart(a, partId, true))?.taxMark).toBe("E");
  await recordMove(a, { partId, kind: "use", quantityMilli: 1000, jobId });
  const { doc } = (await previewInvoice(a, jobId))?.asWorked ?? {};
  expect(doc?.lines.find((line) => line.key === "MAN-1")).toMatchObject({
    taxCategory: "E",
    netMinor: 4_000,
    shownMinor: 4_000,
  });
  expect(doc?.taxes.map((tax) => tax.name)).toContain("Exempt from GST");
  expect(await b.read.part.count()).toBe(0);
});
