import { type Browser, chromium, type Page } from "@playwright/test";
import { chromiumPath } from "../support/chromium";
import type { BenchSite } from "./site";

interface Answered {
  readonly act: string;
  /** Of the answer's body, as it came. */
  readonly bytes: number;
  /** The longest of its interaction's events, as the browser measures it. */
  readonly inpMs: number;
  readonly shownMs: number;
}

/** Most bytes of an answer. */
const MOST = 8_192;
/** A phone of the floor is about so much slower than this machine. */
const SLOWER = 4;
const REPEATS = 5;

/** What a tick on a draft and a pass on a card are answered with, and how long until each shows, at a quarter of the speed. */
export async function tickTable(site: BenchSite): Promise<string> {
  const browser = await chromium.launch({
    ...(chromiumPath() ? { executablePath: chromiumPath() as string } : {}),
    args: ["--no-sandbox", "--disable-gpu"],
  });
  try {
    const page = await slowPage(browser, site);
    return written([...(await ticks(page)), ...(await passes(page))]);
  } finally {
    await browser.close();
  }
}

/** The owner of a demo shop, signed in at the browser of a slow device. */
async function slowPage(browser: Browser, { base, cookie }: BenchSite): Promise<Page> {
  const context = await browser.newContext({ baseURL: base, viewport: { width: 1280, height: 900 } });
  await context.addCookies(
    cookie.split("; ").map((pair) => {
      const at = pair.indexOf("=");
      return { name: pair.slice(0, at), value: pair.slice(at + 1), url: base };
    }),
  );
  const page = await context.newPage();
  await page.addInitScript(() => {
    const seen: number[] = [];
    Object.assign(window, { eventsSeen: seen });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as PerformanceEventTiming[])
        if (entry.interactionId) seen.push(entry.duration);
    }).observe({ type: "event", durationThreshold: 16, buffered: true } as PerformanceObserverInit);
  });
  await (await context.newCDPSession(page)).send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  return page;
}

async function measured(
  page: Page,
  act: string,
  run: () => Promise<unknown>,
  shown: () => Promise<unknown>,
): Promise<Answered> {
  await page.waitForTimeout(500);
  await page.evaluate(() => ((window as unknown as { eventsSeen: number[] }).eventsSeen.length = 0));
  const answer = page.waitForEvent("requestfinished", (request) => "next-action" in request.headers());
  const begun = performance.now();
  await run();
  const request = await answer;
  await shown();
  const shownMs = performance.now() - begun;
  await page.waitForTimeout(500);
  const events = await page.evaluate(() => (window as unknown as { eventsSeen: number[] }).eventsSeen);
  return { act, bytes: (await request.sizes()).responseBodySize, inpMs: Math.max(0, ...events), shownMs };
}

async function ticks(page: Page): Promise<Answered[]> {
  await page.goto("/s/saltpan/quotes?state=draft");
  const paths = await page
    .locator("main a")
    .evaluateAll((links) => links.map((link) => link.getAttribute("href") ?? ""));
  const draft = paths.find((path) => /\/quotes\/\d+$/.test(path));
  if (!draft) throw new Error("The demo has no draft.");
  await page.goto(draft);
  const form = page.getByRole("form", { name: "Options" });
  const boxes = form.getByRole("checkbox").and(page.locator(":enabled"));
  const rows: Answered[] = [];
  for (let n = 0; n < REPEATS * 2; n++) {
    const box = boxes.nth(Math.floor(n / 2) % (await boxes.count()));
    const idle = () => page.waitForFunction(() => !document.querySelector("form[aria-busy]"));
    rows.push(await measured(page, `tick on ${draft.split("/").at(-1)}`, () => box.click(), idle));
  }
  return rows;
}

async function passes(page: Page): Promise<Answered[]> {
  const rows: Answered[] = [];
  for (let job = 1; job <= 60 && rows.length < REPEATS; job++) {
    await page.goto(`/s/saltpan/jobs/${job}/card`);
    const form = page.getByRole("form", { name: /^Pass / });
    while (rows.length < REPEATS && (await form.count()) > 0 && (await plain(page))) {
      for (const box of await form.getByRole("checkbox").all()) await box.check();
      await page.waitForFunction(() => !document.querySelector("[data-rests]"));
      const step = (await page.getByRole("heading", { level: 2 }).first().textContent()) ?? "";
      const next = () =>
        page.waitForFunction((was) => document.querySelector("h2")?.textContent !== was, step);
      const pass = () => form.getByRole("button", { name: "Pass and go on" }).click();
      rows.push(await measured(page, `pass of “${step}”`, pass, next));
    }
  }
  return rows;
}

/** A step that asks for ticks at most, so that it can be passed without being known. */
async function plain(page: Page): Promise<boolean> {
  const asking = page
    .getByRole("form", { name: /^Pass / })
    .locator("input[type=text], select, input[type=radio]");
  return (
    (await asking.count()) === 0 && (await page.getByRole("button", { name: "Pass and go on" }).count()) > 0
  );
}

function written(rows: readonly Answered[]): string {
  const lines = rows.map(
    ({ act, bytes, inpMs, shownMs }) =>
      `${act.padEnd(52)}${String(bytes).padStart(8)} B${bytes > MOST ? "!" : " "} INP ${inpMs.toFixed(0).padStart(4)} ms  shown ${shownMs.toFixed(0).padStart(5)} ms`,
  );
  return [`Answers to acts, at most ${MOST} B; times at ${SLOWER}x slower CPU`, ...lines].join("\n");
}
