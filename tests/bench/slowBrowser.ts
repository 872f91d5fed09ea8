import { type Browser, chromium, type Page } from "@playwright/test";
import { chromiumPath, ensureChromium } from "../support/chromium";
import type { BenchSite } from "./site";

/** A slow phone on a slow network: a quarter of this machine's speed, and a mobile network's width and distance. */
const SLOWER = 4;
const NETWORK = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 750e3 / 8 };
const SCREEN = { width: 390, height: 844 };
const ROOM = 200;
export const SLOW = `Chromium at 1/${SLOWER} of this machine's speed, 1.6 Mbps, ${NETWORK.latency} ms away`;

/** What the page itself has seen of its loading and of what was done in it. */
export interface PageSeen {
  lcpMs: number;
  cls: number;
  /** The longest of an interaction's events, since it was last put back to 0. */
  inpMs: number;
}

export interface SlowPage {
  readonly page: Page;
  /** Of all that it has loaded, as it came over the wire. */
  readonly loaded: { bytes: number; prefetches: number };
  seen(): Promise<PageSeen>;
  /** Waits no longer for what was done before. */
  forget(): Promise<void>;
  close(): Promise<void>;
}

export async function withChromium<T>(run: (browser: Browser) => Promise<T>): Promise<T> {
  await ensureChromium();
  const executablePath = chromiumPath();
  const browser = await chromium.launch({
    ...(executablePath ? { executablePath } : {}),
    args: ["--no-sandbox", "--disable-gpu"],
  });
  try {
    return await run(browser);
  } finally {
    await browser.close();
  }
}

/** A page of a slow phone that has kept nothing from before, signed in or not. */
export async function slowPage(browser: Browser, site: BenchSite, signedIn = true): Promise<SlowPage> {
  const context = await browser.newContext({
    baseURL: site.base,
    viewport: SCREEN,
    hasTouch: true,
    isMobile: true,
    serviceWorkers: "block",
  });
  if (signedIn) await context.addCookies(cookiesOf(site));
  const page = await context.newPage();
  const wire = await context.newCDPSession(page);
  // A window is as high as the screen with its own frame, so that the foot of the screen would lie below its edge. What changes there is
  // never presented: a button at the foot that shows at once that it was tapped would count as tapped until its answer is drawn.
  const { windowId } = await wire.send("Browser.getWindowForTarget");
  await wire.send("Browser.setWindowBounds", { windowId, bounds: { height: SCREEN.height + ROOM } });
  await wire.send("Network.enable");
  await wire.send("Network.emulateNetworkConditions", NETWORK);
  await wire.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  const loaded = { bytes: 0, prefetches: 0 };
  wire.on("Network.loadingFinished", ({ encodedDataLength }) => {
    loaded.bytes += encodedDataLength;
  });
  wire.on("Network.requestWillBeSent", ({ request }) => {
    const headers = Object.entries(request.headers).map(([name, value]) => `${name}: ${value}`.toLowerCase());
    if (headers.some((line) => /^next-router-prefetch:|^(sec-)?purpose: prefetch/.test(line)))
      loaded.prefetches += 1;
  });
  await page.addInitScript({ content: WATCH });
  return {
    page,
    loaded,
    seen: () => page.evaluate(() => (window as unknown as { seen: PageSeen }).seen),
    forget: () =>
      page.evaluate(() => {
        (window as unknown as { seen: PageSeen }).seen.inpMs = 0;
      }),
    close: () => context.close(),
  };
}

/** Runs in the page, before anything of it. As text: what compiles this file adds calls to functions that no page has. */
const WATCH = `
  window.seen = { lcpMs: 0, cls: 0, inpMs: 0 };
  const on = (type, options, each) =>
    new PerformanceObserver((list) => list.getEntries().forEach(each)).observe({ type, buffered: true, ...options });
  on("largest-contentful-paint", {}, (entry) => {
    seen.lcpMs = entry.startTime;
  });
  on("layout-shift", {}, (entry) => {
    if (!entry.hadRecentInput) seen.cls += entry.value;
  });
  on("event", { durationThreshold: 16 }, (entry) => {
    if (entry.interactionId > 0) seen.inpMs = Math.max(seen.inpMs, entry.duration);
  });
`;

function cookiesOf({ base, cookie }: BenchSite) {
  return cookie.split("; ").map((pair) => {
    const at = pair.indexOf("=");
    return { name: pair.slice(0, at), value: pair.slice(at + 1), url: base };
  });
}
