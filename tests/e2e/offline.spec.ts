import { type BrowserContext, expect, type Page, test } from "@playwright/test";
import { chromiumPath, launchBy } from "../support/chromium";
import { fillStep } from "./card";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

// What is sent in the background needs the whole browser.
test.use({ launchOptions: launchBy(chromiumPath()) });

const PHONE = {
  viewport: { width: 360, height: 740 },
  hasTouch: true,
  isMobile: true,
  serviceWorkers: "allow",
} as const;

const PHOTO = {
  name: "bowl.png",
  mimeType: "image/png",
  buffer: Buffer.from(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
    "base64",
  ),
};

const title = (page: Page) => page.getByRole("heading", { level: 2 }).first();
const bar = (page: Page) => page.getByRole("region", { name: "Waiting on this device" });
const waits = (page: Page, count: number) =>
  expect(bar(page)).toContainText(count === 1 ? "1 act waits" : `${count} acts wait`);

/** Passes the step that is shown; the next one comes up. */
async function pass(page: Page): Promise<void> {
  await expect(page.getByText(/^Step \d+ of \d+/)).toBeVisible();
  const before = (await title(page).textContent()) ?? "";
  await fillStep(page);
  await page.getByRole("button", { name: "Pass and go on" }).click();
  await expect(title(page)).not.toHaveText(before);
}

/** Waits until the device keeps the card as it is now. */
async function kept(page: Page, since: number): Promise<void> {
  const at = () =>
    page.evaluate(async () => {
      const cache = await caches.open("kept");
      const card = await cache.match(`${location.pathname}/kept`);
      return Number(card?.headers.get("x-kept-at") ?? 0);
    });
  await expect.poll(at, { timeout: 30_000 }).toBeGreaterThan(since);
}

/** All that a device keeps of somebody: acts, photos, cards. */
const left = (page: Page) =>
  page.evaluate(async () => {
    const names = (await indexedDB.databases()).map((one) => one.name);
    const counts = !names.includes("throttlewright")
      ? []
      : await new Promise<number[]>((resolve, reject) => {
          const asked = indexedDB.open("throttlewright");
          asked.onerror = () => reject(asked.error);
          asked.onsuccess = () => {
            const stores = [...asked.result.objectStoreNames];
            const tx = asked.result.transaction(stores);
            const counting = stores.map((name) => tx.objectStore(name).count());
            tx.oncomplete = () => {
              asked.result.close();
              resolve(counting.map((one) => one.result));
            };
          };
        });
    return { rows: counts.reduce((sum, one) => sum + one, 0), cards: await caches.has("kept") };
  });

async function device(browser: { newContext(options: object): Promise<BrowserContext> }) {
  const context = await browser.newContext(PHONE);
  return { context, page: await context.newPage() };
}

test("a job done on a small phone, its middle third without a connection: nothing is lost, nothing doubled", async ({
  browser,
}) => {
  const { context, page } = await device(browser);
  // Cut off on purpose: the browser tells of it.
  const ears = listen(page, /ERR_INTERNET_DISCONNECTED|ERR_FAILED|Failed to fetch|503/);
  await signIn(page, "fjellrevOwner");
  await page.goto("/s/fjellrev");
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.getByRole("link", { name: "My next job" }).click();
  await expect(page.getByText(/^Step \d+ of \d+/)).toBeVisible();
  const card = new URL(page.url()).pathname;
  await pass(page);
  const since = Date.now();
  await pass(page);
  await kept(page, since);
  let cutOff = "";

  await test.step("the connection is cut: a pass waits, and the next step comes up, over a reload", async () => {
    await context.setOffline(true);
    await pass(page);
    await expect(page).toHaveURL(`${card}/kept`);
    await waits(page, 1);
    await demandUsable(page);
    const now = (await title(page).textContent()) ?? "";
    await page.reload();
    await waits(page, 1);
    await expect(title(page)).toHaveText(now);
    // Any other page says so, and leads to the card.
    await page.goto("/s/fjellrev/invoices");
    await expect(page.getByRole("heading", { name: "No connection" })).toBeVisible();
    await page.getByRole("link", { name: /^Job / }).click();
    await expect(title(page)).toHaveText(now);
    await page.goto(card);
    await expect(page).toHaveURL(`${card}/kept`);
  });

  await test.step("a note, a photo and time are kept as well", async () => {
    cutOff = (await title(page).textContent()) ?? "";
    await page.getByRole("button", { name: "Start time" }).click();
    await expect(page.getByRole("timer")).toBeVisible();
    await page.locator("summary", { hasText: "Note something here" }).click();
    await page
      .getByRole("textbox", { name: "Note for whoever works here next" })
      .fill("The float has play on its pin.");
    await page.getByRole("button", { name: "Keep the note" }).click();
    await waits(page, 3);
    await page.locator('input[type="file"]').last().setInputFiles(PHOTO);
    await waits(page, 4);
    const here = page.getByRole("list", { name: "Waiting to be sent" });
    await expect(here.getByText("Note: The float has play on its pin.")).toBeVisible();
    await page.reload();
    await expect(here.getByRole("img", { name: "Waiting to be sent" })).toBeVisible();
    await expect(page.getByRole("timer")).toBeVisible();
    await pass(page);
    await pass(page);
    await page.getByRole("button", { name: "Stop" }).click();
    await expect(page.getByRole("timer")).toBeHidden();
    await waits(page, 7);
  });

  const desk = await device(browser);
  let landed = 0;
  await test.step("back in reach everything arrives once, and the live card stands where it should", async () => {
    const next = (await title(page).textContent()) ?? "";
    await context.setOffline(false);
    await expect(page).toHaveURL(card, { timeout: 60_000 });
    landed = Date.now();
    await expect(bar(page)).toBeHidden();
    await expect(title(page)).toHaveText(next);
    await signIn(desk.page, "fjellrevOwner");
    await desk.page.goto(card.replace(/\/card$/, ""));
    await expect(desk.page.getByText("The float has play on its pin.")).toHaveCount(1);
    await desk.page.goto(card);
    for (let n = 0; n < 12 && (await title(desk.page).textContent()) !== cutOff; n++) {
      const before = desk.page.getByRole("link", { name: /^Before: / });
      const name = ((await before.textContent()) ?? "").replace(/^Before: /, "");
      await before.click();
      await expect(title(desk.page)).toHaveText(name);
    }
    await expect(desk.page.locator('img[src*="/photos/"]')).toHaveCount(1);
    await desk.page.goto(card);
  });

  await test.step("two devices pass the same step: the one that was cut off shows both versions, and a person decides", async () => {
    await kept(page, landed);
    await context.setOffline(true);
    const step = (await title(page).textContent()) ?? "";
    await pass(page);
    await expect(title(desk.page)).toHaveText(step);
    await pass(desk.page);
    await context.setOffline(false);
    const both = bar(page).getByRole("region", { name: `Not taken over: Passed: ${step}` });
    await expect(both).toContainText("Yours, on this device", { timeout: 60_000 });
    await expect(both).toContainText(`“${step}” was passed by`);
  });

  await test.step("signing out counts what would be lost; once decided it leaves nothing behind", async () => {
    await page.goto("/account");
    await page.getByRole("button", { name: "Sign out", exact: true }).click();
    await expect(page.getByRole("form", { name: "Sign out", exact: true })).toContainText("1 act waits");
    await page.goto(card);
    await bar(page).getByRole("button", { name: "Send mine as a note" }).click();
    await expect(bar(page)).toBeHidden({ timeout: 30_000 });
    await desk.page.goto(card.replace(/\/card$/, ""));
    await expect(desk.page.getByText(/Not taken over from a device: Passed:/)).toHaveCount(1);
    await page.goto("/account");
    await page.getByRole("button", { name: "Sign out", exact: true }).click();
    await expect(page).toHaveURL(/\/signin/);
    expect(await left(page)).toEqual({ rows: 0, cards: false });
    await context.setOffline(true);
    await page.goto(card);
    await expect(page.getByRole("heading", { name: "No connection" })).toBeVisible();
    await expect(page.locator("body")).not.toContainText("Job");
  });
  ears.demandQuiet();
  await desk.context.close();
  await context.close();
});
