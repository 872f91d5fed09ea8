import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { messyCustomers } from "../support/imports/messyCustomers";
import { demandUsable, listen } from "./watched";

const csv = (name: string, text: string) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

/** Chooses a file and has every row looked at. */
async function check(page: Page, name: string, text: string): Promise<void> {
  await page.getByLabel("CSV file, at most 5 MB and 20 000 rows").setInputFiles(csv(name, text));
  await page.getByRole("button", { name: "Check every row" }).click();
}

const MARK = "Sample shop: nothing here is real, and no mail leaves it.";
const told = (page: Page, name: string) =>
  page.locator("div", { has: page.getByText(name, { exact: true }) }).last();

test("a messy list comes in, its doubles are decided, it goes back, two records are merged, and a sample shop comes and goes", async ({
  browser,
}) => {
  test.slow();
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    baseURL: E2E.url,
  });
  const page = await context.newPage();
  const ears = listen(page);
  const stamp = Date.now();
  const messy = messyCustomers();

  await page.goto("/signup");
  await page.getByLabel("Your name").fill("Tora Lind");
  await page.getByLabel("Email").fill(`tora-${stamp}@shop.example`);
  await page.getByLabel("Password").fill("nine small brass jets in a tray");
  await page.getByLabel("Shop name").fill(`Lindtun Forgasser ${stamp}`);
  await page.getByLabel("Country").selectOption("NO");
  await page.getByRole("button", { name: "Open the shop" }).click();
  await expect(page).toHaveURL(/\/s\/lindtun/);
  const home = new URL(page.url()).pathname;

  // 200 rows without a number column.
  await page.goto(`${home}/import/customers`);
  await check(page, "kunder.csv", messy.text);
  await expect(page.getByLabel("Rows are known by")).toHaveValue("words");
  await expect(page.getByText("All 200 rows can come in")).toBeVisible();
  await expect(told(page, "New")).toContainText(String(messy.people));
  await demandUsable(page);
  await page.getByRole("button", { name: "Bring in 200 rows" }).click();
  await expect(page.getByText("200 rows are in")).toBeVisible();

  // The same again changes nothing.
  await page.goto(`${home}/import/customers`);
  await check(page, "kunder.csv", messy.text);
  await expect(told(page, "New")).toContainText("0");
  await expect(told(page, "Will change")).toContainText("0");

  // A later list: one is surely here, one only by name; what is proposed is changed for one line.
  await page.goto(`${home}/import/customers`);
  await check(
    page,
    "mars.csv",
    "Navn;Tlf;E-post;Merknad\nFOSSVIK Gro;;gro.fossvik@example.org;vinterlager\nTor Fossvik;40000009;;ny",
  );
  await expect(page.getByText("2 rows are probably here already")).toBeVisible();
  await expect(page.getByText("It has the same name and e-mail.")).toBeVisible();
  await expect(page.getByLabel("What to do with line 2")).toHaveValue("update");
  await expect(page.getByLabel("What to do with line 3")).toHaveValue("both");
  await demandUsable(page);
  await page.getByLabel("What to do with line 3").selectOption("skip");
  await expect(page.getByRole("button", { name: /^Bring in/ })).toHaveCount(0);
  await page.getByRole("button", { name: "Check again" }).click();
  await expect(told(page, "Left out")).toContainText("1");
  await page.getByRole("button", { name: "Bring in 1 row" }).click();
  await expect(page.getByText("2 rows are in")).toBeVisible();

  // Bikes whose model has no card: one question list.
  await page.goto(`${home}/import/bikes`);
  await check(
    page,
    "sykler.csv",
    "Eier;Merke;Modell;Reg.nr;Årsmodell\nGro Fossvik;Tarrant;Drover 580;AB 1001;1998\nGro Fossvik;Tarrant;Drover 580;AB 1002;1999",
  );
  await expect(page.getByText("One model has no card yet")).toBeVisible();
  await page.getByLabel("cc", { exact: true }).fill("580");
  await page.getByRole("combobox", { name: "Type", exact: true }).selectOption("mechanical slide");
  await page.getByRole("button", { name: "Check again" }).click();
  await expect(page.getByText("All 2 rows can come in")).toBeVisible();
  await page.getByRole("button", { name: "Bring in 2 rows" }).click();
  await expect(page.getByText("2 rows are in")).toBeVisible();

  // The first import does not go back while bikes hang on it; the bikes go first.
  await page.goto(`${home}/import`);
  await demandUsable(page);
  await page.getByRole("link", { name: /kunder\.csv/ }).click();
  await page.getByRole("button", { name: "Take this import back" }).click();
  await page.getByRole("button", { name: "Take it back" }).click();
  await expect(page.getByText(/cannot be taken back: Gro Fossvik has 2 bikes/).first()).toBeVisible();
  await page.goto(`${home}/import`);
  await page.getByRole("link", { name: /mars\.csv/ }).click();
  await page.getByRole("button", { name: "Take this import back" }).click();
  await page.getByRole("button", { name: "Take it back" }).click();
  await expect(page.getByText("Taken back.")).toBeVisible();
  await demandUsable(page);

  // Two of one name are one after all; the link to the other leads on.
  await page.goto(`${home}/customers?q=Kari+Fossvik`);
  const links = page.locator("main").getByRole("link", { name: /Kari Fossvik/ });
  await expect(links).toHaveCount(2);
  const [first, second] = [await links.nth(0).getAttribute("href"), await links.nth(1).getAttribute("href")];
  await page.goto(`${first}/edit`);
  await page.getByRole("link", { name: "Merge with a double" }).click();
  await demandUsable(page);
  await page.getByRole("link", { name: /^Kari Fossvik/ }).click();
  await expect(page.getByText("What goes over")).toBeVisible();
  await demandUsable(page);
  await page.getByRole("button", { name: "Merge them" }).click();
  await expect(page).toHaveURL(new RegExp(`${first}$`));
  await page.goto(second ?? "");
  await expect(page).toHaveURL(new RegExp(`${first}$`));

  // A sample shop, asked for in one act and removed in one.
  await page.goto(home);
  await page.getByRole("link", { name: "open a sample shop" }).click();
  await demandUsable(page);
  await page.getByRole("button", { name: "Open a sample shop" }).click();
  await expect(page.getByText(/being made/)).toBeVisible();
  await page.getByRole("link", { name: "Go to the sample shop" }).click({ timeout: 150_000 });
  await expect(page.getByText(MARK)).toBeVisible();
  await demandUsable(page);
  const sample = new URL(page.url()).pathname;
  await page.goto(`${sample}/quotes`);
  await expect(page.getByText(MARK)).toBeVisible();
  await page.getByRole("link", { name: "Remove it" }).click();
  await page.getByRole("button", { name: "Remove it with all that is in it" }).click();
  await expect(page).toHaveURL(/\/account$/);
  expect((await page.request.get(sample)).status()).toBe(404);
  await page.goto(home);
  await expect(page.getByText(MARK)).toHaveCount(0);
  ears.demandQuiet();
});
