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
  // What the server answers is read on its way: a browser need not keep it.
  const answers: string[] = [];
  await page.route("**/customers/new", async (route) => {
    if (route.request().method() !== "POST") return route.continue();
    const response = await route.fetch();
    answers.push(await response.text());
    return route.fulfill({ response });
  });
  await page.getByRole("button", { name: "Add the customer" }).click();
  await expect(page.getByText("You are signed out.")).toBeVisible();
  expect(answers).toHaveLength(1);
  expect(answers[0]).not.toContain("Ines Valdborg");
  await expect(page.locator('input[name="name"]')).toHaveValue("Ines Valdborg");
  await expect(page.getByLabel("For the shop only")).toHaveValue("Calls before eight.");
  ears.demandQuiet();
});
