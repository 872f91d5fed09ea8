import type { Browser, Page } from "@playwright/test";
import { columns, few, median, metText, spread } from "./floor";
import type { Report } from "./report";
import type { BenchSite } from "./site";
import { type PageSeen, SLOW, slowPage, withChromium } from "./slowBrowser";

const RUNS = few(3);
const GOAL = { lcpMs: 1500, cls: 0.02, inpMs: 200, prefetches: 0 } as const;

interface Place {
  readonly name: string;
  /** An address, or the list that leads to one and what its links look like. */
  readonly path: string | { readonly list: string; readonly link: RegExp };
  /** What is tapped. Nothing leaves the page by it. */
  readonly tap: (page: Page) => ReturnType<Page["locator"]>;
}

const searchField = (page: Page) => page.getByRole("main").getByRole("searchbox").first();

const PLACES: readonly Place[] = [
  { name: "sign in", path: "/signin", tap: (page) => page.getByRole("button", { name: "Sign in" }) },
  {
    name: "Today",
    path: "/s/saltpan",
    tap: (page) => page.getByRole("main").locator("button:visible, summary:visible").first(),
  },
  { name: "jobs", path: "/s/saltpan/jobs", tap: searchField },
  {
    name: "a quote",
    path: { list: "/s/saltpan/quotes?state=draft", link: /^\/s\/saltpan\/quotes\/\d+$/ },
    tap: (page) => page.getByRole("main").getByRole("checkbox").and(page.locator(":enabled")).first(),
  },
  {
    name: "a job",
    path: { list: "/s/saltpan/jobs?state=inWork", link: /^\/s\/saltpan\/jobs\/\d+$/ },
    tap: (page) => page.getByRole("main").locator("button:visible, summary:visible").first(),
  },
  { name: "stock", path: "/s/saltpan/stock", tap: searchField },
];

interface Seen extends PageSeen {
  readonly bytes: number;
  readonly prefetches: number;
}

/** What a person on a slow phone waits for, sees move and loads: each page anew with nothing kept, three times. */
export async function browserReport(site: BenchSite): Promise<Report> {
  const visits = new Map<string, Seen[]>();
  await withChromium(async (browser) => {
    for (let run = 0; run < RUNS; run++)
      for (const place of PLACES)
        visits.set(place.name, [...(visits.get(place.name) ?? []), await visit(browser, site, place)]);
  });
  const rows = [...visits].map(([name, seen]) => rowOf(name, seen));
  const head = ["page", "LCP ms", "CLS", "INP of a tap, ms", "loaded kB", "prefetches", "met"];
  const goal = `LCP <= ${GOAL.lcpMs / 1000} s and INP <= ${GOAL.inpMs} ms in the middle, CLS <= ${GOAL.cls} and no prefetch in each`;
  return {
    text: [
      `${SLOW}, nothing kept from before; least / middle / most of ${RUNS} runs. Goal: ${goal}`,
      columns(
        head,
        rows.map(({ cells }) => cells),
      ),
    ].join("\n"),
    goals: rows.flatMap(({ goals }) => goals),
  };
}

function rowOf(name: string, seen: readonly Seen[]) {
  const of = (figure: keyof Seen) => seen.map((one) => one[figure]).toSorted((a, b) => a - b);
  const most = (figure: keyof Seen) => of(figure).at(-1) ?? Number.NaN;
  const goals = [
    { work: `${name}: LCP`, met: median(of("lcpMs")) <= GOAL.lcpMs },
    { work: `${name}: CLS`, met: most("cls") <= GOAL.cls },
    { work: `${name}: INP`, met: median(of("inpMs")) <= GOAL.inpMs },
    { work: `${name}: prefetches`, met: most("prefetches") <= GOAL.prefetches },
  ];
  const missed = goals.filter((goal) => !goal.met).map((goal) => goal.work.slice(name.length + 2));
  const cells = [
    name,
    spread(of("lcpMs"), 0),
    spread(of("cls"), 3),
    spread(of("inpMs"), 0),
    spread(
      of("bytes").map((bytes) => bytes / 1000),
      0,
    ),
    spread(of("prefetches"), 0),
    missed.length === 0 ? metText(true) : `${metText(false)}: ${missed.join(", ")}`,
  ];
  return { cells, goals };
}

async function visit(browser: Browser, site: BenchSite, { name, path, tap }: Place): Promise<Seen> {
  const address = typeof path === "string" ? path : await linkedFrom(site, path);
  const slow = await slowPage(browser, site, address !== "/signin");
  try {
    await slow.page.goto(address, { waitUntil: "load" });
    // What comes after the page itself, such as anything fetched ahead.
    await slow.page.waitForTimeout(1500);
    const before = { ...slow.loaded, ...(await slow.seen()) };
    if (!(before.lcpMs > 0)) throw new Error("The page does not say when it was painted.");
    await slow.forget();
    await tap(slow.page).tap({ timeout: 5_000 });
    await slow.page.waitForTimeout(700);
    return { ...before, inpMs: (await slow.seen()).inpMs };
  } catch (cause) {
    throw new Error(`The visit to ${name} (${address}) failed.`, { cause });
  } finally {
    await slow.close();
  }
}

async function linkedFrom(site: BenchSite, { list, link }: { list: string; link: RegExp }): Promise<string> {
  const answer = await fetch(site.base + list, { headers: { Cookie: site.cookie } });
  for (const [, href = ""] of (await answer.text()).matchAll(/ href="([^"]+)"/g))
    if (link.test(href)) return href;
  throw new Error(`Nothing on ${list} leads further.`);
}
