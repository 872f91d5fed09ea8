import { expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

const SIZES = {
  "1280 wide": { viewport: { width: 1280, height: 900 } },
  "390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

for (const [where, size] of widths(SIZES, "1280 wide")) {
  test(`a bike that nobody knows yet is booked in and gets its job later, ${where}`, async ({ browser }) => {
    const page = await (await browser.newContext({ ...size, baseURL: E2E.url })).newPage();
    const ears = listen(page);
    const caller = `Halvard Moe ${where.slice(0, 4).trim()}`;
    await signIn(page, "saltpanDesk");
    await page.goto("/s/saltpan/bookings");
    await page.getByRole("link", { name: "Book a bike in" }).first().click();
    await page.getByLabel("Minutes of work").fill("45");
    await page.getByRole("button", { name: "Show the times" }).click();
    await expect(page.getByText(/for 45 min of work/)).toBeVisible();
    await page.getByLabel("What for").fill("Runs hot, maybe the jets");
    await page.getByRole("button", { name: "Book it in" }).click();
    await expect(page.getByText("write down who called").first()).toBeVisible();
    await expect(page.getByLabel("What for")).toHaveValue("Runs hot, maybe the jets");
    await page.getByLabel("Name", { exact: true }).fill(caller);
    await page.getByLabel("Phone").fill("555 0199");
    await demandUsable(page);
    await page.getByRole("button", { name: "Book it in" }).click();
    await page
      .getByRole("link", { name: /^No job yet/ })
      .last()
      .click();
    await expect(page.getByRole("heading", { name: `Booked in: ${caller}` })).toBeVisible();
    await expect(page.getByRole("link", { name: "555 0199" })).toBeVisible();
    await demandUsable(page);
    await page.getByLabel("Which job").selectOption({ index: 0 });
    await page.getByRole("button", { name: "Give it this job" }).click();
    await expect(page.getByRole("heading", { name: /^Booking of job \d+$/ })).toBeVisible();
    ears.demandQuiet();
  });
}
