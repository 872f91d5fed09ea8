import { expect, type Locator, type Page } from "@playwright/test";

/** Passes each step of the card until the test ride: readings in the middle of their limits, checks ticked, parts used. */
export async function passUntilRide(page: Page, tryOutside: boolean): Promise<void> {
  let outside = tryOutside;
  for (let n = 0; n < 60; n++) {
    await expect(page.getByText(/^Step \d+ of \d+/)).toBeVisible();
    if (await page.getByRole("link", { name: "Record the ride" }).count()) return;
    const title = await page.getByRole("heading", { level: 2 }).first().textContent();
    const form = page.getByRole("form", { name: /^Pass / });
    const reserved = form.getByRole("radio", { name: /^Used: take/ });
    const parts = await reserved.count();
    if (parts > 0) {
      await page.getByRole("button", { name: /^use /i }).first().click();
      await expect(reserved).toHaveCount(parts - 1);
    }
    for (const part of await reserved.all()) await part.check();
    const missing = form.getByRole("radio", { name: "Not used: there is none" });
    if (await missing.count()) {
      await missing.first().check();
      await form.getByRole("textbox", { name: "If not used, why" }).last().fill("The one from the tin fits.");
    }
    for (const box of await form.getByRole("checkbox").all()) await box.check();
    const fields = form.locator('input[name^="readings."]');
    const readings = await fields.count();
    // A new step's button rests for a second, so that a second tap meant for the step before does nothing.
    await expect(form.locator("[data-rests]")).toHaveCount(0);
    for (let at = 0; at < readings; at++) {
      const { low, high } = await limitsOf(fields.nth(at));
      if (outside && readings === 1) {
        await fields.nth(at).fill((high + 0.25).toFixed(2));
        await page.getByRole("button", { name: "Pass and go on" }).click();
        await expect(page.getByText(/^Stopped\./)).toBeVisible();
        outside = false;
      }
      const middle = (low + high) / 2;
      await fields.nth(at).fill(middle >= 100 ? middle.toFixed(0) : middle.toFixed(2));
    }
    await page.getByRole("button", { name: "Pass and go on" }).click();
    await expect(page.getByRole("heading", { level: 2 }).first()).not.toHaveText(title ?? "");
  }
  throw new Error("The card never came to the ride.");
}

/** The limits that a reading's description names: "3.00 to 3.30", "1,350 to 1,450". */
async function limitsOf(field: Locator): Promise<{ low: number; high: number }> {
  const ids = ((await field.getAttribute("aria-describedby")) ?? "").split(" ");
  const said = (await field.page().locator(`[id="${ids[0]}"]`).textContent()) ?? "";
  const [low = Number.NaN, high = Number.NaN] =
    said
      .replace(/(\d),(\d{3})/g, "$1$2")
      .match(/[\d.]+/g)
      ?.map(Number) ?? [];
  return { low, high };
}
