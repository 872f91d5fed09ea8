import { expect, type Page, test } from "@playwright/test";
import { signIn } from "./people";
import { newBike } from "./quoting";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

const SIZES = {
  "at a desk, 1280 wide": { viewport: { width: 1280, height: 900 } },
  "on a phone, 390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

/** Pictures to look at: only where somebody asks for them. */
const SHOTS = process.env.E2E_SHOTS;
async function shot(page: Page, name: string, where: string): Promise<void> {
  if (SHOTS)
    await page.screenshot({ path: `${SHOTS}/${name}-${/\d+/.exec(where)?.[0]}.png`, fullPage: true });
}

const REGIONS = ["Pilot jet and screw", "Needle, straight part", "Needle, taper", "Main jet"] as const;

/** What a recommendation shows: its main jet, and every band, region by region and opening by opening. */
interface Shown {
  readonly main: number;
  /** Half width in per cent. */
  readonly regions: readonly number[];
  readonly openings: readonly number[];
}

async function shownOn(page: Page): Promise<Shown> {
  const main = await page
    .getByRole("button", { name: /^Main jet: \d/ })
    .first()
    .textContent();
  const regions: number[] = [];
  for (const region of REGIONS) {
    const row = page
      .getByRole("row")
      .filter({ has: page.getByRole("rowheader", { name: region, exact: true }) });
    regions.push(Number(/± (\d+\.\d)/.exec((await row.last().textContent()) ?? "")?.[1]));
  }
  const drawn = page
    .getByRole("figure")
    .filter({ has: page.getByRole("img", { name: /over throttle opening/ }) });
  // The figures are made as they are opened.
  const opened = drawn.locator("tbody tr td:nth-child(4)");
  if ((await opened.count()) === 0) await drawn.getByText("The figures as a table").click();
  await expect(opened.first()).toBeVisible();
  const cells = await opened.allTextContents();
  const openings = cells.map(Number);
  expect([...regions, ...openings].every((n) => Number.isFinite(n) && n > 0)).toBe(true);
  expect(openings.length).toBeGreaterThan(20);
  return { main: Number(/[\d.]+/.exec((main ?? "").split(":").at(-1) ?? "")?.[0]), regions, openings };
}

/** Bands as wide as before or narrower, everywhere, as the screen says them. */
function demandNoWider(after: Shown, before: Shown): void {
  after.regions.forEach((wide, i) => {
    expect(wide, REGIONS[i]).toBeLessThanOrEqual(before.regions[i] ?? 0);
  });
  after.openings.forEach((wide, i) => {
    expect(wide, `opening ${i}`).toBeLessThanOrEqual(before.openings[i] ?? 0);
  });
}

/** A log at ten samples a second: each opening held for four seconds, lean by a share of the lambda that is wanted there. */
function logOf(held: readonly (readonly [throttle: number, lambda: number])[]): string {
  const rows = held.flatMap(([throttle, lambda], k) =>
    Array.from(
      { length: 40 },
      (_, i) =>
        `${((k * 40 + i) / 10).toFixed(1)},${throttle},${(lambda + 0.004 * (i % 2 ? 1 : -1)).toFixed(3)},${2400 + 40 * throttle}`,
    ),
  );
  return `time s,throttle %,lambda,rpm\n${rows.join("\n")}\n`;
}

async function keepLog(page: Page, bikeId: string, csv: string): Promise<void> {
  await page.goto(`/s/saltpan/bench/lambda?bike=${bikeId}`);
  await page.getByRole("textbox", { name: "The file's text" }).fill(csv);
  await page.getByRole("button", { name: "Read the log" }).click();
  await expect(page.getByRole("heading", { name: /^Calibration of Tarrant Drover 580/ })).toBeVisible();
}

for (const [where, size] of widths(SIZES, "on a phone, 390 wide"))
  test(`a bike is taught by logs, and the recommendation says what is firm and what is judged, ${where}`, async ({
    browser,
  }) => {
    const page = await (await browser.newContext(size)).newPage();
    const ears = listen(page);
    await signIn(page, "saltpanOwner");
    const bike = await newBike(page, `Tobias Garnet ${Date.now() % 100_000}`, "S900 LOG");
    const bikeId = bike.split("/").at(-1) ?? "";
    // 3000 m on a standard day, dry, from settings that are right at the sea: 140 asks for 130 by the square-root law (ISO 2533).
    const high = `${bike}/recommend?from=read&altitude=3000&temperature=-4.5&humidity=0&work=mainScrew`;

    await test.step("found at the sea: the air it ran right in is measured", async () => {
      await page.goto(`${bike}/sheets/new`);
      for (const [setting, value] of Object.entries({
        "Main jet": "140",
        "Pilot jet": "45",
        "Clip position from top": "3",
        "Mixture screw": "1.75",
        "Airbox opening": "0",
        Temperature: "15",
        "Station pressure": "1013",
        Humidity: "0",
      }))
        await page.getByRole("textbox", { name: setting, exact: true }).fill(value);
      await page.getByRole("button", { name: "Record the sheet" }).click();
      await expect(page.getByRole("heading", { level: 1 })).not.toHaveText("Record as found");
    });

    let untaught: Shown = { main: 0, regions: [], openings: [] };
    await test.step("3000 m up, unmeasured: as lean as air density alone asks, which is firm, and no leaner", async () => {
      await page.goto(high);
      const firm = page.getByText("By air density alone, firm").locator("..");
      await expect(firm.getByRole("button", { name: /: 130 ?,/ })).toBeVisible();
      await expect(page.getByText(/^Full load was not read on this bike/)).toBeVisible();
      await expect(firm).toContainText("the whole model, judged:");
      await expect(page.getByRole("row").filter({ hasText: "Pilot jet" }).first()).toContainText(
        "firm, as found",
      );
      await expect(page.getByRole("row").filter({ hasText: "Mixture screw" }).first()).toContainText(
        "judged",
      );
      await page
        .getByRole("button", { name: /^Main jet: \d/ })
        .first()
        .click();
      const rests = page.getByRole("dialog", { name: "Main jet" }).first();
      await expect(rests.getByRole("listitem").filter({ hasText: ", firm" }).first()).toBeVisible();
      await expect(rests.getByRole("listitem").filter({ hasText: ", judged" }).first()).toBeVisible();
      await page.keyboard.press("Escape");
      await demandUsable(page);
      untaught = await shownOn(page);
      await shot(page, "untaught", where);
    });

    let half: Shown = untaught;
    await test.step("a log of half throttle unlocks no leaner main, and widens nothing", async () => {
      await keepLog(page, bikeId, logOf([[50, 0.96]]));
      await expect(page.getByText(/No reading at full load is in it/)).toBeVisible();
      await demandUsable(page);
      await page.getByRole("button", { name: "Keep for this model card" }).click();
      await expect(page.getByText("Kept.", { exact: true })).toBeVisible();
      await shot(page, "half", where);
      await page.goto(high);
      half = await shownOn(page);
      expect(half.main).toBeGreaterThanOrEqual(untaught.main);
      demandNoWider(half, untaught);
    });

    await test.step("a log up to full load frees the main jet of this bike, and narrows every region", async () => {
      await keepLog(
        page,
        bikeId,
        logOf([
          [4, 0.95],
          [20, 0.98],
          [50, 0.96],
          [98, 0.85],
        ]),
      );
      await expect(page.getByText(/Full load was read/)).toBeVisible();
      await page.getByRole("button", { name: "Keep for this model card" }).click();
      await expect(page.getByText("Kept.", { exact: true })).toBeVisible();
      await page.goto(high);
      const taught = await shownOn(page);
      await expect(page.getByText(/^Full load was read on this bike/)).toBeVisible();
      expect(taught.main).toBeLessThan(half.main);
      demandNoWider(taught, half);
      taught.regions.forEach((wide, i) => {
        expect(wide, REGIONS[i]).toBeLessThan(untaught.regions[i] ?? 0);
      });
      await demandUsable(page);
      await shot(page, "taught", where);
    });

    await test.step("a trip from the sea to 3000 m shows both answers in each corner", async () => {
      await page.goto(
        `/s/saltpan/bench/trip?mainJet=140&pilotJet=45&screw=1.75&convention=bore&hereAltitude=0&hereTemperature=15&lowAltitude=3000&highAltitude=3000&season=year&coldest=-4.5&warmest=-4.5&humidity=0`,
      );
      const corner = page.getByRole("row").filter({ hasText: /^3,?000 m/ });
      await expect(corner).toContainText("130");
      await expect(page.getByRole("columnheader", { name: "By density, firm" })).toBeVisible();
      await expect(page.getByRole("columnheader", { name: "Whole model, judged" })).toBeVisible();
      await expect(page.getByRole("button", { name: /^Main jet: 130/ }).first()).toBeVisible();
      await demandUsable(page);
      await shot(page, "trip", where);
    });
    ears.demandQuiet();
  });
