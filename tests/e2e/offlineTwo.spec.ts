import { execFileSync } from "node:child_process";
import { expect, type Page, test } from "@playwright/test";
import { SEND_TAG } from "@/lib/domain/offline/requests";
import { DEMO_PEOPLE } from "../../demo/signIns";
import { chromiumPath, launchBy } from "../support/chromium";
import { E2E } from "../support/e2eServer";
import type { NewTuner } from "../support/newTuner";
import { bin } from "../support/ownServer";
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
const EIGHT_DAYS_MS = 8 * 86_400_000;

const title = (page: Page) => page.getByRole("heading", { level: 2 }).first();
const bar = (page: Page) => page.getByRole("region", { name: "Waiting on this device" });

async function note(page: Page, text: string): Promise<void> {
  await page.locator("summary", { hasText: "Note something here" }).click();
  await page.getByRole("textbox", { name: "Note for whoever works here next" }).fill(text);
  await page.getByRole("button", { name: "Keep the note" }).click();
}

/** A kept card's page is gone to and left by itself: what it is asked meanwhile is asked once more. */
async function asked<T>(run: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries++)
    try {
      return await run();
    } catch (cause) {
      if (tries === 4 || !/context was destroyed/u.test(String(cause))) throw cause;
    }
}

/** When the card of the page was kept last, in milliseconds; `agedBy` makes it older. */
const keptAt = (page: Page, card: string, agedBy = 0) =>
  asked(() =>
    page.evaluate(
      async ([key, older]) => {
        const cache = await caches.open("kept");
        const found = await cache.match(key);
        const at = Number(found?.headers.get("x-kept-at") ?? 0);
        if (found && older > 0) {
          const headers = new Headers(found.headers);
          headers.set("x-kept-at", String(at - older));
          await cache.put(key, new Response(await found.blob(), { headers }));
        }
        return at;
      },
      [`${card}/kept`, agedBy] as const,
    ),
  );

/** How many acts and cards the device keeps. */
const left = (page: Page) =>
  asked(() =>
    page.evaluate(
      () =>
        new Promise<number[]>((resolve, reject) => {
          const asked = indexedDB.open("throttlewright");
          asked.onerror = () => reject(asked.error);
          asked.onsuccess = () => {
            const tx = asked.result.transaction(["acts", "photos", "cards"]);
            const counting = ["acts", "photos", "cards"].map((name) => tx.objectStore(name).count());
            tx.oncomplete = () => {
              asked.result.close();
              resolve(counting.map((one) => one.result));
            };
          };
        }),
    ),
  );

/** What the browser was asked to wake the worker for. */
const tags = (page: Page) =>
  asked(() =>
    page.evaluate(async () => {
      const on = (await navigator.serviceWorker.ready) as ServiceWorkerRegistration & {
        sync: { getTags(): Promise<string[]> };
      };
      return on.sync.getTags();
    }),
  );

/** The browser's own wake-up hangs on the machine's network, which a test leaves alone: it is given by hand, on a page of nobody's. */
async function wakeWorker(page: Page): Promise<void> {
  const browser = await page.context().newCDPSession(page);
  const registered = new Promise<string>((resolve) =>
    browser.on("ServiceWorker.workerRegistrationUpdated", ({ registrations }) => {
      if (registrations[0]) resolve(registrations[0].registrationId);
    }),
  );
  await browser.send("ServiceWorker.enable");
  const registrationId = await registered;
  await browser.send("ServiceWorker.dispatchSyncEvent", {
    origin: E2E.url,
    registrationId,
    tag: SEND_TAG,
    lastChance: false,
  });
}

test("late time, two people on one step, a page that was closed, a week gone by and a person taken out: the device keeps what it should, 360 wide", async ({
  browser,
}) => {
  const told = execFileSync(bin("tsx"), ["tests/support/newTuner.ts"], {
    env: { ...process.env, DATA_DIR: E2E.data, E2E_PASSWORD: E2E.password },
  });
  const tuner = JSON.parse(told.toString()) as NewTuner;
  const card = `/s/saltpan/jobs/${tuner.jobId}/card`;
  const context = await browser.newContext(PHONE);
  let page = await context.newPage();
  const ears = listen(page, /ERR_INTERNET_DISCONNECTED|ERR_FAILED|Failed to fetch|503|404/);
  await page.goto("/signin");
  await page.getByLabel("Email").fill(tuner.email);
  await page.getByLabel("Password").fill(E2E.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await expect(page).not.toHaveURL(/signin/);
  await page.goto("/s/saltpan");
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.goto(card);
  await expect(title(page)).toHaveText("Look at the boots");
  const opened = Date.now();
  const desk = await (await browser.newContext({ ...PHONE, serviceWorkers: "block" })).newPage();
  const desksEars = listen(desk);
  await signIn(desk, "saltpanOwner");

  await test.step("the time that ran on is asked about where the job is made to wait, and nothing typed is lost", async () => {
    await page.locator("summary", { hasText: "It has to wait" }).click();
    await page.getByLabel("For what").selectOption("parts");
    await page.getByLabel("A word on it").fill("A boot is torn");
    await page.getByRole("button", { name: "Let it wait" }).click();
    const asked = page.getByRole("region", { name: "To be answered first" });
    await expect(asked).toBeVisible();
    await demandUsable(page);
    await expect(page.getByLabel("A word on it")).toHaveValue("A boot is torn");
    await asked.getByRole("radio", { name: /^It ended at \d/ }).check();
    await asked.getByRole("button", { name: "Answer and go on" }).click();
    await expect(page.getByText("It waits for parts.")).toBeVisible();
    await expect(page.getByText("A boot is torn")).toBeVisible();
    await expect(page.getByRole("timer")).toBeHidden();
    await expect.poll(() => keptAt(page, card), { timeout: 30_000 }).toBeGreaterThan(opened);
  });

  await test.step("one skips a step without a connection, another passes it: both are shown, and what the shop has is kept", async () => {
    await context.setOffline(true);
    await page.locator("summary", { hasText: "Skip this step" }).click();
    await page.getByRole("textbox", { name: "Why it is not done" }).fill("The boots are new.");
    await page.getByRole("button", { name: "Skip it" }).click();
    await expect(page).toHaveURL(`${card}/kept`);
    await expect(title(page)).toHaveText("Look at the hoses");
    await note(page, "The left hose is hard.");
    await expect(bar(page)).toContainText("2 acts wait");
    await desk.goto(card);
    await expect(desk.locator("[data-rests]")).toHaveCount(0);
    await desk.getByRole("button", { name: "Pass and go on" }).click();
    await expect(title(desk)).toHaveText("Look at the hoses");
    await context.setOffline(false);
    const both = bar(page).getByRole("region", { name: "Not taken over: Skipped: Look at the boots" });
    await expect(both).toContainText("The boots are new.", { timeout: 60_000 });
    await expect(both).toContainText(`“Look at the boots” was passed by ${DEMO_PEOPLE.saltpanOwner.name} on`);
    await both.getByRole("button", { name: "Keep what the shop has" }).click();
    await expect(bar(page)).toBeHidden({ timeout: 30_000 });
    await desk.goto(card.replace(/\/card$/, ""));
    await expect(desk.getByText("The left hose is hard.")).toHaveCount(1);
    await expect(desk.getByText("The boots are new.")).toHaveCount(0);
  });

  await test.step("what waits goes although its page was closed, once", async () => {
    const since = Date.now();
    await page.goto(card);
    await expect(title(page)).toHaveText("Look at the hoses");
    await expect.poll(() => keptAt(page, card), { timeout: 30_000 }).toBeGreaterThan(since);
    await context.setOffline(true);
    await note(page, "Clip is missing.");
    await expect(bar(page)).toContainText("1 act waits");
    await expect.poll(() => tags(page)).toEqual([SEND_TAG]);
    await page.close();
    await context.setOffline(false);
    page = await context.newPage();
    await wakeWorker(page);
    await expect(async () => {
      await desk.reload();
      await expect(desk.getByText("Clip is missing.")).toHaveCount(1, { timeout: 1_000 });
    }).toPass({ timeout: 30_000 });
    const again = Date.now();
    await page.goto(card);
    await expect(page.getByText("Clip is missing.")).toHaveCount(1);
    await expect(bar(page)).toBeHidden();
    await expect.poll(() => keptAt(page, card), { timeout: 30_000 }).toBeGreaterThan(again);
  });

  await test.step("a week later nothing waits any more, which is told, and the card does not open", async () => {
    await context.setOffline(true);
    await note(page, "Nobody will read this.");
    await expect(bar(page)).toContainText("1 act waits");
    await page.clock.setFixedTime(Date.now() + EIGHT_DAYS_MS);
    await page.reload();
    await expect(bar(page)).toContainText("1 of what waited here was older than a week and is gone");
    expect((await left(page)).slice(0, 2)).toEqual([0, 0]);
    await keptAt(page, card, EIGHT_DAYS_MS);
    await page.goto(card);
    await expect(page.getByRole("heading", { name: "No connection" })).toBeVisible();
    await page.close();
    await context.setOffline(false);
  });

  await test.step("taken out of the shop, the person's device lets go of its cards and of what waits", async () => {
    page = await context.newPage();
    const since = Date.now();
    await page.goto(card);
    await expect.poll(() => keptAt(page, card), { timeout: 30_000 }).toBeGreaterThan(since);
    await context.setOffline(true);
    await note(page, "This waits for nothing.");
    await expect(bar(page)).toContainText("1 act waits");
    await desk.goto("/s/saltpan/shop/people");
    const row = desk.getByRole("listitem").filter({ hasText: tuner.email }).first();
    await row.getByRole("button", { name: "Take out", exact: true }).click();
    await desk.getByRole("button", { name: `Take out ${tuner.name}` }).click();
    await expect(desk.getByText(tuner.email)).toHaveCount(0);
    await context.setOffline(false);
    await expect(bar(page)).toContainText("You no longer belong to this shop", { timeout: 60_000 });
    expect(await left(page)).toEqual([0, 0, 0]);
    expect(await keptAt(page, card)).toBe(0);
    await desk.goto(card.replace(/\/card$/, ""));
    await expect(desk.getByText("This waits for nothing.")).toHaveCount(0);
  });
  ears.demandQuiet();
  desksEars.demandQuiet();
  await desk.context().close();
  await context.close();
});
