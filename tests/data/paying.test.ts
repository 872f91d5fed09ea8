import { beforeEach, describe, expect, it } from "vitest";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { getInvoice } from "@/lib/data/invoices/get";
import { mailInvoice } from "@/lib/data/invoices/links";
import { mailReady } from "@/lib/data/invoices/readyMail";
import { shownInvoice } from "@/lib/data/invoices/shown";
import { jobDealings } from "@/lib/data/papers/progress";
import { accountOf, removeAccount, saveAccount } from "@/lib/data/shop/account";
import type { ShopHandle } from "@/lib/db/shop";
import { invoicePdf } from "@/lib/documents/invoice";
import { payRows } from "@/lib/domain/money/payAsk";
import { AccountSchema } from "@/lib/schemas/account";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const typed = (fields: Record<string, string>) => AccountSchema.parse({ version: "0", ...fields });
const AU = { form: "au", holder: "Saltpan Carburettor Works", branch: "999-001", number: "1234 5678" };
const NO = { form: "no", holder: "Fjellrev Motor AS", number: "9999 00 00014", kid: "on" };
const lastMail = async (shop: ShopHandle) =>
  (await shop.read.mail.findFirstOrThrow({ orderBy: { id: "desc" } })).text;
const customerWithMail = (shop: ShopHandle) =>
  shop.write((tx) => tx.customer.updateMany({ data: { email: "kari@mail.example" } }));

describe("the account that a shop is paid to", () => {
  it("is the shop's own, is changed against what was seen, and is refused where it cannot be", async () => {
    await saveAccount(a, typed(AU));
    expect(await accountOf(a.read)).toMatchObject({ branch: "999001", number: "12345678", kid: false });
    expect(await accountOf(b.read)).toBeNull();
    await expect(saveAccount(a, typed(AU))).rejects.toMatchObject({ kind: "conflict" });
    await expect(saveAccount(b, typed({ ...NO, number: "99990000015" }))).rejects.toMatchObject({
      fields: { number: expect.stringContaining("check digits") },
    });
    expect(await accountOf(b.read)).toBeNull();
    await expect(removeAccount(a, { version: 2 })).rejects.toMatchObject({ kind: "conflict" });
    await removeAccount(a, { version: 1 });
    expect(await accountOf(a.read)).toBeNull();
  });

  it("is frozen with what is issued, with a reference: paper, page and letters say the same", async () => {
    await saveAccount(a, typed(AU));
    await saveAccount(b, typed(NO));
    for (const [shop, row, account] of [
      [a, "Reference2001", "999-00112345678"],
      // 1, the number in nine digits, and the check by modulus 10 (by hand: from the right 2*1 + 1*2 + 1*1 is 5, and 5 more make ten).
      [b, "KID10000020015", "9999.00.00014"],
    ] as const) {
      const { jobId } = await readyJob(shop);
      await customerWithMail(shop);
      const id = await issuedInvoice(shop, jobId);
      const view = await getInvoice(shop, id);
      const shown = await shownInvoice(shop, id);
      expect(shown?.ask).toEqual(view?.ask);
      const rows = payRows(shown?.ask ?? expect.fail()).map((one) => one.value);
      const text = await pdfText(await invoicePdf(shown?.doc ?? expect.fail()));
      expect(text).toContain(row);
      expect(text).toContain(account.slice(-8));
      expect(text).toContain("Account12-3456");
      await mailInvoice(shop, { id, origin: "https://shop.example" });
      for (const value of rows) expect(await lastMail(shop)).toContain(value);
      await mailReady(shop, { jobId, origin: "https://shop.example" });
      for (const value of rows) expect(await lastMail(shop)).toContain(value);
      expect((await jobDealings(shop, jobId)).invoices[0]?.ask).toEqual(shown?.ask);
      // What was issued keeps what it printed; what is asked now goes to the account of now.
      await saveAccount(shop, { ...typed(AU), version: 1, number: "87654321" });
      expect(await pdfText(await invoicePdf((await shownInvoice(shop, id))?.doc ?? expect.fail()))).toBe(
        text,
      );
      expect((await shownInvoice(shop, id))?.ask.payTo?.number).toBe("87654321");
      const note = await creditInvoice(shop, { id, reason: "Wrong bike" });
      const credit = await shownInvoice(shop, note);
      expect(credit?.doc.payTo).toBeUndefined();
      const credited = await pdfText(await invoicePdf(credit?.doc ?? expect.fail()));
      expect(credited).toMatch(/Whatwascredited|Detteerkreditert/);
      expect(credited).not.toContain(account.slice(-8));
    }
  });

  it("is not printed on a draft, nor on an invoice of which nothing is due; without one papers say the shop's words", async () => {
    const { jobId } = await readyJob(a);
    const draft = await draftInvoice(a, { jobId, basis: "fixed" });
    await saveAccount(a, typed(AU));
    expect((await getInvoice(a, draft))?.ask).toBeNull();
    const other = await readyJob(b);
    const id = await issuedInvoice(b, other.jobId);
    const shown = await shownInvoice(b, id);
    expect(shown?.doc.payTo).toBeUndefined();
    expect(shown?.ask).toMatchObject({ payTo: null, reference: "2001", note: "Account 12-3456" });
  });
});
