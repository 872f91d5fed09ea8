import { readFile } from "node:fs/promises";
import { expect, test } from "@playwright/test";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const MANY = "ids=1,2,3,4,5,6&copies=100&paper=sheet&start=5";

test("labels that are too many for one file come in several, each made while its link says so", async ({
  page,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await page.goto(`/api/s/saltpan/stock/labels?${MANY}`);
  await expect(page.getByRole("heading", { name: "600 labels in 2 files" })).toBeVisible();
  await demandUsable(page);

  // Held back, so that the word for it can be seen.
  await page.route(/&file=2/, async (route) => {
    await new Promise((resume) => setTimeout(resume, 2_500));
    await route.continue();
  });
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "Labels 477 to 600" }).click(),
    expect(page.getByText("The file is being made.")).toBeVisible(),
  ]);
  expect(file.suggestedFilename()).toBe("labels-2-of-2.pdf");
  expect((await readFile(await file.path())).toString("latin1")).toMatch(/^%PDF-/);
  await expect(page.getByText("The file is being made.")).toBeHidden();
  ears.demandQuiet();
});

test("a file that cannot be made says why beside its link", async ({ page }) => {
  await signIn(page, "saltpanOwner");
  await page.goto(`/s/saltpan/stock/labels?${MANY}`);
  await page.route(/&file=1/, (route) =>
    route.fulfill({
      status: 503,
      contentType: "text/plain",
      body: "The server is busy with other long work. Try again in a moment. Nothing was changed.",
    }),
  );
  await page.getByRole("link", { name: "Labels 1 to 476" }).click();
  await expect(page.getByText("The server is busy with other long work.")).toBeVisible();
});
