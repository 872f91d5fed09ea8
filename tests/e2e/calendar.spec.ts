import { expect, test } from "@playwright/test";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

test("a person's private calendar shows their bookings to whoever has its address, until a new one is made", async ({
  page,
  playwright,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanTuner");
  await page.goto("/s/saltpan/bookings/calendar");
  await demandUsable(page);
  const address = page.getByRole("status").locator("output");
  await page.getByRole("button", { name: "Make an address" }).click();
  await expect(address).toContainText("/calendar/");
  const first = ((await address.textContent()) ?? "").trim();

  const stranger = await playwright.request.newContext();
  const answer = await stranger.get(first);
  expect(answer.status()).toBe(200);
  expect(answer.headers()["content-type"]).toContain("text/calendar");
  const text = await answer.text();
  expect(text).toContain("BEGIN:VCALENDAR");
  expect(text.match(/BEGIN:VEVENT/g)?.length ?? 0).toBeGreaterThan(0);
  // The same secret under another shop's name opens nothing.
  expect((await stranger.get(first.replace("/c/saltpan/", "/c/fjellrev/"))).status()).toBe(404);

  await page.reload();
  await page.getByRole("button", { name: "Make a new address" }).click();
  await expect(address).toContainText("/calendar/");
  expect((await stranger.get(first)).status()).toBe(404);
  const second = ((await address.textContent()) ?? "").trim();
  expect((await stranger.get(second)).status()).toBe(200);

  await page.reload();
  await page.getByRole("button", { name: "End it" }).click();
  await expect(page.getByRole("button", { name: "Make an address" })).toBeVisible();
  expect((await stranger.get(second)).status()).toBe(404);
  await stranger.dispose();
  ears.demandQuiet();
});
