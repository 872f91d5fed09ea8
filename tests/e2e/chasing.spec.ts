import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const SHOP = "/s/saltpan";

/** The first late invoice whose reminder can go by mail, with its reminder's page open; answers its address. */
async function lateOne(page: Page): Promise<string> {
  await page.goto(`${SHOP}/invoices?state=late`);
  const late = await page
    .locator("main tbody a[href*='/invoices/']")
    .evaluateAll((all) => [...new Set(all.map((one) => one.getAttribute("href") ?? ""))]);
  for (const href of late) {
    await page.goto(`${href}/remind`);
    if (await page.getByRole("button", { name: "Send the reminder" }).isVisible()) return href;
  }
  throw new Error("No late invoice of somebody with an address.");
}

test("who owes what opens to its documents; one is reminded of, stopped, let go on, and its customer mailed a statement", async ({
  browser,
}) => {
  const page = await (
    await browser.newContext({ viewport: { width: 360, height: 740 }, baseURL: E2E.url })
  ).newPage();
  const watched = listen(page);
  await signIn(page, "saltpanOwner");

  await test.step("a customer's figure opens to documents that come to the same", async () => {
    await page.goto(`${SHOP}/invoices/owing`);
    await expect(page.getByRole("heading", { name: "Owing" })).toBeVisible();
    await demandUsable(page);
    const figure = page.getByRole("link", { name: /^(?!All customers).+, in all:/u }).first();
    const shown = /in all:\s*(\S+)$/u.exec((await figure.textContent()) ?? "")?.[1] ?? "none";
    await figure.click();
    await expect(page.getByRole("link", { name: "All customers", exact: true })).toBeVisible();
    await expect(page.locator("dl").filter({ hasText: "In all" })).toContainText(shown);
  });

  const invoice = await lateOne(page);
  await test.step("its reminder is read, sent with a word of one's own, and stands on the invoice with its paper", async () => {
    await demandUsable(page);
    await page.getByLabel("In your own words (may stay empty)").fill("Drop in when you pass.");
    await page.getByRole("button", { name: "Send the reminder" }).click();
    await expect(page.getByText(/A reminder to \S+ is in the mail queue\./u)).toBeVisible();
    await expect(page).toHaveURL(new RegExp(`${invoice}$`, "u"));
    const paper = page.getByRole("link", { name: /^PDF of the .+ reminder of invoice/u }).first();
    const answer = await page.request.get((await paper.getAttribute("href")) ?? "");
    expect([answer.status(), answer.headers()["content-type"]]).toEqual([200, "application/pdf"]);
  });

  await test.step("it is stopped with why, cannot be reminded of, and goes on", async () => {
    await page.getByRole("button", { name: "Stop reminders" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel("Why").fill("Disputed: the idle is not as agreed");
    await dialog.getByRole("button", { name: "Stop them" }).click();
    await expect(page.getByRole("note").filter({ hasText: "Disputed" })).toBeVisible();
    await page.goto(`${invoice}/remind`);
    await expect(page.getByText("Its reminders are stopped.")).toBeVisible();
    await page.goto(invoice);
    await page.getByRole("button", { name: "Go on reminding" }).click();
    await expect(page.getByText("Reminders go on.")).toBeVisible();
    await expect(page.getByRole("button", { name: "Stop reminders" })).toBeVisible();
  });

  await test.step("the customer's page shows it too, and their statement is a page, a paper and a mail", async () => {
    await page.locator("main a[href*='/customers/']").first().click();
    await expect(page.getByText(/(first|second|last) reminder of/u).first()).toBeVisible();
    await page.getByRole("link", { name: "Statement", exact: true }).click();
    await expect(page.getByRole("heading", { name: /^Statement, / })).toBeVisible();
    await demandUsable(page);
    const paper = await page.request.get(
      (await page.getByRole("link", { name: "PDF" }).getAttribute("href")) ?? "",
    );
    expect([paper.status(), paper.headers()["content-type"]]).toEqual([200, "application/pdf"]);
    await page.getByRole("button", { name: "Mail it" }).click();
    await page.getByRole("button", { name: "Send the statement" }).click();
    await expect(page.getByText(/The statement goes to \S+\./u)).toBeVisible();
  });
  watched.demandQuiet();
});
