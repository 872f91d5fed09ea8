import { type BrowserContextOptions, expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { Hand } from "./hand";
import { demandUsable, listen } from "./watched";

interface Regime {
  readonly country: string;
  readonly place: string;
  readonly rate: string;
  readonly size: BrowserContextOptions;
}

const REGIMES: Readonly<Record<string, Regime>> = {
  "in Australia, 1280 wide": {
    country: "Australia",
    place: "Adelaide",
    rate: "120",
    size: { viewport: { width: 1280, height: 900 } },
  },
};

/** Most acts from the sign-up page to a sent quote: clicks and fields filled. */
const MOST_ACTS = 60;

/** To a place of the menu, which opens from the foot on a phone. */
async function to(hand: Hand, place: string): Promise<void> {
  const menu = hand.page.getByText("Menu", { exact: true }).filter({ visible: true });
  if (await menu.count()) await hand.click(menu);
  await hand.link(place);
}

const heading = (page: Page, name: string | RegExp) => page.getByRole("heading", { level: 1, name });

for (const [where, regime] of Object.entries(REGIMES)) {
  test(`a first day from an empty shop, ${where}`, async ({ browser }) => {
    const page = await (await browser.newContext({ ...regime.size, baseURL: E2E.url })).newPage();
    const ears = [listen(page, /ERR_INTERNET_DISCONNECTED/)];
    const hand = new Hand(page);
    const stamp = Date.now() % 1_000_000;
    const began = Date.now();

    await test.step("the shop is opened, and Today says what comes first", async () => {
      await page.goto("/signup");
      await hand.fill("Your name", "Ottilie Brask");
      await hand.fill("Email", `ottilie-${stamp}@shop.example`);
      await hand.fill("Password", "three words, seated");
      await hand.fill("Shop name", `Brask ${regime.country} ${stamp}`);
      await hand.choose("Country", regime.country);
      await hand.fill("Nearest place", regime.place);
      await hand.button("Open the shop");
      await expect(page.getByText("0 of 8 done.")).toBeVisible();
      await demandUsable(page);
    });

    await test.step("a quote comes too early: the page says what is wanted first", async () => {
      await hand.link(/^Make the first quote/);
      await expect(page.getByText("No bike found.")).toBeVisible();
      await to(hand, "Today");
    });

    await test.step("what an hour costs, and a starter package that is published", async () => {
      await hand.link(/^Set what an hour costs/);
      const grade = page.getByRole("form", { name: "Workshop" });
      hand.acts += 2;
      await grade.getByLabel(/^Price, /).fill(regime.rate);
      await grade.getByLabel("Cost, without tax").fill("45");
      await hand.click(grade.getByRole("button", { name: "Save" }));
      await to(hand, "Today");
      await hand.link(/^Take a starter package over/);
      await hand.click(page.getByRole("button", { name: "Take it over" }).first());
      await hand.button("Publish");
      await expect(page.getByText("Revision 1, published")).toBeVisible();
    });

    await test.step("the first customer, their bike of a model without a card, and its quote", async () => {
      await to(hand, "Customers");
      await hand.link(/^(New customer|Add a customer)/);
      await hand.button("Add the customer");
      await expect(page.getByText(/name/i).first()).toBeVisible();
      await hand.fill("Name", "Cosima Rook");
      await hand.fill("E-mail", "cosima@customer.example");
      await hand.button("Add the customer");
      await hand.link("Add a bike");
      await hand.fill("Make", "Kestrel");
      await hand.fill("Model", "Trail 400");
      await hand.fill("Displacement", "399");
      await hand.fill("Plate", "SP FIRST");
      await hand.button("Add the bike");
      await expect(heading(page, /Kestrel Trail 400/)).toBeVisible();
      await hand.link("New quote");
      await hand.click(page.getByRole("radio").first());
      await hand.button("Start the quote");
      await expect(heading(page, /^Quote \d+/)).toBeVisible();
      await demandUsable(page);
    });

    await test.step("the connection is cut as it is sent: it is said, and sent again once", async () => {
      await page.context().setOffline(true);
      await hand.button("Send for a yes");
      await expect(page.getByText("The answer did not come back.").first()).toBeVisible();
      await page.context().setOffline(false);
      await hand.button("Send for a yes");
      await expect(page.getByRole("status").filter({ hasText: "The customer's link" })).toBeVisible();
      await expect(page.getByRole("heading", { name: "What happened" })).toBeVisible();
    });
    const quoted = Math.round((Date.now() - began) / 1000);
    console.log(`${where}: a sent quote after ${hand.acts} acts and ${quoted} s.`);
    expect(hand.acts).toBeLessThanOrEqual(MOST_ACTS);
    for (const one of ears) one.demandQuiet();
  });
}
