import { expect, type Page } from "@playwright/test";
import { demandUsable } from "./watched";

/** Takes the bike in, as the job's page offers it. */
export async function arrive(page: Page): Promise<void> {
  await page.getByRole("button", { name: "The bike is here" }).click();
  await page.getByRole("button", { name: "Record the arrival" }).click();
  await expect(page.getByRole("button", { name: "Record the arrival" })).toBeHidden();
}

/** Passes every step of the card, its parts used, and finishes a job that changes no setting. */
export async function workAndFinish(page: Page, job: string): Promise<void> {
  await page.goto(`${job}/card`);
  for (let n = 0; n < 10; n++) {
    const form = page.getByRole("form", { name: /^Pass / });
    if ((await form.count()) === 0) break;
    const title = (await page.getByRole("heading", { level: 2 }).first().textContent()) ?? "";
    for (const part of await form.getByRole("radio", { name: /^Used: take/ }).all()) await part.check();
    // The button rests for a second on a new step.
    await expect(form.locator("[data-rests]")).toHaveCount(0);
    await page.getByRole("button", { name: "Pass and go on" }).click();
    await expect(form.and(page.getByRole("form", { name: `Pass ${title}` }))).toHaveCount(0);
  }
  await page.goto(job);
  await page.getByRole("link", { name: "Finish the job" }).click();
  await demandUsable(page);
  await page.getByRole("checkbox", { name: /^I looked the bike over/ }).check();
  await page.getByRole("button", { name: "The bike is ready" }).click();
  await expect(page).not.toHaveURL(/\/finish$/);
}
