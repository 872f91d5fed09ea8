import { expect, type Page, test } from "@playwright/test";
import ICAL from "ical.js";
import { typeDate } from "./fields";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

/** A Tuesday some weeks from now, far from what the demo shop has booked, and the day after it. */
function farDays(): readonly [string, string] {
  const day = new Date(Date.now() + 70 * 86_400_000);
  // The demo shop is closed over the turn of the year.
  if (day.getUTCMonth() === 11 || (day.getUTCMonth() === 0 && day.getUTCDate() < 6))
    day.setUTCDate(day.getUTCDate() + 28);
  day.setUTCDate(day.getUTCDate() + ((9 - day.getUTCDay()) % 7));
  const iso = (date: Date) => date.toISOString().slice(0, 10);
  return [iso(day), iso(new Date(day.getTime() + 86_400_000))];
}

/** Books somebody in at a time of one's own, for an hour, in the first bay with the first person. */
async function bookAt(page: Page, caller: string, day: string, time: string): Promise<void> {
  await page.goto("/s/saltpan/bookings/in?minutes=60");
  await page.getByLabel("Name", { exact: true }).fill(caller);
  await page.getByLabel("What for").fill("Runs hot");
  await page.getByRole("radio", { name: /^Another time/ }).check();
  await typeDate(page, "Day", day);
  await typeDate(page, "Start", time);
  await page.getByRole("button", { name: "Book it in" }).click();
  await expect(page.getByText(/^Booked\./)).toBeVisible();
}

const block = (page: Page, caller: string) =>
  page
    .getByRole("group", { name: /^Bays and people on/ })
    .getByRole("link", { name: caller })
    .first();

test("a booking is moved by keyboard alone: longer, later, refused in place, to another day; then dragged back, 1280 wide", async ({
  page,
}) => {
  test.slow();
  const ears = listen(page);
  const stamp = Date.now() % 100_000;
  const [first, second] = [`Halvard Moe ${stamp}`, `Runa Sand ${stamp}`];
  const [day, next] = farDays();
  await signIn(page, "saltpanDesk");
  await bookAt(page, first, day, "09:00");
  await bookAt(page, second, day, "11:00");
  await page.goto(`/s/saltpan/bookings?day=${day}`);
  await demandUsable(page);
  const spoken = page.getByRole("status").filter({ hasText: /of work/ });
  await expect(block(page, first)).toHaveAccessibleName(/^09:00 to 10:00/);

  await test.step("it gets a quarter later and half an hour longer, each step spoken, and Enter keeps that", async () => {
    await block(page, first).focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("Shift+ArrowRight");
    await expect(spoken).toContainText("09:15, 1 h 30");
    await page.keyboard.press("Enter");
    await expect(block(page, first)).toHaveAccessibleName(/^09:15 to 10:45/);
    await expect(page.getByText(/^Moved to /)).toBeVisible();
  });

  await test.step("on top of another it is refused where it stands, with what is in the way and what is free", async () => {
    await block(page, first).focus();
    for (let at = 0; at < 6; at++) await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    const alert = page.getByRole("alert").filter({ hasText: "the bike of" });
    await expect(alert).toContainText(`has the bike of ${second} from`);
    await expect(alert).toContainText(/Next free .+, 1[2-4]:\d\d\./);
    await demandUsable(page);
    await page.keyboard.press("Escape");
    await expect(alert).toHaveCount(0);
    await expect(block(page, first)).toHaveAccessibleName(/^09:15 to 10:45/);
  });

  await test.step("Page Down takes it to the next day, at the same time", async () => {
    await block(page, first).focus();
    await page.keyboard.press("PageDown");
    await page.keyboard.press("Enter");
    await expect(page).toHaveURL(new RegExp(`day=${next}`));
    await expect(block(page, first)).toHaveAccessibleName(/^09:15 to 10:45/);
  });

  await test.step("a pointer drags it by its body and stretches it by its end", async () => {
    const drag = async (from: "middle" | "end", by: number) => {
      await block(page, first).scrollIntoViewIfNeeded();
      const board = await page.getByRole("group", { name: /^Bays and people on/ }).boundingBox();
      const box = await block(page, first).locator("rect").first().boundingBox();
      if (!board || !box) throw new Error("no board");
      const hours = await page.locator("svg[data-board] g > text.font-mono").count();
      const minute = board.width / ((hours - 1) * 60);
      const x = from === "middle" ? box.x + box.width / 2 : box.x + box.width - 5;
      await page.mouse.move(x, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(x + (by * minute) / 2, box.y + box.height / 2);
      await page.mouse.move(x + by * minute, box.y + box.height / 2);
      await page.mouse.up();
    };
    await drag("middle", 60);
    await expect(block(page, first)).toHaveAccessibleName(/^10:15 to 11:45/);
    await drag("end", -45);
    await expect(block(page, first)).toHaveAccessibleName(/^10:15 to 11:00/);
    await expect(page).toHaveURL(/\/bookings\?day=/);
  });

  await test.step("the whole shop's calendar has it, read by ical.js, until its address is ended", async () => {
    await page.goto("/s/saltpan/bookings/calendar");
    await page.getByRole("button", { name: "Make the shop an address" }).click();
    const address = page.getByRole("status").locator("output");
    await expect(address).toContainText("/calendar/");
    const url = ((await address.textContent()) ?? "").trim();
    const answer = await page.request.get(url);
    const events = new ICAL.Component(ICAL.parse(await answer.text()))
      .getAllSubcomponents("vevent")
      .map((one) => new ICAL.Event(one));
    const mine = events.find((one) => one.description.includes(first));
    expect(mine?.startDate.toJSDate().toISOString().slice(0, 10)).toBe(next);
    expect(mine?.location).toMatch(/, /);
    await demandUsable(page);
    await page.reload();
    await page.getByRole("button", { name: "End the shop’s address" }).click();
    await expect(page.getByRole("button", { name: "Make the shop an address" })).toBeVisible();
    expect((await page.request.get(url)).status()).toBe(404);
  });
  ears.demandQuiet();
});
