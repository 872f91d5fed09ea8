import { expect, type Locator, type Page } from "@playwright/test";

/** Fills in what the step on the card asks for: parts used, all ticked, readings in the middle of their limits. */
export async function fillStep(page: Page): Promise<Locator> {
  const form = page.getByRole("form", { name: /^Pass / });
  for (const part of await form.getByRole("radio", { name: /^Used: take/ }).all()) await part.check();
  const missing = form.getByRole("radio", { name: "Not used: there is none" });
  if (await missing.count()) {
    await missing.first().check();
    await form.getByRole("textbox", { name: "If not used, why" }).last().fill("The one from the tin fits.");
  }
  for (const box of await form.getByRole("checkbox").all()) await box.check();
  const fields = form.locator('input[name^="readings."]');
  // A new step's button rests for a second, so that a second tap meant for the step before does nothing.
  await expect(form.locator("[data-rests]")).toHaveCount(0);
  for (const field of await fields.all()) {
    const { low, high } = await limitsOf(field);
    const middle = (low + high) / 2;
    await field.fill(middle >= 100 ? middle.toFixed(0) : middle.toFixed(2));
  }
  return form;
}

/** Passes each step of the card until the test ride; one reading outside its limits first, where that is tried. */
export async function passUntilRide(page: Page, tryOutside: boolean): Promise<void> {
  let outside = tryOutside;
  for (let n = 0; n < 60; n++) {
    await expect(page.getByText(/^Step \d+ of \d+/)).toBeVisible();
    if (await page.getByRole("link", { name: "Record the ride" }).count()) return;
    const title = await page.getByRole("heading", { level: 2 }).first().textContent();
    const reserved = page.getByRole("form", { name: /^Pass / }).getByRole("radio", { name: /^Used: take/ });
    const parts = await reserved.count();
    if (parts > 0) {
      await page.getByRole("button", { name: /^use /i }).first().click();
      await expect(reserved).toHaveCount(parts - 1);
    }
    const form = await fillStep(page);
    const fields = form.locator('input[name^="readings."]');
    if (outside && (await fields.count()) === 1) {
      const { high } = await limitsOf(fields);
      await fields.fill((high + 0.25).toFixed(2));
      await page.getByRole("button", { name: "Pass and go on" }).click();
      await expect(page.getByText(/^Stopped\./)).toBeVisible();
      outside = false;
      await fillStep(page);
    }
    await page.getByRole("button", { name: "Pass and go on" }).click();
    await expect(page.getByRole("heading", { level: 2 }).first()).not.toHaveText(title ?? "");
  }
  throw new Error("The card never came to the ride.");
}

/** The limits that a reading's description names: "3.00 to 3.30", "1,350 to 1,450", "12,0 to 15,0". */
async function limitsOf(field: Locator): Promise<{ low: number; high: number }> {
  const ids = ((await field.getAttribute("aria-describedby")) ?? "").split(" ");
  const said = (await field.page().locator(`[id="${ids[0]}"]`).textContent()) ?? "";
  const [low = Number.NaN, high = Number.NaN] =
    said
      .replace(/(\d),(\d{3})/g, "$1$2")
      .replaceAll(",", ".")
      .match(/[\d.]+/g)
      ?.map(Number) ?? [];
  return { low, high };
}
