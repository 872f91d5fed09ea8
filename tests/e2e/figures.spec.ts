import { readFileSync } from "node:fs";
import { expect, test } from "@playwright/test";
import { signIn } from "./people";

test.use({ viewport: { width: 360, height: 800 } });

test("packages are ordered by what they billed, least and most first, where they stand", async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 900 });
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/figures/packages?range=year");
  const table = page.getByRole("table", { name: "Figures by package" });
  const head = table.getByRole("columnheader", { name: "Billed" });
  const billed = async () =>
    (await table.locator("tbody td:nth-child(3)").allTextContents()).map((text) =>
      Number(text.replace(/[^\d.-]/g, "")),
    );
  const before = await billed();
  expect(before.length).toBeGreaterThan(1);
  const up = [...before].sort((a, b) => a - b);
  await head.getByRole("button").click();
  await head.getByRole("button").click();
  const first = await head.getAttribute("aria-sort");
  expect(await billed()).toEqual(first === "ascending" ? up : up.toReversed());
  await expect(head).toHaveAttribute("aria-sort", /ascending|descending/);
});

test("revenue is narrowed to days, opened to its documents, and its file says the same", async ({ page }) => {
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/figures");
  await page.getByRole("navigation", { name: "Figures" }).getByRole("link", { name: "Revenue" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Revenue" })).toBeVisible();
  await page.getByRole("combobox", { name: "Range" }).selectOption("quarter");
  await page.getByRole("button", { name: "Show" }).click();
  await expect(page).toHaveURL(/range=quarter/);

  const all = page.locator("tr").filter({ hasText: "All revenue" });
  const amount = /-?[\d ,.]+\d/;
  const told = (await all.locator("td").nth(1).textContent())?.match(amount)?.[0] ?? "none";
  const saved = page.waitForEvent("download");
  await page.getByRole("link", { name: "Export CSV" }).click();
  const rows = readFileSync(await (await saved).path(), "utf8")
    .trim()
    .split("\r\n")
    .slice(1);
  const cents = rows.reduce((sum, row) => sum + Math.round(Number(row.split(",").at(-2)) * 100), 0);
  expect(Math.round(Number(told.replace(/[ ,]/g, "")) * 100)).toBe(cents);
  expect(rows.length).toBeGreaterThan(1);

  await all.locator("a").first().click();
  await expect(page.getByRole("heading", { level: 1, name: "All revenue: documents" })).toBeVisible();
  await expect(page.getByText("All documents of the range")).toBeVisible();
  await expect(page.locator("dd").filter({ hasText: told })).toBeVisible();

  for (const room of ["Packages", "Hours sold", "Stock", "Owed and paid"]) {
    await page.getByRole("navigation", { name: "Figures" }).getByRole("link", { name: room }).click();
    await expect(page.getByRole("heading", { level: 1, name: room })).toBeVisible();
  }
});
