import { expect, test } from "@playwright/test";
import { signIn } from "./people";
import { listen } from "./watched";

test("what was typed stays in the form when its session has ended, though the server sends none of it back", async ({
  page,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/customers/new");
  await page.locator('input[name="name"]').fill("Ines Valdborg");
  await page.getByLabel("For the shop only").fill("Calls before eight.");
  await page.context().clearCookies();
  const sent = page.waitForResponse((response) => response.request().method() === "POST");
  await page.getByRole("button", { name: "Add the customer" }).click();
  expect(await (await sent).text()).not.toContain("Ines Valdborg");
  await expect(page.getByText("You are signed out.")).toBeVisible();
  await expect(page.locator('input[name="name"]')).toHaveValue("Ines Valdborg");
  await expect(page.getByLabel("For the shop only")).toHaveValue("Calls before eight.");
  ears.demandQuiet();
});
