import { beforeAll, describe, expect, it } from "vitest";
import { reachOf } from "@/lib/data/bookings/reach";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { storedQuote } from "@/lib/data/documents/quote";
import { shopOnOrder } from "@/lib/data/orders/printed";
import { letterheadOf } from "@/lib/data/quotes/freeze";
import { saveSettingsIn } from "@/lib/data/shop/settings";
import { sayInCompanyRegister } from "@/lib/data/shop/taxTerms";
import type { ShopHandle } from "@/lib/db/shop";
import { invoicePdf } from "@/lib/documents/invoice";
import { orderPdf } from "@/lib/documents/order";
import { quotePdf } from "@/lib/documents/quote";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { line, partToSell, saleOf, sold } from "../support/sales";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeAll(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  await b.write((tx) => tx.settings.update({ where: { id: 1 }, data: { taxNumber: "988 077 917" } }));
  await sayInCompanyRegister(b, true);
});

const ORDER: Omit<OrderOnPaper, "shop"> = {
  number: "101",
  state: "placed",
  orderedOn: "2026-11-25",
  note: "",
  supplier: { name: "Penfold Rubber", address: "", email: "", customerNumber: "" },
  lines: [],
  day: "2026-11-25",
};

const SAID = "988077917MVAForetaksregisteret";

describe("a shop that is in the register of companies", () => {
  it("says so after its number on invoices, receipts, quotes and orders, and the other shop says nothing more", async () => {
    for (const [shop, said, not] of [
      [b, SAID, "ABN"],
      [a, "ABN51824753556", "Foretaksregisteret"],
    ] as const) {
      const { jobId } = await readyJob(shop);
      const doc = storedInvoice((await invoiceNow(shop, await issuedInvoice(shop, jobId))).frozen);
      const [receipt] = (await sold(shop, saleOf([line(await partToSell(shop), 1, 84_200)]))).invoices;
      const revision = await shop.read.quoteRevision.findFirstOrThrow({ orderBy: { id: "desc" } });
      const papers = [
        await invoicePdf(doc),
        await invoicePdf(storedInvoice(receipt?.frozen)),
        await quotePdf(storedQuote(revision.frozen), doc.country),
        await orderPdf({ ...ORDER, shop: await shopOnOrder(shop.read) }),
      ];
      for (const paper of papers) {
        const text = await pdfText(paper);
        expect(text).toContain(said);
        expect(text).not.toContain(not);
      }
      expect(await reachOf(shop, "en")).toMatchObject({
        numberMarks: doc.seller.numberMarks ?? [],
      });
    }
  });

  it("keeps what a paper said once it is out of it again", async () => {
    const { id } = await b.read.invoice.findFirstOrThrow({ where: { kind: "invoice" } });
    await sayInCompanyRegister(b, false);
    expect((await letterheadOf(b.read)).numberMarks).toEqual(["MVA"]);
    expect(await pdfText(await invoicePdf(storedInvoice((await invoiceNow(b, id)).frozen)))).toContain(SAID);
    const told = await b.read.auditEntry.findMany({ where: { noun: "settings" }, orderBy: { id: "asc" } });
    expect(told.map((one) => one.detail)).toEqual([
      { inCompanyRegister: true },
      { inCompanyRegister: false },
    ]);
  });
});

it("checks the number of a shop that charges no tax by its country's register", async () => {
  const save = (taxNumber: string) => async () => {
    const { version } = await b.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    return b.write((tx) => saveSettingsIn(tx, b, { version, taxRegime: "none", taxNumber }));
  };
  await expect(save("988 077 918")()).rejects.toThrow(/no valid Norwegian organisation number/);
  await save("988 077 917 MVA Foretaksregisteret")();
  expect((await a.read.settings.findUniqueOrThrow({ where: { id: 1 } })).taxRegime).toBe("au");
});
