import { type BrowserContextOptions, expect, type Page, test } from "@playwright/test";
import { wordsIn } from "../../lib/words/words";
import { E2E } from "../support/e2eServer";
import { Hand } from "./hand";
import { arrive } from "./plainJob";
import { sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";

interface Regime {
  readonly country: string;
  readonly currency: string;
  readonly place: string;
  readonly rate: string;
  readonly price: string;
  readonly given: string;
  /** Up to which amount the customer says yes. */
  readonly upTo: string;
  readonly taxNumber: string;
  /** What the customer is written to in, in words and as a locale. */
  readonly language: string;
  readonly locale: string;
  /** The whole day; else only until the counter. */
  readonly whole: boolean;
  readonly size: BrowserContextOptions;
}

const REGIMES: Readonly<Record<string, Regime>> = {
  "in Australia, 1280 wide": {
    country: "Australia",
    currency: "AUD",
    place: "Adelaide",
    rate: "120",
    price: "8.40",
    given: "20",
    upTo: "400",
    taxNumber: "51 824 753 556",
    language: "It and the page are in English.",
    locale: "en-AU",
    whole: false,
    size: { viewport: { width: 1280, height: 900 } },
  },
  "in Norway, 390 wide": {
    country: "Norway",
    currency: "NOK",
    place: "Oslo",
    rate: "1150,50",
    price: "84,50",
    given: "200",
    upTo: "4000",
    taxNumber: "923 609 016",
    language: "It and the page are in Norsk bokmål.",
    locale: "nb-NO",
    whole: true,
    size: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
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
    const customer = await (await browser.newContext({ ...regime.size, baseURL: E2E.url })).newPage();
    const ears = [listen(page, /ERR_INTERNET_DISCONNECTED/), listen(customer)];
    const hand = new Hand(page);
    const say = wordsIn(regime.locale);
    const stamp = Date.now() % 1_000_000;
    const began = Date.now();
    let bike = "";

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
      await expect(page.getByRole("article", { name: "What the customer reads" })).toBeVisible();
      await demandUsable(page);
      await hand.button("Publish it");
      await expect(page.getByText("Revision 1, published")).toBeVisible();
    });

    await test.step("the first customer, their bike of a model without a card, and its quote", async () => {
      await to(hand, "Customers");
      await hand.link(/^(New customer|Add a customer)/);
      await hand.button("Add the customer");
      await expect(page.getByRole("alert").filter({ hasText: "The name is blank" })).toBeVisible();
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
      bike = new URL(page.url()).pathname;
      await hand.link("New quote");
      await hand.click(page.getByRole("radio").first());
      await hand.button("Start the quote");
      await expect(heading(page, /^Quote \d+/)).toBeVisible();
      await demandUsable(page);
    });

    await test.step("it is read over as its customer will, and the connection is cut as it is sent: it is sent once", async () => {
      await hand.button("Send for a yes");
      await expect(page.getByText("cosima@customer.example")).toBeVisible();
      await expect(page.getByText(regime.language)).toBeVisible();
      await demandUsable(page);
      await page.context().setOffline(true);
      await hand.button("Send it");
      await expect(page.getByText("The answer did not come back.").first()).toBeVisible();
      await page.context().setOffline(false);
      await hand.button("Send it");
      await expect(page.getByRole("status").filter({ hasText: "The customer's link" })).toBeVisible();
      await hand.link("Back to the quote");
      await expect(page.getByRole("heading", { name: "What happened" })).toBeVisible();
    });
    const quoted = Math.round((Date.now() - began) / 1000);
    console.log(`${where}: a sent quote after ${hand.acts} acts and ${quoted} s.`);
    expect(hand.acts).toBeLessThanOrEqual(MOST_ACTS);

    await test.step("who the shop is, and two jets over the counter", async () => {
      await to(hand, "Today");
      await hand.link(/^Say who you are/);
      await page.getByLabel("Address").fill("1 Salt Road");
      await page.locator('[name="taxNumber"]').fill(regime.taxNumber);
      await page.getByLabel("Note on paying").fill("Account 1234 56 78901");
      await hand.button("Save settings");
      await expect(page.getByText("Settings saved.")).toBeVisible();
      await to(hand, "Stock");
      await hand.link(/^(New part|Add a part)/);
      await hand.fill("Code", "MJ-130");
      await hand.fill("Name", "Main jet 130");
      await hand.choose("Kind", "other");
      await hand.fill("On hand now", "10");
      await hand.fill("Price", regime.price);
      await hand.button(/^(Add the part|Add it)/);
      await expect(heading(page, /MJ-130/)).toBeVisible();
      const sold = Date.now();
      await to(hand, "Counter");
      await hand.fill("Code, size or words", "jet 130");
      await page.getByLabel("Code, size or words").press("Enter");
      await expect(page.getByText("MJ-130 added.")).toBeVisible();
      await hand.button("One MJ-130 more");
      await hand.fill(`Given, ${regime.currency}`, regime.given);
      await hand.button("Sell and print");
      await expect(heading(page, /^Receipt \d+$/)).toBeVisible();
      console.log(`${where}: two jets sold in ${Math.round((Date.now() - sold) / 1000)} s.`);
      await demandUsable(page);
    });

    if (!regime.whole) {
      for (const one of ears) one.demandQuiet();
      return;
    }

    await test.step("a chain change is quoted without any package", async () => {
      await page.goto(bike);
      await hand.link("New quote");
      await hand.button("Start without a package");
      await hand.link("Write a work");
      await page.getByRole("textbox", { name: "What is done" }).fill("Chain renewed");
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("48");
      await hand.button("Put it on the quote");
      await hand.button("Add a line");
      await hand.choose("What kind", "A part from stock");
      await page.getByRole("combobox", { name: "Part" }).fill("MJ-130");
      await demandUsable(page);
      await hand.button("Add the line");
      await expect(page.getByText(/part MJ-130/)).toBeVisible();
      await page.waitForLoadState("networkidle");
      await sendIt(page);
    });

    let job = "";
    await test.step("a look for an hour from the phone: who said yes, up to what", async () => {
      await page.goto(bike);
      await hand.link("Open a job");
      await demandUsable(page);
      await hand.fill("In a few words", "Have a look: stalls when hot");
      await hand.fill("Minutes planned", "60");
      await hand.button("Open the job");
      await expect(page.getByText("Say up to which amount.").first()).toBeVisible();
      await page.getByLabel(/^Up to/).fill(regime.upTo);
      await hand.button("Open the job");
      await expect(heading(page, /^Job \d+/)).toBeVisible();
      job = new URL(page.url()).pathname;
      await expect(page.getByText("Agreement: agreed by word")).toBeVisible();
      await demandUsable(page);
    });

    await test.step("more is added inside the amount, and nothing past it", async () => {
      await hand.button("Add work or parts");
      await page.getByRole("textbox", { name: "What", exact: true }).fill("Plugs out and looked at");
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("6000");
      await hand.button("Add it");
      await expect(page.getByText(/agreed up to/).first()).toBeVisible();
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("15");
      await hand.button("Add it");
      await expect(page.getByRole("button", { name: "Add it" })).toBeHidden();
      await expect(page.getByRole("row", { name: /Plugs out and looked at/ }).first()).toBeVisible();
    });

    await test.step("a cracked diaphragm is a variation that its customer reads in their own language", async () => {
      await arrive(page);
      await page.goto(`${job}/card`);
      await hand.link("Found something");
      await page.getByRole("textbox", { name: /^What/ }).fill("Diaphragm cracked at its edge.");
      await hand.button("Keep it");
      await expect(page).not.toHaveURL(/\/found/);
      await page.goto(job);
      await hand.link("Quote it as a variation");
      await hand.button("Start without a package");
      await hand.link("Write a work");
      await page.getByRole("textbox", { name: "What is done" }).fill("Diaphragm renewed");
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("20");
      await hand.button("Put it on the quote");
      await expect(page.getByText("Diaphragm renewed").first()).toBeVisible();
      await page.waitForLoadState("networkidle");
      await customer.goto(await sendIt(page));
      await expect(customer.getByText("Diaphragm cracked at its edge.").last()).toBeVisible();
      await expect(customer.getByRole("button", { name: say("answering.accept") })).toBeVisible();
    });
    console.log(`${where}: the whole day in ${Math.round((Date.now() - began) / 1000)} s.`);
    for (const one of ears) one.demandQuiet();
  });
}
