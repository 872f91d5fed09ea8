import { expect, test } from "@playwright/test";
import { addressOf, SHOP_PAGES } from "../support/pageAddresses";
import { signIn } from "./people";

/** Most that a document may weigh before it is packed, in bytes: DEVELOPERS.md says how it is kept. */
const MOST_RAW = 150_000;

test("no page of the demo shop, as it is made, weighs more than 150 kB of HTML", async ({ page }) => {
  await signIn(page, "saltpanOwner");
  const textOf = async (path: string) => (await page.request.get(path)).text();
  const heavy: string[] = [];
  for (const address of SHOP_PAGES) {
    const bytes = (await (await page.request.get(await addressOf(address, textOf))).body()).length;
    if (bytes > MOST_RAW) heavy.push(`${address} weighs ${Math.round(bytes / 1000)} kB`);
  }
  expect(heavy).toEqual([]);
});
