import { expect, type Page, test } from "@playwright/test";
import { shopAddresses } from "../support/routes";
import { signIn } from "./people";
import { demandTappable } from "./reach";
import { demandReachable, demandUsable, listen } from "./watched";

/** What stands in an address where 1 would not do: a word, two sheets, a record in the state the page is for. */
const ELSEWHERE: Record<string, string | { list: string; from: RegExp; to: string }> = {
  "/s/saltpan/bench/procedures/1": "/s/saltpan/bench/procedures/float-height-by-gauge",
  "/s/saltpan/books/accounts/1": "/s/saltpan/books/accounts/1100",
  "/s/saltpan/import/1": "/s/saltpan/import/customers",
  "/s/saltpan/shop/letters/1": "/s/saltpan/shop/letters/yes",
  "/s/saltpan/arrivals/new": "/s/saltpan/arrivals/new?bike=1",
  "/s/saltpan/bikes/1/sheets/compare": "/s/saltpan/bikes/1/sheets/compare?a=1&b=2",
  "/s/saltpan/packages/1/edit/1": "/s/saltpan/packages/1/edit/options",
  "/s/saltpan/jobs/1/card": {
    list: "/s/saltpan/jobs?state=inWork",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/jobs/$/card",
  },
  "/s/saltpan/jobs/1/found": {
    list: "/s/saltpan/jobs?state=inWork",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/jobs/$/found",
  },
  "/s/saltpan/invoices/new": {
    list: "/s/saltpan/jobs?state=ready",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/invoices/new?job=",
  },
  "/s/saltpan/invoices/1/remind": {
    list: "/s/saltpan/invoices?state=late",
    from: /\/invoices\/(\d+)$/,
    to: "/s/saltpan/invoices/$/remind",
  },
  "/s/saltpan/invoices/1/credit": {
    list: "/s/saltpan/invoices?state=unpaid",
    from: /\/invoices\/(\d+)$/,
    to: "/s/saltpan/invoices/$/credit",
  },
  "/s/saltpan/quotes/1/alternatives": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/alternatives",
  },
  "/s/saltpan/quotes/1/work": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/work?kind=written",
  },
  "/s/saltpan/quotes/1/preview": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/preview",
  },
  "/s/saltpan/quotes/1/yes": {
    list: "/s/saltpan/quotes?state=sent",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/yes",
  },
  "/s/saltpan/quotes/1/compare": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/compare",
  },
};

const pages = shopAddresses("saltpan").filter((address) => address.startsWith("/s/"));

async function addressOf(page: Page, address: string): Promise<string> {
  const other = ELSEWHERE[address];
  if (other === undefined || typeof other === "string") return other ?? address;
  await page.goto(other.list);
  for (const link of await page.locator("main a[href]").all()) {
    const id = other.from.exec((await link.getAttribute("href")) ?? "")?.[1];
    if (id) return other.to.includes("$") ? other.to.replace("$", id) : other.to + id;
  }
  throw new Error(`Nothing on ${other.list} leads to ${address}.`);
}

test("an address with an id that is none is not found: pages and files, whatever it is written as", async ({
  page,
}) => {
  await signIn(page, "saltpanOwner");
  const withId = shopAddresses("saltpan", "7777777").filter((address) => address.includes("7777777"));
  expect(withId.length).toBeGreaterThan(40);
  const found: string[] = [];
  for (const address of withId)
    for (const id of ["1e3", "0x1", "-1", "+1", "01", "0", "1.0", "9999999999999"]) {
      const asked = address.replaceAll("7777777", encodeURIComponent(id));
      const answer = await page.request.get(asked);
      if (answer.status() !== 404) found.push(`${asked} answered ${answer.status()}`);
    }
  expect(found).toEqual([]);
});

const SIZES = {
  "1280 wide": { viewport: { width: 1280, height: 900 } },
  "390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

/** On a phone the pages are the same text in another shape: axe goes over them once, and over each act's pages in its own walk. */
async function reachable(page: Page): Promise<void> {
  await page.waitForLoadState("load");
  await expect(page).toHaveTitle(/\S/);
  await demandReachable(page);
  await demandTappable(page);
}

for (const [where, size] of Object.entries(SIZES)) {
  const look = "isMobile" in size ? reachable : demandUsable;
  test(`every page of a shop is usable and quiet, ${where}`, async ({ browser }) => {
    test.setTimeout(1_200_000);
    const page = await (await browser.newContext(size)).newPage();
    const ears = listen(page);
    await signIn(page, "saltpanOwner");
    expect(pages.length).toBeGreaterThan(40);
    const troubles: string[] = [];
    for (const address of pages) {
      const response = await page.goto(await addressOf(page, address));
      if (response?.status() !== 200) troubles.push(`${address} answered ${response?.status()}`);
      else
        await look(page).catch((cause: Error) => {
          troubles.push(`${address}: ${cause.message}`);
        });
      // WCAG 2.4.2: the title says which page this is, and of which shop.
      const title = await page.title();
      if (!/^\S.* · Saltpan/.test(title)) troubles.push(`${address} is called "${title}"`);
    }
    expect(troubles).toEqual([]);
    ears.demandQuiet();
  });

  test(`the pages before signing in are usable and quiet, ${where}`, async ({ browser }) => {
    const page = await (await browser.newContext(size)).newPage();
    const ears = listen(page);
    for (const address of [
      "/",
      "/signin",
      "/signup",
      "/signup/sent",
      "/signup/no-such-token",
      "/reset",
      "/join/no-such-invitation",
      "/new-password/no-such-token",
    ]) {
      await page.goto(address);
      await demandUsable(page);
      if ("isMobile" in size) await demandTappable(page);
    }
    ears.demandQuiet();
  });
}
