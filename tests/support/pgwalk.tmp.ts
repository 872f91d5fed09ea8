import { chromium } from "@playwright/test";
const base = "http://localhost:3950";
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
const page = await browser.newPage();
await page.goto(`${base}/signup`);
for (const input of await page.locator("form input:not([type=hidden]), form select").all()) {
  const name = await input.getAttribute("name"); const type = await input.getAttribute("type");
  console.log(name, type);
  if (type === "email" || name === "email") await input.fill("new@owner.example");
  else if (type === "password") await input.fill("a-long-tried-password-71");
  else if (type === "text" || type === null) await input.fill(name === "shop" ? "Third Shop" : "Third Owner").catch(() => {});
}
await page.getByRole("button", { name: /sign up|open|create|start/i }).last().click();
await page.waitForURL(/\/s\//, { timeout: 20000 }).catch(async () => console.log("no move", page.url(), await page.locator("main").innerText()));
console.log(page.url());
await browser.close();
