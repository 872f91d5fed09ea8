import { expect, type Page, test } from "@playwright/test";
import { parse } from "csv-parse/sync";
import { E2E } from "../support/e2eServer";
import { pdfText } from "../support/pdfText";
import { signIn } from "./people";
import { arrive, workAndFinish } from "./plainJob";
import { newBike } from "./quoting";
import { demandUsable, listen } from "./watched";

const SHOPS = [
  {
    slug: "saltpan",
    who: "saltpanOwner",
    currency: "AUD",
    prices: "with tax in them",
    number: { label: "ABN", wrong: "91 888 222 001", right: "91 888 222 000" },
    rule: "aligned-ibr-004-aunz",
    form: "urn:peppol:pint:billing-1@aunz-1",
    taxBp: 1000,
  },
  {
    slug: "fjellrev",
    who: "fjellrevOwner",
    currency: "NOK",
    prices: "without tax",
    // An invented number; its last digit is the check digit (modulus 11).
    number: { label: "Organisation number", wrong: "920 000 003", right: "920 000 002" },
    rule: null,
    form: "urn:fdc:peppol.eu:2017:poacc:billing:3.0",
    taxBp: 2500,
  },
] as const;
type Shop = (typeof SHOPS)[number];

/** An amount as the page, the PDF or a file writes it ("AUD 1,234.50", "1 234,50") in minor units. */
const minorOf = (text: string) => Number(text.replace(/[^\d−-]/gu, "").replace("−", "-"));

/** The customer becomes a business that gets e-invoices; a number with a wrong digit is refused. */
async function takesEinvoices(page: Page, { slug, number }: Shop, customer: string): Promise<void> {
  await page.goto(`/s/${slug}/shop/einvoices`);
  await page.getByLabel("Customers that want e-invoices get them").check();
  await page.getByRole("button", { name: "Save" }).click();
  await expect(page.getByText("Saved.")).toBeVisible();
  await page.goto(`${customer}/edit`);
  await page.getByLabel("A business").check();
  await page.getByLabel("Address", { exact: true }).fill("9 Ridge Road\nSaltpan");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByRole("link", { name: "E-invoices" }).click();
  await page.getByLabel("Gets e-invoices").check();
  await page.getByLabel(number.label, { exact: true }).fill(number.wrong);
  await page.getByRole("button", { name: "Save" }).click();
  await expect(page.getByText(/a digit is wrong or missing/).first()).toBeVisible();
  await demandUsable(page);
  await page.getByLabel(number.label, { exact: true }).fill("");
  await page.getByRole("button", { name: "Save" }).click();
  await expect(page).toHaveURL(new RegExp(`${customer}$`, "u"));
}

/** What an issued document comes to on its page, in its PDF, its e-invoice and the file for the books: the same to the cent. */
async function agrees(page: Page, { slug, currency, form, taxBp }: Shop): Promise<number> {
  const number = /\d+$/.exec((await page.getByRole("heading", { level: 1 }).textContent()) ?? "")?.[0] ?? "";
  const total = page
    .getByText(new RegExp(`^Total ${currency}`, "u"))
    .locator("..")
    .first();
  const shown = ((await total.textContent()) ?? "").replace(/^Total/u, "");
  const gross = minorOf(shown);
  const credit =
    gross < 0 || /Credit/u.test((await page.getByRole("heading", { level: 1 }).textContent()) ?? "");
  const href = async (name: string) =>
    (await page.getByRole("link", { name, exact: true }).first().getAttribute("href")) ?? "";
  const paper = await pdfText(await (await page.request.get(await href("PDF"))).body());
  const digits = shown
    .replace(currency, "")
    .replace(/[\s\u00a0]/gu, "")
    .replace("−", "");
  expect(paper).toContain(digits);
  const xml = await (await page.request.get(await href("E-invoice"))).text();
  expect(xml).toContain(form);
  const ofXml = (name: string) =>
    minorOf(new RegExp(`<cbc:${name}[^>]*>([-0-9.]+)<`, "u").exec(xml)?.[1] ?? "");
  const csv = await (await page.request.get(`/api/s/${slug}/invoices/csv`)).text();
  const rows: Record<string, string>[] = parse(csv, { columns: true, bom: true });
  const row = rows.find((one) => one.number === number && /credit/iu.test(one.kind ?? "") === credit);
  expect([ofXml("TaxInclusiveAmount"), minorOf(row?.gross ?? "")].map(Math.abs)).toEqual(
    [gross, gross].map(Math.abs),
  );
  const [net, tax] = [ofXml("TaxExclusiveAmount"), minorOf(row?.tax ?? "")].map(Math.abs);
  expect(ofXml("TaxAmount")).toBe(tax);
  expect((net ?? 0) + (tax ?? 0)).toBe(Math.abs(gross));
  expect(tax).toBe(Math.round(((net ?? 0) * taxBp) / 10_000));
  return Math.abs(gross);
}

async function pay(page: Page, minor: number | null): Promise<void> {
  await page.getByRole("button", { name: "Record a payment" }).click();
  const dialog = page.getByRole("dialog");
  if (minor !== null)
    await dialog
      .getByLabel(/^Amount/)
      .first()
      .fill(String(minor / 100));
  await dialog.getByRole("button", { name: "Record the payment" }).click();
  await expect(dialog).toBeHidden();
}

for (const shop of SHOPS)
  test(`a job is issued, mailed, part-paid, credited by line and settled, prices ${shop.prices}, in ${shop.currency}: page, PDF, e-invoice and CSV agree`, async ({
    browser,
  }) => {
    const page = await (
      await browser.newContext({ viewport: { width: 1280, height: 900 }, baseURL: E2E.url })
    ).newPage();
    const ears = listen(page);
    await signIn(page, shop.who);
    const bike = await newBike(page, `Settled Ltd ${Date.now() % 100_000}`, "SP SETTLE", shop.slug);
    const customer =
      (await page.locator('main a[href*="/customers/"]').first().getAttribute("href")) ?? "no customer";
    await takesEinvoices(page, shop, customer);

    await page.goto(bike);
    await page.getByRole("link", { name: "Open a job" }).click();
    await page.getByRole("textbox", { name: "In a few words" }).fill("Jets out, cleaned and put back");
    await page.getByRole("textbox", { name: "Minutes planned" }).fill("95");
    await page.getByRole("textbox", { name: /^Up to/ }).fill("9000");
    await page.getByRole("button", { name: "Open the job" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
    const job = new URL(page.url()).pathname;
    await arrive(page);
    await workAndFinish(page, job);
    await page.goto(job);
    await page.getByRole("link", { name: "Invoice" }).last().click();
    await page.getByRole("button", { name: "Draft it as quoted" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /draft/i })).toBeVisible();
    const draft = page.url();

    // What an e-invoice wants is said before it is issued, with the rule and the field that mends it.
    await expect(page.getByText("It is to be an e-invoice. Before it can be issued:")).toBeVisible();
    if (shop.rule) await expect(page.getByText(`(rule ${shop.rule})`)).toBeVisible();
    await demandUsable(page);
    await page.getByRole("link", { name: "Their e-invoices" }).first().click();
    await page.getByLabel(shop.number.label, { exact: true }).fill(shop.number.right);
    await page.getByRole("button", { name: "Save" }).click();
    await expect(page).toHaveURL(new RegExp(`${customer}$`, "u"));
    await page.goto(draft);
    await page.getByRole("textbox", { name: "Their order number" }).fill("PO-7");
    await page.getByRole("button", { name: "Note it" }).click();
    await expect(page.getByText("It is to be an e-invoice. Before it can be issued:")).toHaveCount(0);
    await page
      .getByRole("button", { name: /^Issue/ })
      .first()
      .click();
    await page.getByRole("button", { name: "Issue it for good" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Invoice \d+/ })).toBeVisible();
    const invoice = new URL(page.url()).pathname;
    const gross = await agrees(page, shop);
    expect(gross).toBeGreaterThan(10_000);

    await page.getByRole("button", { name: "To the customer" }).click();
    await page.getByRole("button", { name: "Write the mail" }).click();
    await expect(page.getByText("The mail is in the mail queue.")).toBeVisible();
    await page.goto(`/s/${shop.slug}/shop/mail`);
    await expect(page.getByText(/\.xml\b/u).first()).toBeAttached();

    await page.goto(invoice);
    await pay(page, 5_000);
    await expect(
      page.getByText("part paid", { exact: true }).filter({ visible: true }).first(),
    ).toBeVisible();
    await page.getByRole("link", { name: "Credit by line or amount" }).click();
    await page.getByLabel("or amount off").first().fill("20");
    await page.getByLabel("Why (printed on it)").fill("Scratched bowl");
    await page.getByRole("button", { name: "Credit it for good" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Credit note \d+/ })).toBeVisible();
    const credited = await agrees(page, shop);
    expect(credited).toBe(shop.slug === "saltpan" ? 2_000 : 2_500);

    await page.goto(invoice);
    await page.getByRole("button", { name: "Record a payment" }).click();
    const left = await page
      .getByRole("dialog")
      .getByLabel(/^Amount/)
      .first()
      .inputValue();
    expect(minorOf(left)).toBe(gross - credited - 5_000);
    await page.getByRole("dialog").getByRole("button", { name: "Record the payment" }).click();
    await expect(page.getByText("paid", { exact: true }).filter({ visible: true }).first()).toBeVisible();
    await page.goto(`${customer}/statement`);
    await expect(
      page
        .getByText(/^To pay/u)
        .locator("..")
        .first(),
    ).toContainText(/(?<!\d)0[.,]00/u);
    await demandUsable(page);
    ears.demandQuiet();
  });
