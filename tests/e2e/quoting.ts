import { expect, type Page } from "@playwright/test";
import { pick } from "./fields";

/** A new customer with a mail address and a bike, made at the desk; answers the bike's path. */
export async function newBike(page: Page, name: string, plate: string, shop = "saltpan"): Promise<string> {
  await page.goto(`/s/${shop}/customers/new`);
  await page.getByRole("textbox", { name: "Name", exact: true }).fill(name);
  await page.getByRole("textbox", { name: "E-mail" }).fill("reader@customer.example");
  await page.getByRole("button", { name: "Add the customer" }).click();
  await page.getByRole("link", { name: "Add a bike" }).click();
  await pick(page, "Model card", "drover 580");
  await page.getByRole("textbox", { name: "Plate" }).fill(plate);
  await page.getByRole("button", { name: "Add the bike" }).click();
  await expect(page.getByRole("heading", { level: 1, name: /Tarrant Drover 580/ })).toBeVisible();
  return new URL(page.url()).pathname;
}

/** A draft for a bike from the open-road package; answers the quote's path. */
export async function newDraft(page: Page, bikePath: string): Promise<string> {
  await page.goto(`/s/saltpan/quotes/new?bike=${bikePath.split("/").at(-1)}`);
  await page.getByRole("radio", { name: /Open-road breathing/ }).check();
  await page.getByRole("button", { name: "Start the quote" }).click();
  await expect(page.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
  return new URL(page.url()).pathname;
}

/** Reads the draft on the page over as its customer will, and sends it; answers the path of their link, back on the quote. */
export async function sendIt(page: Page): Promise<string> {
  await page.getByRole("button", { name: "Send for a yes" }).click();
  await page.getByRole("button", { name: "Send it", exact: true }).click();
  const shown = page.getByRole("status").filter({ hasText: "The customer's link" });
  await expect(shown).toBeVisible();
  const link = new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname;
  await page.getByRole("link", { name: "Back to the quote" }).click();
  await expect(page).not.toHaveURL(/\/preview/);
  return link;
}

/** The path of the link in the newest mail of the shop. */
export async function linkInNewestMail(page: Page): Promise<string> {
  await page.goto("/s/saltpan/shop/mail");
  await page.getByText("Read the mail").first().click();
  const text = (await page.locator("pre").first().textContent()) ?? "";
  const link = /https?:\/\/\S+\/c\/saltpan\/[\w-]{27}/.exec(text)?.[0];
  if (!link) throw new Error(`No link in the newest mail: ${text.slice(0, 400)}`);
  return new URL(link).pathname;
}

/** "AUD 1,234.50" or "+12.30" in minor units. */
export function minor(text: string | null): number {
  const digits = (text ?? "").replace(/[^\d.]/g, "");
  return Math.round(Number(digits) * 100);
}
