import { expect, test } from "@playwright/test";
import { shopAddresses } from "../support/routes";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

/** Parts of an address that are not numbers. */
const WORDS: Record<string, string> = { "/import/1": "/import/customers" };

const pages = shopAddresses("saltpan")
  .filter((address) => address.startsWith("/s/"))
  .map((address) => Object.entries(WORDS).reduce((a, [from, to]) => a.replace(from, to), address));

const SIZES = {
  "1280 wide": { viewport: { width: 1280, height: 900 } },
  "390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

for (const [where, size] of Object.entries(SIZES)) {
  test(`every page of a shop is usable and quiet, ${where}`, async ({ browser }) => {
    test.setTimeout(600_000);
    const page = await (await browser.newContext(size)).newPage();
    const ears = listen(page);
    await signIn(page, "saltpanOwner");
    expect(pages.length).toBeGreaterThan(40);
    const troubles: string[] = [];
    for (const address of pages) {
      const response = await page.goto(address);
      if (response?.status() !== 200) troubles.push(`${address} answered ${response?.status()}`);
      else
        await demandUsable(page).catch((cause: Error) => {
          troubles.push(`${address}: ${cause.message}`);
        });
    }
    expect(troubles).toEqual([]);
    ears.demandQuiet();
  });

  test(`the pages before signing in are usable and quiet, ${where}`, async ({ browser }) => {
    const page = await (await browser.newContext(size)).newPage();
    const ears = listen(page);
    for (const address of ["/", "/signin", "/signup", "/reset", "/join/no-such-invitation", "/new-password/no-such-token"]) {
      await page.goto(address);
      await demandUsable(page);
    }
    ears.demandQuiet();
  });
}
