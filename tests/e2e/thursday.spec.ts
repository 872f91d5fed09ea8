import { execFileSync } from "node:child_process";
import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { bin } from "../support/ownServer";
import type { ThursdayJob } from "../support/partOnThursday";
import { signIn, type Who } from "./people";
import { demandUsable, listen } from "./watched";

/**
 * Deliveries are there by noon, and the break ends at 12:30: what five hours leave for Monday, where a shift ends at 17:00 and where
 * it does at 16:30, and that with half an hour's delay. The board is ruled until 17:00 in both.
 */
const DESKS: Readonly<Record<string, { who: Who; ends: string; later: string }>> = {
  saltpan: { who: "saltpanDesk", ends: "08:30", later: "09:00" },
  fjellrev: { who: "fjellrevOwner", ends: "09:00", later: "09:30" },
};

/** "Thursday 1 April", as the shop writes it. */
const said = (day: string, locale: string) =>
  new Intl.DateTimeFormat(locale, { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" }).format(
    new Date(`${day}T12:00:00Z`),
  );

const block = (page: Page, number: string) =>
  page
    .getByRole("group", { name: /^Bays and people on/ })
    .getByRole("link", { name: new RegExp(`\\b${number} `) })
    .first();

test("the desk of each shop sees in one look when five hours fit after Thursday's part, and moves them by keys over the change of the clocks, 1280 wide", async ({
  browser,
}) => {
  const told = execFileSync(bin("tsx"), ["tests/support/partOnThursday.ts"], {
    env: { ...process.env, DATA_DIR: E2E.data },
  });
  for (const job of JSON.parse(told.toString()) as ThursdayJob[]) {
    const { who, ends, later } = DESKS[job.slug] as (typeof DESKS)[string];
    const { slug, number, locale, thursday, monday } = job;
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const page = await context.newPage();
    const ears = listen(page);
    await signIn(page, who);

    await test.step(`${slug}: the first time stands first, chosen, with what it waits for`, async () => {
      await page.goto(`/s/${slug}/bookings/new?job=${job.jobId}`);
      const first = page.getByRole("group", { name: "When" }).getByRole("radio").first();
      const [from, to] = [said(thursday, locale), said(monday, locale)];
      await expect(first).toBeChecked();
      await expect(first).toBeInViewport();
      await expect(first).toHaveAccessibleName(
        new RegExp(`^${from}, 12:30 to ${to}, ${ends}.*waits for 1 of ${job.code}, here ${from}, 12:00`),
      );
      await expect(page.getByText(/5 h of work/)).toBeInViewport();
      await demandUsable(page);
      await first.focus();
      await page.keyboard.press("Enter");
      await expect(page).toHaveURL(new RegExp(`/bookings\\?day=${thursday}`));
      await expect(block(page, number)).toHaveAccessibleName(/^12:30 to 17:00/);
    });

    await test.step(`${slug}: half an hour later by keys, and its end on Monday with it`, async () => {
      await block(page, number).focus();
      await page.keyboard.press("ArrowRight");
      await page.keyboard.press("ArrowRight");
      await expect(page.getByRole("status").filter({ hasText: /of work/ })).toContainText(
        "13:00, 5 h of work",
      );
      await page.keyboard.press("Enter");
      await expect(block(page, number)).toHaveAccessibleName(/^13:00 to 17:00/);
      await page.goto(`/s/${slug}/bookings?day=${monday}`);
      await expect(block(page, number)).toHaveAccessibleName(new RegExp(`^08:00 to ${later}`));
    });

    await test.step(`${slug}: not onto the closed Friday, but over the change of the clocks to Monday`, async () => {
      await page.goto(`/s/${slug}/bookings?day=${thursday}`);
      await block(page, number).focus();
      await page.keyboard.press("PageDown");
      await page.keyboard.press("Enter");
      await expect(page.getByRole("alert").filter({ hasText: "does not work" })).toContainText(
        `The next time is ${said(monday, locale)}, 08:00.`,
      );
      await block(page, number).focus();
      for (let day = 0; day < 3; day++) await page.keyboard.press("PageDown");
      await page.keyboard.press("Enter");
      await expect(page).toHaveURL(new RegExp(`day=${monday}`));
      await expect(block(page, number)).toHaveAccessibleName(/^13:00 to 17:00/);
    });
    ears.demandQuiet();
    await context.close();
  }
});
