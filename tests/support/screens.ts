// Makes the README's pictures from fresh demo shops: npm run screens.
import { mkdirSync } from "node:fs";
import { type BrowserContextOptions, chromium } from "@playwright/test";
import { DEMO_PEOPLE } from "../../demo/signIns";
import { chromiumPath, ensureChromium } from "./chromium";
import { startOwnServer } from "./ownServer";

const PORT = 3493;
const BASE = `http://localhost:${PORT}`;
const PASSWORD = "picture-needle-bowl-1618";
const DESK = { viewport: { width: 1280, height: 900 } };
const PHONE: BrowserContextOptions = {
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
  colorScheme: "dark",
};

await ensureChromium();
const server = await startOwnServer(PORT, ".tmp/screens-data", PASSWORD);
const executablePath = chromiumPath();
const browser = await chromium.launch({
  ...(executablePath ? { executablePath } : {}),
  args: ["--no-sandbox", "--disable-gpu"],
});

/** Signs in, goes where `find` says, and takes the picture. */
async function take(
  name: string,
  size: BrowserContextOptions,
  who: keyof typeof DEMO_PEOPLE,
  path: string,
  link?: RegExp,
): Promise<void> {
  const page = await (await browser.newContext(size)).newPage();
  await page.goto(`${BASE}/signin`);
  await page.getByLabel("Email").fill(DEMO_PEOPLE[who].email);
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/signin"));
  await page.goto(BASE + path);
  if (link) {
    const hrefs = await page
      .locator("main a[href]")
      .evaluateAll((all) => all.map((a) => a.getAttribute("href") ?? ""));
    await page.goto(BASE + (hrefs.find((href) => link.test(href)) ?? path));
  }
  await page.waitForLoadState("networkidle");
  await page.screenshot({ path: `demo/screens/${name}.png` });
  await page.context().close();
}

mkdirSync("demo/screens", { recursive: true });
try {
  await take("today", DESK, "saltpanOwner", "/s/saltpan");
  await take("quote", DESK, "saltpanOwner", "/s/saltpan/quotes?state=draft", /\/quotes\/\d+$/);
  await take("card", PHONE, "saltpanTuner", "/s/saltpan/jobs/26/card");
  await take("stock", DESK, "saltpanOwner", "/s/saltpan/stock/drawer");
} finally {
  await browser.close();
  await server.stop();
}
