import { expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

test("a price list comes in through the screen, whole, and a broken one names its bad row", async ({
  page,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/import/parts");
  await demandUsable(page);
  const file = page.locator('input[type="file"]');
  await file.setInputFiles({
    name: "broken.csv",
    mimeType: "text/csv",
    buffer: Buffer.from(
      "code,name,kind,unit,cost\nZZ-1,Jet one,jet,each,1.20\nZZ-2,Jet two,teapot,each,abc\n",
    ),
  });
  await page.getByRole("button", { name: "Check every row" }).click();
  await expect(page.getByText(/teapot/).first()).toBeVisible();
  await expect(page.getByRole("button", { name: /^Bring in/ })).toBeHidden();
  await demandUsable(page);

  await file.setInputFiles("demo/price-list.csv");
  await page.getByRole("button", { name: "Check every row" }).click();
  await page.getByRole("button", { name: /^Bring in \d+ rows/ }).click({ timeout: 60_000 });
  await expect(page.getByText("306 rows are in")).toBeVisible({ timeout: 60_000 });
  await demandUsable(page);
  await page.goto("/s/saltpan/stock?q=HX");
  await expect(page.getByRole("row").nth(1)).toBeVisible();
  ears.demandQuiet();
});

test("a new shop is opened, a person invited, and taken out again at once", async ({ browser }) => {
  const stamp = Date.now();
  const password = "three words, seated";
  const owner = await (await browser.newContext()).newPage();
  await owner.goto("/signup");
  await owner.getByLabel("Your name").fill("Ottilie Brask");
  await owner.getByLabel("Email").fill(`ottilie-${stamp}@shop.example`);
  await owner.getByLabel("Password").fill("short");
  await owner.getByLabel("Shop name").fill(`Brask Carburettors ${stamp}`);
  await owner.getByRole("button", { name: "Open the shop" }).click();
  await expect(owner.getByLabel("Password")).toHaveAttribute("aria-invalid", "true");
  await expect(owner.getByRole("textbox", { name: "Your name" })).toHaveValue("Ottilie Brask");
  await owner.getByLabel("Password").fill(password);
  await owner.getByRole("button", { name: "Open the shop" }).click();
  await expect(owner).toHaveURL(/^[^?]*\/s\/brask-carburettors[^/]*$/);
  await demandUsable(owner);
  const home = new URL(owner.url()).pathname;

  await owner.goto(`${home}/shop/people`);
  await owner.getByLabel("Email").fill(`pim-${stamp}@shop.example`);
  await owner.getByRole("button", { name: "Make an invitation" }).click();
  const link = (await owner.getByRole("status").locator("output").textContent()) ?? "";
  expect(link).toContain(`${E2E.url}/join/`);

  const pim = await (await browser.newContext()).newPage();
  await pim.goto(link.trim());
  await demandUsable(pim);
  await pim.getByLabel("Your name").fill("Pim Aske");
  await pim.getByLabel("Password").fill(password);
  await pim.getByRole("button", { name: "Join" }).click();
  await expect(pim).toHaveURL(`${E2E.url}${home}`);
  expect((await pim.goto(`${home}/stock`))?.status()).toBe(200);
  expect((await pim.goto(`${home}/invoices`))?.status()).toBe(403);

  await owner.reload();
  await owner.getByRole("button", { name: "Take out" }).last().click();
  await owner.getByRole("button", { name: "Take out Pim Aske" }).click();
  await expect(owner.getByText("pim-")).toBeHidden();
  expect((await pim.goto(`${home}/stock`))?.status()).toBe(404);
});
