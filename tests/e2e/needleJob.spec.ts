import { expect, type Page, test } from "@playwright/test";
import { passUntilRide } from "./card";
import { signIn } from "./people";
import { newBike, sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";

type Stations = readonly (readonly [at: string, diameter: string])[];

/** A plain needle at five stations, and the same once it was eased by 0.03 mm. */
const FOUND: Stations = [
  ["10", "2.46"],
  ["26", "2.46"],
  ["36", "2.14"],
  ["46", "1.81"],
  ["56", "1.49"],
];
const MADE: Stations = FOUND.map(([at, diameter]) => [at, at === "36" ? "2.11" : diameter]);

async function measure(page: Page, stations: Stations, shims?: string): Promise<void> {
  await demandUsable(page);
  for (const [i, [at, diameter]] of stations.entries()) {
    await page.getByRole("textbox", { name: `Station ${i + 1}, at` }).fill(at);
    await page.getByRole("textbox", { name: `Diameter ${i + 1}` }).fill(diameter);
  }
  await page.getByRole("textbox", { name: "Clip grooves" }).fill("0");
  await page.getByRole("textbox", { name: "Needle jet below the shoulder" }).fill("20");
  if (shims) await page.getByRole("textbox", { name: "Shims below the needle's shoulder" }).fill(shims);
  await page.getByRole("button", { name: "Record the needle" }).click();
  await expect(page.getByRole("button", { name: "Record the needle" })).toBeHidden();
}

/** The row of a needle's table for 36 mm below the shoulder. */
const at36 = async (page: Page) =>
  (await page.getByRole("row").filter({ hasText: /^36/ }).first().textContent())?.replace(/\s+/g, " ");

test("a needle is measured, eased, fitted with shims, ridden and corrected by one shim, at 360 wide", async ({
  browser,
}) => {
  test.setTimeout(600_000);
  const phone = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true };
  const page = await (await browser.newContext(phone)).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  const name = `Hanne Stockdale ${Date.now() % 100_000}`;
  const bike = await newBike(page, name, "S360 NDL");
  let job = "";

  await test.step("measured at five stations, with the shims it sits on", async () => {
    await page.goto(`${bike}/needle`);
    await expect(page.getByText("Nobody has measured this needle.")).toBeVisible();
    await demandUsable(page);
    await page.getByRole("link", { name: "Measure the needle" }).click();
    await measure(page, FOUND, "0.5");
    await expect(page.getByText("none: it sits by shims")).toBeVisible();
    await demandUsable(page);
    await page.getByRole("textbox", { name: "Slide lift" }).fill("20");
    await page.getByRole("button", { name: "Draw" }).click();
    await expect(page.getByRole("img", { name: "Needle in needle jet at 20.0 mm lift" })).toBeVisible();
  });

  await test.step("quoted with the needle drawn before and after, and accepted", async () => {
    await page.goto(`/s/saltpan/quotes/new?bike=${bike.split("/").at(-1)}`);
    await page.getByRole("radio", { name: /Needle eased and shimmed/ }).check();
    await page.getByRole("button", { name: "Start the quote" }).click();
    await expect(page.getByRole("heading", { level: 2, name: "Needle", exact: true })).toBeVisible();
    await expect(page.getByText(/A ring gauge of 2(\.00)? mm stops/)).toBeVisible();
    await demandUsable(page);
    const link = await sendIt(page);
    const customer = await (await browser.newContext(phone)).newPage();
    await customer.goto(link);
    for (const box of await customer
      .getByRole("group", { name: "Please read and tick" })
      .getByRole("checkbox")
      .all())
      await box.check();
    await customer.getByRole("textbox", { name: "Your full name" }).fill(name);
    await customer.getByRole("button", { name: "Accept this quote" }).click();
    await expect(customer.getByRole("heading", { name: "Thank you, this quote is accepted" })).toBeVisible();
    await page.goto("/s/saltpan/jobs");
    await page
      .getByRole("link", { name: /^Job \d+/ })
      .first()
      .click();
    await page.waitForURL(/\/jobs\/\d+$/);
    await expect(page.getByText(name).first()).toBeVisible();
    job = new URL(page.url()).pathname;
    await page.getByRole("button", { name: "The bike is here" }).click();
    await page.getByRole("button", { name: "Record the arrival" }).click();
    await expect(page.getByRole("link", { name: "Start work" })).toBeVisible();
  });

  await test.step("eased by the card, measured again, its shims said on the step", async () => {
    await page.goto(`${job}/card`);
    await passUntilRide(page, false);
    await page.goto(job);
    expect(await at36(page)).toContain("2.14");
    await page.goto(`${bike}/needle/new?job=${job.split("/").at(-1)}&state=made`);
    await measure(page, MADE);
    await page.goto(job);
    expect(await at36(page)).toMatch(/2\.14.*2\.11.*2\.11/);
    await demandUsable(page);
  });

  let shims = "";
  await test.step("ridden lean at a quarter, one shim more, ridden good", async () => {
    await page.goto(`${job}/ride`);
    const first = page.getByRole("group", { name: "Observation 1" });
    await first.getByRole("combobox", { name: "What it does" }).selectOption({ label: "feels lean" });
    await page.getByRole("button", { name: "Keep it and see what to change" }).click();
    const offered = page.getByRole("listitem").filter({ hasText: "1. Shims below the needle" });
    await expect(offered).toBeVisible();
    shims = /→ (\d\.\d\d)/.exec((await offered.textContent()) ?? "")?.[1] ?? "none";
    expect(Number(shims) % 0.25).toBeCloseTo(0, 9);
    await demandUsable(page);
    await page.getByRole("button", { name: "Change this, and only this" }).click();
    await expect(page.getByRole("heading", { name: "What to change next: one thing" })).toBeHidden();
    await page.goto(`${job}/card`);
    await passUntilRide(page, false);
    await page.getByRole("link", { name: "Record the ride" }).click();
    await page.getByRole("button", { name: "All good at every throttle position" }).click();
    await expect(page.getByText("all good", { exact: true }).first()).toBeVisible();
  });

  await test.step("left with the same numbers on sheet, handover and at the next visit", async () => {
    await page.goto(job);
    await page.getByRole("link", { name: "Record as left" }).click();
    await page.getByRole("combobox", { name: /^All values left/ }).selectOption("read");
    const idle = page.getByRole("textbox", { name: /Idle speed/ });
    if ((await idle.inputValue()) === "") await idle.fill("1300");
    await page.getByRole("checkbox", { name: "I went through all of these on this bike" }).check();
    await page.getByRole("button", { name: "The bike is ready" }).click();
    await expect(page).not.toHaveURL(/\/finish$/);
    await page.goto(`${job}/handover`);
    expect(await at36(page)).toMatch(/2\.14.*2\.11/);
    await expect(
      page.getByRole("row").filter({ hasText: "Shims below the needle's shoulder" }),
    ).toContainText(shims);
    await demandUsable(page);
    await page.goto(`${bike}/needle`);
    expect(await at36(page)).toContain("2.11");
    await demandUsable(page);
    await page.goto(bike);
    await expect(page.getByRole("heading", { name: "Tried after rides" })).toBeVisible();
    await expect(page.getByText(new RegExp(`→ ${shims.replace(".", "\\.")}`)).first()).toBeVisible();
    await demandUsable(page);
  });
  ears.demandQuiet();
});
