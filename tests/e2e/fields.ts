import { expect, type Page } from "@playwright/test";

/** A field is made live as it comes into view. */
const intoView = (page: Page, label: string) =>
  page.locator("label").filter({ hasText: label }).filter({ visible: true }).first().scrollIntoViewIfNeeded();

/** Finds a record in a field by words and chooses the first that is offered. */
export async function pick(page: Page, label: string, words: string): Promise<void> {
  // Until its script is there it is a plain list.
  const field = page
    .locator("input[role=combobox]")
    .and(page.getByRole("combobox", { name: label, exact: true }));
  await intoView(page, label);
  await field.fill(words);
  const list = page.getByRole("listbox", { name: label, exact: true });
  await expect(list.getByRole("option").first()).toBeVisible();
  await expect(page.getByText("Looking…")).toHaveCount(0);
  await list.getByRole("option").first().click();
  await expect(list).toBeHidden();
}

/** Types a day (2026-11-25), a time (10:30) or both (2026-11-25T10:30) into a field, place by place. */
export async function typeDate(page: Page, label: string, iso: string): Promise<void> {
  const field = page.getByRole("group", { name: label, exact: true });
  await intoView(page, label);
  const [, year, month, day] = /(\d{4})-(\d\d)-(\d\d)/.exec(iso) ?? [];
  const [, hour, minute] = /(\d\d):(\d\d)$/.exec(iso) ?? [];
  for (const [place, digits] of Object.entries({ year, month, day, hour, minute }))
    if (digits) {
      await field.locator(`[data-place="${place}"]`).focus();
      await page.keyboard.type(digits);
    }
}

/** What a day's field would send. */
export const sentDay = (page: Page, name: string) => page.locator(`input[type=hidden][name="${name}"]`);
