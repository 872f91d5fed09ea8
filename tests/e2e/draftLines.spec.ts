import { expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

test("a draft's lines are changed, added and put back by hand, with why, on a desk and on a phone", async ({
  browser,
}) => {
  const page = await (
    await browser.newContext({ viewport: { width: 1280, height: 900 }, baseURL: E2E.url })
  ).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanDesk");
  await page.goto("/s/saltpan/jobs?state=ready");
  const job = await page.locator("main a[href*='/jobs/']").first().getAttribute("href");
  await page.goto(`/s/saltpan/invoices/new?job=${/\/jobs\/(\d+)/.exec(job ?? "")?.[1]}`);
  await page.getByRole("button", { name: "Draft it as quoted" }).click();
  await expect(page.getByRole("heading", { name: "Invoice, draft" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "Line by line" })).toBeVisible();

  await page.getByRole("button", { name: "Add a line" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Text (printed)").fill("Disposal of old fuel");
  await dialog.getByLabel(/^Price of one/).fill("11");
  await dialog.getByLabel("Why (kept, not printed)").fill("Forgotten on the quote");
  await demandUsable(page);
  await dialog.getByRole("button", { name: "Add the line" }).click();
  await expect(page.getByText("Forgotten on the quote").filter({ visible: true })).toBeVisible();

  await page.setViewportSize({ width: 390, height: 844 });
  await demandUsable(page);
  await page
    .getByRole("button", { name: /^Change / })
    .first()
    .click();
  await page.getByRole("dialog").getByLabel("Not at all: take it off").check();
  await page.getByRole("dialog").getByLabel("Why (kept, not printed)").fill("Done as a favour");
  await page.getByRole("dialog").getByRole("button", { name: "Change the line" }).click();
  await expect(
    page.getByText(/taken off: Done as a favour \(Petra Voss/).filter({ visible: true }),
  ).toBeVisible();
  await page.getByRole("button", { name: "Put it back as it was" }).click();
  await expect(page.getByText(/taken off: Done as a favour/)).toHaveCount(0);
  ears.demandQuiet();
});
