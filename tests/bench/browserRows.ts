import { type Browser, chromium, type Page } from "@playwright/test";
import { chromiumPath, ensureChromium } from "../support/chromium";
import type { BenchSite } from "./site";

/** A slow phone on a slow network: a quarter of this machine's speed, and a mobile network's width and distance. */
const SLOWER = 4;
const NETWORK = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 750e3 / 8 };
const RUNS = 3;
const GOAL = "LCP <= 1.5 s, CLS <= 0.02, INP <= 200 ms, no prefetch";

interface Place {
  readonly name: string;
  /** An address, or the list that leads to one and what its links look like. */
  readonly path: string | { readonly list: string; readonly link: RegExp };
  /** What is tapped. Nothing leaves the page by it. */
  readonly tap: (page: Page) => ReturnType<Page["locator"]>;
}

const PLACES: readonly Place[] = [
  { name: "sign in", path: "/signin", tap: (page) => page.getByRole("button", { name: "Sign in" }) },
  { name: "Today", path: "/s/saltpan", tap: (page) => page.locator(".opens").first() },
  {
    name: "jobs",
    path: "/s/saltpan/jobs",
    tap: (page) => page.getByRole("main").getByRole("searchbox").first(),
  },
  {
    name: "a quote",
    path: { list: "/s/saltpan/quotes?state=draft", link: /^\/s\/saltpan\/quotes\/\d+$/ },
    tap: (page) => page.getByRole("main").getByRole("checkbox").first(),
  },
  {
    name: "a job",
    path: { list: "/s/saltpan/jobs?state=inWork", link: /^\/s\/saltpan\/jobs\/\d+$/ },
    tap: (page) => page.getByRole("main").locator("button:visible, summary:visible").first(),
  },
  {
    name: "stock",
    path: "/s/saltpan/stock",
    tap: (page) => page.getByRole("main").getByRole("searchbox").first(),
  },
];

interface Seen {
  readonly lcpMs: number;
  readonly cls: number;
  readonly inpMs: number;
  readonly bytes: number;
  readonly prefetches: number;
}

/** What a person on a slow phone waits for, sees move and loads: each page anew with nothing kept, three times. */
export async function browserTable(site: BenchSite): Promise<string> {
  await ensureChromium();
  const executablePath = chromiumPath();
  const browser = await chromium.launch({
    ...(executablePath ? { executablePath } : {}),
    args: ["--no-sandbox", "--disable-gpu"],
  });
  try {
    const rows: string[][] = [];
    for (const { name, path, tap } of PLACES) {
      const address = typeof path === "string" ? path : await linkedFrom(site, path);
      const seen: Seen[] = [];
      for (let run = 0; run < RUNS; run++) seen.push(await visit(browser, site, address, tap));
      const of = (value: (one: Seen) => number, digits: number) =>
        seen
          .map(value)
          .sort((a, b) => a - b)
          .map((one) => one.toFixed(digits))
          .join(" / ");
      rows.push([
        name,
        of((one) => one.lcpMs, 0),
        of((one) => one.cls, 3),
        of((one) => one.inpMs, 0),
        of((one) => one.bytes / 1000, 0),
        of((one) => one.prefetches, 0),
      ]);
    }
    return written(rows);
  } finally {
    await browser.close();
  }
}

async function linkedFrom(site: BenchSite, { list, link }: { list: string; link: RegExp }): Promise<string> {
  const html = async (path: string) =>
    (await fetch(site.base + path, { headers: { Cookie: site.cookie } })).text();
  for (const [, href = ""] of (await html(list)).matchAll(/ href="([^"]+)"/g))
    if (link.test(href)) return href;
  throw new Error(`Nothing on ${list} leads further.`);
}

async function visit(browser: Browser, site: BenchSite, path: string, tap: Place["tap"]): Promise<Seen> {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    serviceWorkers: "block",
  });
  try {
    if (path !== "/signin") await context.addCookies(cookiesOf(site));
    const page = await context.newPage();
    const wire = await context.newCDPSession(page);
    await wire.send("Network.enable");
    await wire.send("Network.emulateNetworkConditions", NETWORK);
    await wire.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
    let bytes = 0;
    let prefetches = 0;
    wire.on("Network.loadingFinished", ({ encodedDataLength }) => {
      bytes += encodedDataLength;
    });
    wire.on("Network.requestWillBeSent", ({ request }) => {
      const names = Object.keys(request.headers).map((name) => name.toLowerCase());
      if (names.includes("next-router-prefetch") || request.headers.Purpose === "prefetch") prefetches += 1;
    });
    await page.addInitScript(watch);
    await page.goto(site.base + path, { waitUntil: "load" });
    // What comes after the page itself, such as anything fetched ahead.
    await page.waitForTimeout(1500);
    const before = { bytes, prefetches };
    await tap(page).tap();
    await page.waitForTimeout(1000);
    return { ...(await page.evaluate(() => (window as unknown as { seen: PageSeen }).seen)), ...before };
  } finally {
    await context.close();
  }
}

type PageSeen = Pick<Seen, "lcpMs" | "cls" | "inpMs">;

/** Runs in the page, before anything of it. */
function watch(): void {
  const seen = { lcpMs: 0, cls: 0, inpMs: 0 };
  (window as unknown as { seen: typeof seen }).seen = seen;
  const on = (type: string, options: object, each: (entry: PerformanceEntry) => void) =>
    new PerformanceObserver((list) => list.getEntries().forEach(each)).observe({
      type,
      buffered: true,
      ...options,
    });
  on("largest-contentful-paint", {}, (entry) => {
    seen.lcpMs = entry.startTime;
  });
  on("layout-shift", {}, (entry) => {
    const { value, hadRecentInput } = entry as PerformanceEntry & { value: number; hadRecentInput: boolean };
    if (!hadRecentInput) seen.cls += value;
  });
  on("event", { durationThreshold: 16 }, (entry) => {
    const { interactionId } = entry as PerformanceEntry & { interactionId: number };
    if (interactionId > 0) seen.inpMs = Math.max(seen.inpMs, entry.duration);
  });
}

function cookiesOf({ base, cookie }: BenchSite) {
  return cookie.split("; ").map((pair) => {
    const at = pair.indexOf("=");
    return { name: pair.slice(0, at), value: pair.slice(at + 1), url: base };
  });
}

function written(rows: readonly (readonly string[])[]): string {
  const head = ["page", "LCP ms", "CLS", "INP of a tap, ms", "loaded kB", "prefetches"];
  const widths = head.map((h, i) => Math.max(h.length, ...rows.map((row) => (row[i] ?? "").length)));
  const lines = [head, ...rows].map((cells) => cells.map((c, i) => c.padEnd(widths[i] ?? 0)).join("  "));
  return [
    `In Chromium at 1/${SLOWER} of this machine's speed, 1.6 Mbps and ${NETWORK.latency} ms away, nothing kept from before; least / middle / most of ${RUNS} runs. Goal: ${GOAL}`,
    ...lines,
  ].join("\n");
}
