import { expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { pick, sentDay, typeDate } from "./fields";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const SMALL = {
  baseURL: E2E.url,
  viewport: { width: 360, height: 740 },
  hasTouch: true,
  isMobile: true,
} as const;

test("a record is found by typing and a day typed in the shop's form, by keys alone at 360 wide", async ({
  browser,
}) => {
  const page = await (await browser.newContext(SMALL)).newPage();
  const ears = listen(page, /ERR_INTERNET_DISCONNECTED/);
  await signIn(page, "saltpanDesk");
  await page.goto("/s/saltpan/bookings/in");
  const bike = page
    .locator("input[role=combobox]")
    .and(page.getByRole("combobox", { name: "Bike", exact: true }));
  const sentBike = sentDay(page, "bikeId");

  await test.step("the list is opened, walked and closed by keys", async () => {
    await bike.focus();
    await page.keyboard.press("ArrowDown");
    await expect(page.getByRole("listbox", { name: "Bike" }).getByRole("option").first()).toBeVisible();
    await demandUsable(page);
    await page.keyboard.press("Escape");
    await expect(page.getByRole("listbox", { name: "Bike" })).toBeHidden();
    await bike.fill("drover");
    await expect(page.getByRole("option", { name: /Tarrant Drover 580/ }).first()).toBeVisible();
    await page.keyboard.press("ArrowDown");
    await expect(bike).toHaveAttribute("aria-activedescendant", /.+/);
    await page.keyboard.press("Enter");
    await expect(bike).toHaveValue(/^Tarrant Drover 580, /);
    await expect(sentBike).toHaveValue(/^\d+$/);
  });

  await test.step("words that choose nothing are refused and kept, and so is a day half typed", async () => {
    await bike.fill("no such bike");
    await expect(page.getByText("Nothing is found.")).toBeVisible();
    await page.getByRole("radio", { name: "Another time" }).check();
    const day = page.getByRole("group", { name: "Day", exact: true });
    await day.locator('[data-place="month"]').focus();
    await page.keyboard.press("Backspace");
    await page.keyboard.press("Backspace");
    await page.getByLabel("What for").fill("Runs hot");
    await page.getByRole("button", { name: "Book it in" }).click();
    await expect(page.getByText("Choose a day.").first()).toBeVisible();
    await expect(page.getByText("Choose one from the list.").first()).toBeVisible();
    await expect(bike).toHaveValue("no such bike");
    await expect(day).toContainText("mm");
    await expect(day.locator('[data-place="day"]')).toHaveText(/^\d\d$/);
    await demandUsable(page);
  });

  await test.step("a cut connection is said, and typing on asks again", async () => {
    await page.context().setOffline(true);
    await bike.fill("drov");
    await expect(page.getByText("The server did not answer.")).toBeVisible();
    await page.context().setOffline(false);
    await bike.fill("drover");
    await expect(page.getByRole("option").first()).toBeVisible();
    await page.getByRole("option").first().tap();
    await expect(sentBike).toHaveValue(/^\d+$/);
  });

  await test.step("day before month here, dots and strokes as people type them, “27” for 2027", async () => {
    const day = page.getByRole("group", { name: "Day", exact: true });
    await page.getByText("Day", { exact: true }).first().click();
    await page.keyboard.type("1/3/27");
    await page.keyboard.press("Tab");
    await expect(sentDay(page, "day")).toHaveValue("2027-03-01");
    await expect(day).toHaveText(/01\/03\/2027/);
    await day.locator('[data-place="day"]').focus();
    await page.keyboard.press("ArrowUp");
    await expect(sentDay(page, "day")).toHaveValue("2027-03-02");
    await typeDate(page, "Start", "08:30");
    await expect(sentDay(page, "time")).toHaveValue("08:30");
    await typeDate(page, "The bike comes", "2027-03-02T07:45");
    await expect(sentDay(page, "dropOff")).toHaveValue("2027-03-02T07:45");
    await demandUsable(page);
    await page.getByRole("button", { name: "Book it in" }).click();
    await expect(page).toHaveURL(/\/bookings\?day=/);
  });
  ears.demandQuiet();
});

test("a Norwegian shop types its days with dots, and part codes are found by words", async ({ browser }) => {
  const page = await (await browser.newContext(SMALL)).newPage();
  const ears = listen(page);
  await signIn(page, "fjellrevOwner");
  await page.goto("/s/fjellrev/bookings/in");
  await typeDate(page, "Day", "2027-03-02");
  await expect(page.getByRole("group", { name: "Day", exact: true })).toHaveText(/02\.03\.2027/);
  await expect(sentDay(page, "day")).toHaveValue("2027-03-02");
  await page.goto("/s/fjellrev/bikes/new");
  await pick(page, "Model card", "a");
  await expect(sentDay(page, "modelCardId")).toHaveValue(/^\d+$/);
  ears.demandQuiet();
});

test("without scripts the same form is plain lists and the browser's own day, and takes a booking", async ({
  browser,
}) => {
  const signedIn = await (await browser.newContext(SMALL)).newPage();
  await signIn(signedIn, "saltpanDesk");
  const storageState = await signedIn.context().storageState();
  const context = await browser.newContext({ ...SMALL, storageState, javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto("/s/saltpan/bookings/in");
  await page.locator('select[name="bikeId"]').selectOption({ index: 1 });
  await page.locator('input[type="date"][name="day"]').fill("2027-04-06");
  await page.locator('input[type="time"][name="time"]').fill("09:00");
  await page.getByRole("radio", { name: "Another time" }).check();
  await page.getByLabel("What for").fill("Runs hot, no scripts");
  await page.getByRole("button", { name: "Book it in" }).click();
  await expect(page).toHaveURL(/\/bookings\?day=/);
});
