import { expect, type Page, test } from "@playwright/test";
import { addressOf, PUBLIC_PAGES, SHOP_PAGES } from "../support/pageAddresses";
import { shopAddresses } from "../support/routes";
import { signIn } from "./people";
import { demandTappable } from "./reach";
import { demandReachable, demandUsable, listen } from "./watched";

/** Another page's text, asked for by this one's session. */
const textOf = (page: Page) => async (path: string) => (await page.request.get(path)).text();

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
    expect(SHOP_PAGES.length).toBeGreaterThan(40);
    const troubles: string[] = [];
    for (const address of SHOP_PAGES) {
      const response = await page.goto(await addressOf(address, textOf(page)));
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
    for (const address of PUBLIC_PAGES) {
      await page.goto(address);
      await demandUsable(page);
      if ("isMobile" in size) await demandTappable(page);
    }
    ears.demandQuiet();
  });
}
