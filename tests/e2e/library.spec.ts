import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { passUntilRide } from "./card";
import { Hand } from "./hand";
import { demandUsable, listen } from "./watched";

const DESK = { viewport: { width: 1280, height: 900 } };
const PHONE = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true };
const WORK = [
  "Take jets, needles and screws out, each to its tray",
  "Set both float heights",
  "Set throttle plates or slides alike on the bench",
  "Balance by vacuum",
  "Set mixture screw and idle, hot",
];
const heading = (page: Page, name: string | RegExp) => page.getByRole("heading", { level: 1, name });
/** Presses a button, and waits until the server has answered. */
async function saved(page: Page, press: () => Promise<void>): Promise<void> {
  const answered = page.waitForResponse((response) => response.request().method() === "POST");
  await press();
  await answered;
}
/** Narrows a list to one family of carburettors. */
async function family(page: Page): Promise<void> {
  await page.getByLabel("For", { exact: true }).selectOption({ label: "Twin on a rack" });
  await expect(page).toHaveURL(/family=twin-rack/);
}

test("from an empty shop: a twin's rebuild written from the library, done on the card, handed over; a kit sold", async ({
  browser,
}) => {
  const page = await (await browser.newContext({ ...DESK, baseURL: E2E.url })).newPage();
  const ears = [listen(page)];
  const hand = new Hand(page);
  const stamp = Date.now() % 1_000_000;
  const began = Date.now();
  let shop = "";
  let edit = "";

  await test.step("an empty shop takes the starting library over in one act, and narrows it", async () => {
    await page.goto("/signup");
    await hand.fill("Your name", "Ottilie Brask");
    await hand.fill("Email", `rack-${stamp}@shop.example`);
    await hand.fill("Password", "three words, seated");
    await hand.fill("Shop name", `Brask Racks ${stamp}`);
    await hand.choose("Country", "Australia");
    await hand.fill("Nearest place", "Adelaide");
    await hand.button("Open the shop");
    await hand.link("Packages");
    await expect(heading(page, "Packages")).toBeVisible();
    shop = new URL(page.url()).pathname.replace(/\/packages$/, "");
    await hand.link("Library");
    await hand.button("Take the starting library over");
    await expect(page.getByRole("link", { name: /^Slide out with its cap/ })).toBeVisible();
    await family(page);
    await expect(page.getByRole("link", { name: /^Carburettors out as a rack/ }).first()).toBeVisible();
    await expect(page.getByText("Slide out with its cap")).toHaveCount(0);
    await demandUsable(page);
  });

  await test.step("the rebuild is picked by ticks, as one option, and every check passes", async () => {
    const started = Date.now();
    await page.goto(`${shop}/packages/new`);
    await hand.fill("Code", "RACK-2");
    await hand.fill("Name", "Twin on a rack, rebuilt");
    await hand.button("Make the package");
    await hand.link("Pick from the library");
    await expect(heading(page, "From the library")).toBeVisible();
    await family(page);
    for (const name of WORK) await hand.click(page.getByRole("checkbox", { name }));
    await hand.fill("As one option called", "Rack rebuilt and balanced");
    await demandUsable(page);
    await hand.button("Add to the draft");
    await expect(page.getByText("Every check passes.")).toBeVisible();
    edit = new URL(page.url()).pathname;
    await hand.link(/^Carburettors out as a rack/);
    await page.getByLabel("Caution from the library: find").fill("carbon extraction");
    await expect(page.getByRole("combobox", { name: "Caution from the library" })).toHaveValue(/^Carbon/);
    await page.getByRole("button", { name: "Add caution from the library" }).click();
    await expect(page.getByRole("textbox", { name: "Cautions" })).toHaveValue(/Carbon monoxide/);
    await demandUsable(page);
    await hand.button("Save the access");
    await hand.button("Publish");
    await hand.button("Publish it");
    await expect(page.getByText("Revision 1, published")).toBeVisible();
    const seconds = Math.round((Date.now() - started) / 1000);
    console.log(`The package took ${seconds} s and ${hand.acts} acts so far, sign-up included.`);
  });

  await test.step("a change of the library is offered with its difference, as a draft, never silently", async () => {
    await page.goto(`${shop}/packages/library?q=rack+out`);
    await hand.link(/^Carburettors out as a rack/);
    await hand.fill(/^Minutes off/, "24");
    await page.getByLabel("N·m").first().fill("2.5");
    await hand.button("Save the access");
    await expect(page.getByText(/Say where this torque is from/).first()).toBeVisible();
    await page.getByLabel("Source").first().fill("own gauge, five racks");
    await demandUsable(page);
    await hand.button("Save the access");
    await expect(page.getByRole("heading", { name: "Packages with an earlier text" })).toBeVisible();
    await page.goto(edit.replace(/\/edit$/, ""));
    await expect(page.getByText("Revision 1, published")).toBeVisible();
    await hand.link("Look at the differences");
    await expect(page.locator("ins").filter({ hasText: "24" })).toBeVisible();
    await expect(page.locator("ins").filter({ hasText: "2.5 N·m (own gauge, five racks)" })).toBeVisible();
    await demandUsable(page);
    await hand.button("Put what is ticked into a draft");
    await expect(page.getByText("Revision 2, draft")).toBeVisible();
    await hand.button("Publish");
    await hand.button("Publish it");
    await expect(page.getByText("Revision 2, published")).toBeVisible();
  });

  const phone = await (
    await browser.newContext({
      ...PHONE,
      baseURL: E2E.url,
      storageState: await page.context().storageState(),
    })
  ).newPage();
  ears.push(listen(phone));
  await test.step("at 360 the library's pages fit one hand", async () => {
    for (const path of [
      "/packages/library",
      "/packages/library/new?kind=operation",
      "/packages/library/import",
    ]) {
      await phone.goto(`${shop}${path}`);
      await demandUsable(phone);
    }
    await phone.goto(`${shop}/packages/library/start`);
    await expect(phone.getByText("All of it is in your library.")).toBeVisible();
  });

  let job = "";
  await test.step("quoted for a twin at the shop's own rate, agreed, and the bike is here", async () => {
    await page.goto(`${shop}/shop/prices`);
    const grade = page.getByRole("form", { name: "Workshop" });
    await grade.getByLabel(/^Price, /).fill("120");
    await grade.getByLabel("Cost, without tax").fill("45");
    await saved(page, () => grade.getByRole("button", { name: "Save" }).click());
    await page.goto(`${shop}/customers/new`);
    await hand.fill("Name", "Cosima Rook");
    await hand.fill("E-mail", "cosima@customer.example");
    await hand.button("Add the customer");
    await hand.link("Add a bike");
    await hand.fill("Make", "Orme");
    await hand.fill("Model", "Twin 750");
    await hand.fill("Displacement", "744");
    await hand.fill("Cylinders", "2");
    await hand.fill("Carburettors", "2");
    await hand.fill("Plate", "SP RACK");
    await hand.button("Add the bike");
    await hand.link("New quote");
    await page.getByRole("radio", { name: /^Twin on a rack/ }).check();
    await hand.button("Start the quote");
    await hand.button("Send for a yes");
    await hand.button("Send it");
    const shown = page.getByRole("status").filter({ hasText: "The customer's link" });
    await expect(shown).toBeVisible();
    await phone.goto(new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname);
    const acknowledged = phone.getByRole("group", { name: "Please read and tick" }).getByRole("checkbox");
    await expect(phone.getByRole("button", { name: "Accept this quote" })).toBeVisible();
    for (const box of await acknowledged.all()) await box.check();
    await phone.getByRole("textbox", { name: "Your full name" }).fill("Cosima Rook");
    await phone.getByRole("button", { name: "Accept this quote" }).click();
    await expect(phone.getByRole("heading", { name: "Thank you, this quote is accepted" })).toBeVisible();
    await page.goto(`${shop}/jobs`);
    await hand.link(/^Job \d+/);
    await expect(heading(page, /^Job \d+/)).toBeVisible();
    job = new URL(page.url()).pathname;
    await hand.button("The bike is here");
    await hand.fill(/^Odometer/, "41200");
    await hand.button("Record the arrival");
    await expect(page.getByRole("link", { name: "Start work" })).toBeVisible();
  });

  await test.step("done on the card at 360, in the order that opens everything once", async () => {
    await phone.goto(`${job}/card`);
    await passUntilRide(phone, false);
    await phone.getByRole("link", { name: "Record the ride" }).click();
    await phone.getByRole("button", { name: "All good at every throttle position" }).click();
    await expect(phone.getByText("all good", { exact: true }).first()).toBeVisible();
  });

  await test.step("handed over, with what is looked at again in the diary", async () => {
    await page.goto(job);
    await hand.link("Record as left");
    await page.getByRole("combobox", { name: /^All values left/ }).selectOption("read");
    await page.getByRole("checkbox", { name: "I went through all of these on this bike" }).check();
    await hand.button("The bike is ready");
    await expect(page).not.toHaveURL(/\/finish$/);
    await page.goto(`${job}/handover`);
    await expect(heading(page, /./)).toBeVisible();
    await page.goto(`${shop}/follow-ups`);
    await expect(page.getByText(/Look at again, it has been hot and cold: Manifold clamps/)).toBeVisible();
  });

  await test.step("what was different may be kept: nothing was, since no time was taken", async () => {
    await page.goto(job);
    await hand.link("Keep what was different");
    await expect(page.getByText(/went as its packages say/)).toBeVisible();
    await demandUsable(page);
  });

  await test.step("a kit of two parts is made, opened over the counter, and comes to its price", async () => {
    await page.goto(`${shop}/shop/settings`);
    const settings = page.getByRole("form", { name: "Settings" });
    await settings.getByLabel("Legal name").fill("Brask Racks Pty Ltd");
    await settings.getByLabel("Address").fill("1 Salt Road");
    await settings.getByLabel("ABN").fill("51 824 753 556");
    await saved(page, () => settings.getByRole("button", { name: "Save settings" }).click());
    for (const [code, name, price, stock] of [
      ["SC-M4-12", "Screw M4 x 12", "0.80", "11"],
      ["SEAL-34", "Bowl seal", "12.50", "3"],
    ] as const) {
      await page.goto(`${shop}/stock/new`);
      await hand.fill("Code", code);
      await hand.fill("Name", name);
      await hand.fill("On hand now", stock);
      await page.getByRole("textbox", { name: "Price", exact: true }).fill(price);
      await hand.button("Add the part");
      await expect(page).toHaveURL(/\/stock\/\d+$/);
    }
    await page.goto(`${shop}/stock/kits/new`);
    await hand.fill("Code", "KIT-34");
    await hand.fill("Name", "Bowl kit, round 34");
    await hand.fill(/^Price of the whole/, "19.90");
    await page.getByRole("button", { name: "Add a part", exact: true }).click();
    for (const [at, code, many] of [
      [0, "SC-M4-12", "4"],
      [1, "SEAL-34", "1"],
    ] as const) {
      // Not the list that it opens, which has the same name.
      const part = page
        .locator("input")
        .and(page.getByLabel("Part", { exact: true }))
        .nth(at);
      await part.scrollIntoViewIfNeeded();
      await part.fill(code);
      await part.press("Tab");
      await page.getByLabel("Quantity", { exact: true }).nth(at).fill(many);
    }
    await hand.button("Save the kit");
    await expect(page.getByText("2 could be opened from what is free in stock.")).toBeVisible();
    await demandUsable(page);
    await phone.goto(`${shop}/stock/kits`);
    await demandUsable(phone);
    await page.goto(`${shop}/counter`);
    await page.getByLabel("Code, size or words").fill("KIT-34");
    await page.getByLabel("Code, size or words").press("Enter");
    await expect(page.getByText("KIT-34 opened.")).toBeVisible();
    await expect(page.getByLabel("How many").first()).toHaveValue("4");
    await hand.button("Sell and print");
    await expect(heading(page, /^Receipt/)).toBeVisible();
    await expect(page.getByText(/19\.90/).first()).toBeVisible();
    await page.goto(`${shop}/stock/kits`);
    await expect(page.getByRole("row", { name: /KIT-34/ })).toContainText("1");
  });
  for (const one of ears) one.demandQuiet();
  console.log(`The whole walk took ${Math.round((Date.now() - began) / 1000)} s.`);
});
