import { spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { bin } from "../support/ownServer";
import { signIn } from "./people";

/** The database of the shop that was opened last. */
function newestShop(): string {
  const folder = join(E2E.data, "shops");
  const files = readdirSync(folder).filter((name) => name.endsWith(".sqlite"));
  const [newest] = files
    .map((name) => join(folder, name))
    .sort((a, b) => statSync(b).birthtimeMs - statSync(a).birthtimeMs);
  if (!newest) throw new Error("There is no shop.");
  return newest;
}

test("what a script holds for some seconds is waited for, and written once", async ({ page }) => {
  await page.goto("/signup");
  await page.getByLabel("Your name").fill("Ottoline Brack");
  await page.getByLabel("Email").fill("ottoline@kestrelroad.example");
  await page.getByLabel("Password").fill("float-bowl-gasket-3141");
  await page.getByLabel("Shop name").fill("Kestrel Road");
  await page.getByRole("button", { name: "Open the shop" }).click();
  await expect(page).toHaveURL(/\/s\/kestrel-road/);
  const shop = new URL(page.url()).pathname.split("/").slice(0, 3).join("/");
  await page.goto(`${shop}/customers/new`);
  await page.getByRole("textbox", { name: "Name", exact: true }).fill("Ines Valdborg");
  // Longer than a write that fails at once is tried again.
  const script = spawn(bin("tsx"), ["tests/support/holdShop.ts", newestShop(), "3000"]);
  const ended = once(script, "exit");
  await once(script.stdout, "data");
  await page.getByRole("button", { name: "Add the customer" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Ines Valdborg" })).toBeVisible();
  await ended;
  await page.goto(`${shop}/customers`);
  await expect(page.getByRole("link", { name: "Ines Valdborg" })).toHaveCount(1);
});

test("a shop whose file is damaged while the server runs is shut alone, and its owner is told", async ({
  page,
  browser,
}) => {
  await page.goto("/signup");
  await page.getByLabel("Your name").fill("Ottoline Brack");
  await page.getByLabel("Email").fill("ottoline@kestreltrail.example");
  await page.getByLabel("Password").fill("float-bowl-gasket-3141");
  await page.getByLabel("Shop name").fill("Kestrel Trail");
  await page.getByRole("button", { name: "Open the shop" }).click();
  await expect(page).toHaveURL(/\/s\/kestrel-trail/);

  const file = newestShop();
  writeFileSync(file, Buffer.alloc(statSync(file).size, 0x5a));
  // What the server still holds in memory is whole: some pages may open before the first one that has to read the file.
  const rooms = [
    "customers",
    "stock",
    "quotes",
    "jobs",
    "bookings",
    "packages",
    "invoices",
    "bikes",
    "figures",
  ];
  for (const room of rooms) {
    await page.goto(`/s/kestrel-trail/${room}`);
    if (page.url().includes("/shut/")) break;
  }
  await page.goto("/s/kestrel-trail");
  await expect(page).toHaveURL(/\/shut\/kestrel-trail/);
  await expect(page.getByRole("heading", { name: "This shop cannot be opened" })).toBeVisible();
  await expect(page.getByText("The server's owner has been told.")).toBeVisible();
  const file503 = await page.request.get("/api/s/kestrel-trail/invoices/csv");
  expect(file503.status()).toBe(503);

  const health = await page.request.get("/api/health");
  expect(health.status()).toBe(200);
  const told = await health.text();
  expect(JSON.parse(told)).toMatchObject({ well: true, shopsShut: 1 });
  expect(told).not.toContain("kestrel");

  const other = await browser.newPage();
  await signIn(other, "fjellrevOwner");
  await other.goto("/s/fjellrev");
  await expect(other.getByRole("heading", { name: "Needs a hand now" })).toBeVisible();
  // Whoever does not belong to it is told nothing of it.
  const stranger = await other.goto("/shut/kestrel-trail");
  expect(stranger?.status()).toBe(404);
});
