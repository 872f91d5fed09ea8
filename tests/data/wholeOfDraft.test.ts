import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { discardDraft, draftInvoice } from "@/lib/data/invoices/draft";
import { addInvoiceLine, editLine } from "@/lib/data/invoices/edits";
import { getInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { invoicePdf } from "@/lib/documents/invoice";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { AddInvoiceLineSchema, EditLineSchema } from "@/lib/schemas/invoiceEdits";
import { EXAMPLES, firstText, minorOf, readDocument } from "../support/exampleDocuments";
import { invoiceNow, nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { REFERENCES } from "../support/references";
import { partToSell } from "../support/sales";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
const jobs = new Map<ShopHandle, number>();

beforeAll(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  for (const shop of [a, b]) jobs.set(shop, (await readyJob(shop)).jobId);
  // Something to be charged as worked, which takes the rate of the day.
  const use = {
    partId: await partToSell(b),
    kind: "use",
    quantityMilli: 1000,
    jobId: jobs.get(b) ?? 0,
  } as const;
  await recordMove(b, use);
}, 60_000);

/** A line as the form of a draft sends it. */
async function add(shop: ShopHandle, id: number, typed: Record<string, string>): Promise<void> {
  const { version } = await invoiceNow(shop, id);
  const form = { id: String(id), version: String(version), reason: "As the example has it", ...typed };
  await addInvoiceLine(shop, AddInvoiceLineSchema.parse(form));
}

const draftOf = (shop: ShopHandle, basis: "fixed" | "asWorked") =>
  draftInvoice(shop, { jobId: jobs.get(shop) ?? 0, basis });

/** Takes every line off that the job itself brings. */
async function ownLinesOff(shop: ShopHandle, id: number): Promise<void> {
  const view = await getInvoice(shop, id);
  for (const { key } of (view?.sides ?? []).filter(
    (side) => side.chargedMinor !== null && side.edit === null,
  )) {
    const { version } = await invoiceNow(shop, id);
    await editLine(
      shop,
      EditLineSchema.parse({
        id: String(id),
        version: String(version),
        key,
        act: "off",
        reason: "Not in the example",
      }),
    );
  }
}

async function issue(shop: ShopHandle, id: number): Promise<PrintedInvoice> {
  const { version } = await invoiceNow(shop, id);
  await issueInvoice(shop, { id, version });
  return storedInvoice((await invoiceNow(shop, id)).frozen);
}

const money = (minor: number) => (minor / 100).toFixed(2);
const groups = (
  taxes: readonly { category: string; rateBp: number; taxableMinor: number; taxMinor: number }[],
) =>
  taxes
    .map((tax) => [tax.category, tax.rateBp, tax.taxableMinor, tax.taxMinor].join(" "))
    .filter((text) => !text.endsWith(" 0 0"))
    .sort();

/** Examples that a shop can write: one standard rate, beside it zero-rated, exempt and outside the scope. */
const WRITABLE = EXAMPLES.flatMap((file) => {
  const read = readDocument(file);
  const all = [...read.lines, ...read.documentLevel];
  const rates = new Set(all.filter((one) => one.category === "S").map((one) => one.rateBp));
  const known = all.every((one) => ["S", "Z", "E", "O"].includes(one.category));
  return known && rates.size === 1 ? [{ file, read, rateBp: [...rates][0] ?? 0 }] : [];
});

describe("the public example files, through a draft that is issued", () => {
  if (WRITABLE.length === 0) it.skip(`skipped: no example files in ${REFERENCES}`, () => {});
  it.each(WRITABLE)(
    "$file comes to the same net, tax and total, and is credited whole",
    async ({ read, rateBp }) => {
      // The quote's tax stays with what was agreed: as worked takes the shop's rate of the day.
      await b.write((tx) =>
        tx.settings.update({
          where: { id: 1 },
          data: { taxRegime: "eu", taxRateBp: rateBp, taxNumber: "IE1234567FA" },
        }),
      );
      const id = await draftOf(b, "asWorked");
      for (const [at, { printed, category }] of read.lines.entries())
        await add(b, id, {
          // What an example takes back on a line comes off the whole here: an invoice has no lines below zero.
          kind: printed < 0 ? "allowance" : "fixed",
          name: `Line ${at + 1}`,
          price: money(Math.abs(printed)),
          taxMark: category === "S" ? "" : category,
        });
      for (const { charge, netMinor, category } of read.documentLevel.filter((one) => one.netMinor !== 0))
        await add(b, id, {
          kind: charge ? "charge" : "allowance",
          name: charge ? "Freight" : "Agreed off",
          price: money(netMinor),
          taxMark: category === "S" ? "" : category,
        });
      await ownLinesOff(b, id);
      const doc = await issue(b, id);
      expect(groups(doc.taxes)).toEqual(groups(read.taxes));
      expect([doc.netMinor, doc.grossMinor]).toEqual([
        minorOf(firstText(read.totals, "TaxExclusiveAmount")),
        minorOf(firstText(read.totals, "TaxInclusiveAmount")),
      ]);
      const credit = storedInvoice(
        (await invoiceNow(b, await creditInvoice(b, { id, reason: "Next example" }))).frozen,
      );
      expect([credit.netMinor, credit.grossMinor]).toEqual([0 - doc.netMinor, 0 - doc.grossMinor]);
    },
  );
});

describe("something on or off the whole of a draft", () => {
  it("is printed with its reason, in tax-inclusive prices and in three categories, and credited by line and by amount to the last cent", async () => {
    const id = await draftOf(a, "fixed");
    await add(a, id, { kind: "fixed", name: "Export of a carburettor", price: "200.00", taxMark: "Z" });
    await add(a, id, { kind: "fixed", name: "Tuition", price: "33.33", taxMark: "E" });
    await add(a, id, { kind: "allowance", name: "Loyalty", discount: "10", taxMark: "Z" });
    await add(a, id, { kind: "charge", name: "Courier", price: "11.00" });
    const doc = await issue(a, id);
    const whole = doc.lines.filter((line) => line.key.startsWith("added-") && line.kind === "discount");
    // By hand: 10 % of 200.00; 11.00 holds a 1/11th of GST.
    expect(whole.map((line) => [line.name, line.shownMinor, line.netMinor, line.taxCategory])).toEqual([
      ["Loyalty", -2_000, -2_000, "Z"],
      ["Courier", 1_100, 1_000, "S"],
    ]);
    expect(doc.taxes.map((tax) => tax.category)).toEqual(["E", "S", "Z"]);
    expect(doc.lines.reduce((sum, line) => sum + line.shownMinor, 0)).toBe(doc.grossMinor);
    const text = await pdfText(await invoicePdf(doc));
    for (const said of ["Loyalty", "Courier", "ExemptfromGST"]) expect(text).toContain(said);
    const { version } = await invoiceNow(a, id);
    const first = { id, version, reason: "Half of it", fates: {}, corrected: false } as const;
    await creditPart(a, { ...first, ask: { wholeMinor: Math.floor(doc.grossMinor / 2) } });
    await creditInvoice(a, { id, reason: "The rest" });
    const notes = await a.read.invoice.findMany({ where: { creditsId: id } });
    for (const figure of ["netMinor", "taxMinor", "grossMinor"] as const)
      expect(notes.reduce((sum, note) => sum + note[figure], 0)).toBe(0 - doc[figure]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("is an amount or a share, of lines that are there, with a reason that is printed", async () => {
    const form = { id: "1", version: "1", kind: "allowance", name: "Loyalty", reason: "Agreed" };
    const wrong = (more: Record<string, string>) =>
      AddInvoiceLineSchema.safeParse({ ...form, ...more }).error?.issues.map((issue) => issue.path[0]);
    expect(wrong({})).toEqual(["price"]);
    expect(wrong({ price: "5", discount: "5" })).toEqual(["discount"]);
    expect(wrong({ price: "5", name: "" })).toEqual(["name"]);
    const id = await draftOf(a, "fixed");
    await expect(add(a, id, { ...form, id: String(id), discount: "5", taxMark: "O" })).rejects.toMatchObject({
      fields: { taxMark: "No line is taxed so." },
    });
    await expect(add(a, id, { kind: "allowance", name: "Too much", price: "99999" })).rejects.toThrow(
      /below zero/,
    );
    await add(a, id, { kind: "charge", name: "Surcharge", discount: "5" });
    const { version } = await invoiceNow(a, id);
    const typed = { id: String(id), version: String(version), key: "added-1", act: "change", reason: "Less" };
    await editLine(a, EditLineSchema.parse({ ...typed, name: "Surcharge", price: "0", discount: "4" }));
    const lines = (await getInvoice(a, id))?.doc?.lines ?? [];
    const base = lines
      .filter((line) => line.kind !== "discount")
      .reduce((sum, line) => sum + line.shownMinor, 0);
    expect(lines.at(-1)).toMatchObject({ name: "Surcharge", shownMinor: Math.round(base * 0.04) });
    await discardDraft(a, { id, version: (await invoiceNow(a, id)).version });
    expect(await b.read.invoice.count({ where: { state: "draft" } })).toBe(0);
  });
});
