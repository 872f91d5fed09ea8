import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { discardDraft, draftInvoice } from "@/lib/data/invoices/draft";
import { changeBasis } from "@/lib/data/invoices/draftJobs";
import { addInvoiceLine, editLine, putLineBack } from "@/lib/data/invoices/edits";
import { getInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { AddInvoiceLineSchema, EditLineSchema } from "@/lib/schemas/invoiceEdits";
import { invoiceNow, nameShop, readyJob } from "../support/invoices";
import { partToSell } from "../support/sales";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

/** A draft as quoted of a finished job on which time was spent and filters were used. */
async function draft(shop: ShopHandle) {
  const { jobId, grossMinor } = await readyJob(shop);
  await shop.write(async (tx) => {
    const step = await tx.step.findFirstOrThrow({ where: { jobId }, orderBy: { position: "asc" } });
    const startedAt = new Date(shop.now.getTime() - 86_400_000);
    await tx.timeEntry.create({
      data: {
        staffId: shop.by.staffId ?? 0,
        jobId,
        stepId: step.id,
        startedAt,
        endedAt: new Date(startedAt.getTime() + 30 * 60_000),
      },
    });
  });
  const filter = await shop.read.part.findUniqueOrThrow({ where: { code: "BF-20" } });
  await recordMove(shop, { partId: filter.id, kind: "use", quantityMilli: 2000, jobId });
  const id = await draftInvoice(shop, { jobId, basis: "fixed" });
  return { id, jobId, grossMinor };
}

const view = async (shop: ShopHandle, id: number) => {
  const found = await getInvoice(shop, id);
  if (!found?.doc) throw new Error(found?.refused?.message ?? "no such invoice");
  return { ...found, doc: found.doc, sides: found.sides ?? [] };
};
const labourOf = async (shop: ShopHandle, id: number) => {
  const line = (await view(shop, id)).doc.lines.find((one) => one.kind === "labour");
  if (!line) throw new Error("no labour");
  return line;
};
const edit = (id: number, version: number, key: string, more: Record<string, string>) =>
  EditLineSchema.parse({
    id: String(id),
    version: String(version),
    key,
    act: "change",
    reason: "As agreed by phone",
    ...more,
  });
const extra = (id: number, version: number, more: Record<string, string> = {}) =>
  AddInvoiceLineSchema.parse({
    id: String(id),
    version: String(version),
    kind: "fixed",
    name: "Disposal of old fuel",
    quantity: "2",
    price: "5.50",
    reason: "Forgotten on the quote",
    ...more,
  });

describe("a draft whose lines nobody changed", () => {
  it("is the quote to the cent, line by line", async () => {
    for (const shop of [a, b]) {
      const { id, grossMinor } = await draft(shop);
      const { doc, edits, sides } = await view(shop, id);
      expect([doc.grossMinor, edits]).toEqual([grossMinor, []]);
      expect(sides.every((side) => side.agreedMinor === side.chargedMinor)).toBe(true);
      const issued = storedInvoice(
        (await invoiceNow(shop, await issueInvoice(shop, { id, version: 1 }))).frozen,
      );
      expect(issued.lines).toEqual(doc.lines);
    }
  });
});

describe("a line added with a part from stock", () => {
  it("takes it as the invoice is issued, in the part's unit, for its job; the sums re-added by hand", async () => {
    for (const shop of [a, b]) {
      const { id, jobId, grossMinor } = await draft(shop);
      const part = await partToSell(shop, { code: "HC-2", name: "Hose clip", opening: "5", price: "3.00" });
      const onHand = async () =>
        (await shop.read.part.findUniqueOrThrow({ where: { id: part } })).onHandMilli;
      const line = { name: "Hose clips", quantity: "3", price: "3.00", part: "HC-2" };
      await addInvoiceLine(shop, extra(id, 1, line));
      expect(await onHand()).toBe(5_000);
      const { doc, version } = await view(shop, id);
      expect(doc.lines.find((one) => one.name === "Hose clips")).toMatchObject({
        kind: "part",
        shownMinor: 900,
        quantityMilli: 3_000,
      });
      // 3 x 3.00 with the tax in it (AUD), or 25 % on top (NOK).
      expect(doc.grossMinor).toBe(grossMinor + (shop === a ? 900 : 1_125));
      await issueInvoice(shop, { id, version });
      expect(await onHand()).toBe(2_000);
      expect(await shop.read.move.findFirst({ where: { partId: part, kind: "use" } })).toMatchObject({
        jobId,
        quantityMilli: -3_000,
        why: "added to invoice 2001",
      });
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("that is not there, or not free any more, issues nothing and takes no number", async () => {
    const { id } = await draft(a);
    await expect(addInvoiceLine(a, extra(id, 1, { part: "NO-1" }))).rejects.toMatchObject({
      fields: { part: "There is no part NO-1." },
    });
    const part = await partToSell(a, { code: "HC-3", opening: "2" });
    await addInvoiceLine(a, extra(id, 1, { part: "HC-3", quantity: "2" }));
    await recordMove(a, { partId: part, kind: "scrap", quantityMilli: 1000, why: "Bent" });
    await expect(issueInvoice(a, { id, version: 2 })).rejects.toThrow(/HC-3/);
    expect((await invoiceNow(a, id)).state).toBe("draft");
    expect(await a.read.counter.findUnique({ where: { name: "invoice" } })).toBeNull();
    expect(await b.read.invoiceEdit.count()).toBe(0);
  });
});

describe("a line of a draft changed by hand", () => {
  it("charges the minutes and price typed, keeps why and by whom, and adds up in both ways of tax", async () => {
    for (const shop of [a, b]) {
      const { id, grossMinor } = await draft(shop);
      const line = await labourOf(shop, id);
      const desk = as(shop, { by: { ...shop.by, name: "Petra Voss" } });
      await editLine(
        desk,
        edit(id, 1, line.key, { name: "Work, settled by phone", quantity: "25", price: "120.00" }),
      );
      const { doc, edits, version } = await view(shop, id);
      const now = doc.lines.find((one) => one.key === line.key);
      // 25 minutes at 120.00 an hour are 50.00.
      expect(now).toMatchObject({ name: "Work, settled by phone", shownMinor: 5000, quantityMilli: 417 });
      const shownBefore = line.shownMinor;
      const change = 5000 - shownBefore;
      const expected = shop === a ? grossMinor + change : grossMinor + Math.round(change * 1.25);
      expect(Math.abs(doc.grossMinor - expected)).toBeLessThanOrEqual(shop === a ? 0 : 1);
      expect(doc.netMinor).toBe(doc.lines.reduce((sum, one) => sum + one.netMinor, 0));
      expect(edits).toMatchObject([{ key: line.key, reason: "As agreed by phone", by: "Petra Voss" }]);
      expect(await shop.read.auditEntry.findFirst({ where: { act: "changed line" } })).toMatchObject({
        personName: "Petra Voss",
        detail: { reason: "As agreed by phone", from: grossMinor, to: doc.grossMinor },
      });
      await issueInvoice(shop, { id, version, shownMinor: doc.grossMinor });
      const issued = await view(shop, id);
      expect(issued.doc.grossMinor).toBe(doc.grossMinor);
      expect(issued.edits).toHaveLength(1);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("of which only the text changed keeps its amount to the cent", async () => {
    const { id, grossMinor } = await draft(a);
    const line = await labourOf(a, id);
    const side = (await view(a, id)).sides.find((one) => one.key === line.key);
    const minutes = String((side?.typed?.quantityMilli ?? 0) / 1000);
    await editLine(
      a,
      edit(id, 1, line.key, { name: "Carburettor work", quantity: minutes, price: "100.00" }),
    );
    const { doc } = await view(a, id);
    expect(doc.grossMinor).toBe(grossMinor);
    expect(doc.lines.find((one) => one.key === line.key)?.shownMinor).toBe(line.shownMinor);
  });

  it("is taken off, and put back as it was", async () => {
    const { id, grossMinor } = await draft(a);
    const line = await labourOf(a, id);
    await editLine(a, edit(id, 1, line.key, { act: "off" }));
    const off = await view(a, id);
    expect(off.doc.lines.some((one) => one.key === line.key)).toBe(false);
    expect(off.sides.find((one) => one.key === line.key)).toMatchObject({
      agreedMinor: line.shownMinor,
      chargedMinor: null,
    });
    await putLineBack(a, { id, version: off.version, key: line.key });
    expect((await view(a, id)).doc.grossMinor).toBe(grossMinor);
    await expect(putLineBack(a, { id, version: 3, key: line.key })).rejects.toThrow(/is not changed/);
  });

  it("is taken as worked, one line of the draft, beside others as agreed", async () => {
    const { id } = await draft(a);
    const before = await view(a, id);
    const worked = before.sides.find((one) => one.workedMinor !== null && one.agreedMinor === null);
    const agreed = before.sides.find((one) => one.agreedMinor !== null && one.workedMinor === null);
    if (!worked || !agreed) throw new Error("Both bases have the same lines.");
    await editLine(a, edit(id, 1, worked.key, { act: "asWorked" }));
    await editLine(a, edit(id, 2, agreed.key, { act: "off" }));
    const after = await view(a, id);
    expect(after.doc.grossMinor).toBe(
      before.doc.grossMinor + (worked.workedMinor ?? 0) - (agreed.agreedMinor ?? 0),
    );
    expect(after.doc.lines.find((one) => one.key === worked.key)?.because[0]?.fact).toMatch(
      /taken as worked/,
    );
    await expect(changeBasis(a, { id, version: 3, basis: "asWorked" })).rejects.toThrow(/changed by hand/);
  });

  it("gets a share off and another tax, each on its own line", async () => {
    const { id } = await draft(b);
    const line = await labourOf(b, id);
    await editLine(
      b,
      edit(id, 1, line.key, {
        name: line.name,
        quantity: "60",
        price: "100",
        discount: "12,5",
        taxMark: "Z",
      }),
    );
    const { doc } = await view(b, id);
    const own = doc.lines.filter((one) => one.key.endsWith(line.key));
    expect(own.map((one) => [one.kind, one.shownMinor, one.taxCategory])).toEqual([
      ["labour", 10_000, "Z"],
      ["discount", -1250, "Z"],
    ]);
    expect(doc.taxes.find((tax) => tax.category === "Z")).toMatchObject({ taxableMinor: 8750, taxMinor: 0 });
  });
});

describe("a line added to a draft", () => {
  it("stands before the discounts, is charged, can be typed anew and goes again", async () => {
    for (const shop of [a, b]) {
      const { id, grossMinor } = await draft(shop);
      await addInvoiceLine(shop, extra(id, 1));
      const { doc } = await view(shop, id);
      // 2 at 5.50 are 11.00; with 25 % on top 13.75.
      expect(doc.grossMinor - grossMinor).toBe(shop === a ? 1100 : 1375);
      await editLine(shop, edit(id, 2, "added-1", { name: "Disposal", quantity: "1", price: "4" }));
      const anew = await view(shop, id);
      expect(anew.doc.grossMinor - grossMinor).toBe(shop === a ? 400 : 500);
      await addInvoiceLine(
        shop,
        extra(id, 3, { kind: "labour", name: "Rinsing", quantity: "20", price: "100" }),
      );
      // 20 minutes of 100.00 an hour: 33.33, though 0.333 h would be 33.30.
      expect((await view(shop, id)).doc.lines.find((one) => one.key === "added-2")?.shownMinor).toBe(3333);
      await putLineBack(shop, { id, version: 4, key: "added-2" });
      await putLineBack(shop, { id, version: 5, key: "added-1" });
      expect((await view(shop, id)).doc.grossMinor).toBe(grossMinor);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("sent twice is added once; on a draft seen too early, or issued, it is refused", async () => {
    const { id } = await draft(a);
    const input = { ...extra(id, 1), key: "add-a-line" };
    await Promise.all([addInvoiceLine(a, input), addInvoiceLine(a, input)]);
    expect(await a.read.invoiceEdit.count()).toBe(1);
    await expect(addInvoiceLine(a, extra(id, 1))).rejects.toMatchObject({ kind: "conflict" });
    await expect(addInvoiceLine(b, extra(id, 1))).rejects.toMatchObject({ kind: "missing" });
    await issueInvoice(a, { id, version: 2 });
    await expect(addInvoiceLine(a, extra(id, 3))).rejects.toThrow(/cannot change any more/);
    await expect(putLineBack(a, { id, version: 3, key: "added-1" })).rejects.toThrow(
      /cannot change any more/,
    );
  });

  it("goes with the draft that is thrown away", async () => {
    const { id } = await draft(a);
    await addInvoiceLine(a, extra(id, 1));
    await discardDraft(a, { id, version: 2 });
    expect(await a.read.invoiceEdit.count()).toBe(0);
  });
});
