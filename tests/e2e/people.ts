import { expect, type Page } from "@playwright/test";
import { DEMO_PEOPLE } from "../../demo/signIns";
import { E2E } from "../support/e2eServer";

export type Who = keyof typeof DEMO_PEOPLE;

/** Signs a demo person in through the page, as they would. */
export async function signIn(page: Page, who: Who): Promise<void> {
  await page.goto("/signin");
  await page.getByLabel("Email").fill(DEMO_PEOPLE[who].email);
  await page.getByLabel("Password").fill(E2E.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await expect(page).not.toHaveURL(/signin/);
}
