import { expect, type Locator, type Page, test } from "@playwright/test";
import { DEMO_PEOPLE } from "../../demo/signIns";
import { E2E } from "../support/e2eServer";
import { holdScripts } from "./held";
import { signIn } from "./people";
import { demandTappable } from "./reach";
import { demandUsable, listen } from "./watched";

const PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true } as const;

/** Counts how often the page asks to keep the screen on: a browser without a screen refuses. */
const countWakes = () => {
  const counted = { wakes: 0 };
  Object.defineProperty(window, "counted", { value: counted });
  Object.defineProperty(navigator, "wakeLock", {
    value: {
      request: async () => {
        counted.wakes += 1;
        return { released: false, release: async () => undefined };
      },
    },
  });
};

const topOf = async (one: Locator) => (await one.boundingBox())?.y ?? Number.NaN;

/** Signs in over the form that asked for it. */
async function signInOver(page: Page, who: keyof typeof DEMO_PEOPLE): Promise<void> {
  await page.getByRole("button", { name: "Sign in here" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Email").fill(DEMO_PEOPLE[who].email);
  await dialog.getByLabel("Password").fill(E2E.password);
  await dialog.getByRole("button", { name: "Sign in" }).click();
  await expect(dialog).toBeHidden();
}

test("a card on a small phone: one tap away, readings first, nothing half typed is lost, the new step is said", async ({
  browser,
}) => {
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  // Cut off and signed out on purpose: the browser tells of both.
  const ears = listen(page, /ERR_INTERNET_DISCONNECTED|Failed to fetch|401/);
  await page.addInitScript(countWakes);
  await signIn(page, "fjellrevOwner");
  await page.goto("/s/fjellrev");
  await page.getByRole("link", { name: "My next job" }).click();
  await expect(page.getByText(/^Step \d+ of \d+/)).toBeVisible();
  const card = page.url();
  expect(await page.evaluate(() => (window as unknown as { counted: { wakes: number } }).counted.wakes)).toBe(
    1,
  );
  await demandTappable(page);

  const form = page.getByRole("form", { name: /^Pass / });
  const reading = form.locator('input[name^="readings."]');
  const unit = form.locator('select[name^="units."]');
  const note = page.getByRole("textbox", { name: "Note for whoever works here next" });

  await test.step("what is read stands before parts and photos; paper is at hand", async () => {
    const fold = page.locator("summary", { hasText: "Note something here" });
    expect(await topOf(reading)).toBeLessThan(await topOf(fold));
    expect(await topOf(fold)).toBeLessThan(await topOf(page.getByText("Take a photo")));
    await expect(page.getByRole("link", { name: "Card on paper" })).toHaveAttribute("href", /\/print$/);
    await expect(page.getByRole("link", { name: "Card as PDF" })).toHaveAttribute(
      "href",
      /^\/api\/.*\/card$/,
    );
  });

  await test.step("a reading typed before the card is live is judged once it is", async () => {
    const release = await holdScripts(page);
    await page.goto(card, { waitUntil: "commit" });
    await reading.fill("13");
    await expect(form.getByText("no reading")).toBeVisible();
    release();
    await expect(form.getByText("no reading")).toBeHidden();
    await expect(reading).toHaveValue("13");
    await page.unrouteAll();
  });

  await test.step("a reading and a note half typed outlive a reload and a link that led nowhere", async () => {
    await reading.fill("13");
    await form.getByRole("button", { name: "More" }).click();
    const stepped = await reading.inputValue();
    expect(stepped).not.toBe("13");
    await unit.selectOption({ index: 1 });
    const chosen = await unit.inputValue();
    expect(chosen).not.toBe("mm");
    await page.locator("summary", { hasText: "Note something here" }).click();
    await note.fill("The pin is worn on the left.");
    await page.reload();
    await expect(reading).toHaveValue(stepped);
    await expect(unit).toHaveValue(chosen);
    // The fold stands open where something half typed is in it.
    await expect(note).toBeVisible();
    await expect(note).toHaveValue("The pin is worn on the left.");
    await context.setOffline(true);
    await page.getByRole("link", { name: "Found something" }).click();
    await expect(note).toBeHidden();
    await context.setOffline(false);
    await page.goto(card);
    await expect(reading).toHaveValue(stepped);
    await expect(note).toHaveValue("The pin is worn on the left.");
  });

  await test.step("a session that ended is begun again over the form, and the note goes in once", async () => {
    await context.clearCookies();
    await page.getByRole("button", { name: "Keep the note" }).click();
    await expect(page.getByText("You are signed out.")).toBeVisible();
    await signInOver(page, "fjellrevOwner");
    await expect(note).toHaveValue("The pin is worn on the left.");
    await page.getByRole("button", { name: "Keep the note" }).click();
    const notes = page.getByRole("list", { name: "Notes at this step" });
    await expect(notes.getByText("The pin is worn on the left.")).toHaveCount(1);
    await page.reload();
    await expect(notes.getByText("The pin is worn on the left.")).toHaveCount(1);
    await expect(note).toBeHidden();
    await page.locator("summary", { hasText: "Note something here" }).click();
    await expect(note).toHaveValue("");
    await page.locator("summary", { hasText: "Note something here" }).click();
  });

  await test.step("signing in leads back to the page that was asked for", async () => {
    await context.clearCookies();
    await page.goto(`${card}?step=1`);
    await expect(page).toHaveURL(/\/signin\?/);
    await page.getByLabel("Email").fill(DEMO_PEOPLE.fjellrevOwner.email);
    await page.getByLabel("Password").fill(E2E.password);
    await page.getByRole("button", { name: "Sign in" }).click();
    await expect(page).toHaveURL(`${card}?step=1`);
    await page.goto(card);
  });

  await test.step("after a refusal the marked field is in view", async () => {
    await reading.fill("");
    const chosen = await unit.inputValue();
    expect(chosen).not.toBe("mm");
    await expect(form.locator("[data-rests]")).toHaveCount(0);
    await page.getByRole("button", { name: "Pass and go on" }).click();
    await expect(form.getByRole("alert")).toBeVisible();
    await expect(reading).toHaveAttribute("aria-invalid", "true");
    await expect(reading).toBeInViewport({ ratio: 1 });
    await expect(unit).toHaveValue(chosen);
    await unit.selectOption("mm");
  });

  await test.step("after a pass focus stands on the new step, and what is said covers neither it nor the acts", async () => {
    const title = await page.getByRole("heading", { level: 2 }).first().textContent();
    const described = (await reading.getAttribute("aria-describedby"))?.split(" ")[0];
    const [low = 0, high = 0] =
      (await page.locator(`[id="${described}"]`).textContent())
        ?.replaceAll(",", ".")
        .match(/[\d.]+/g)
        ?.map(Number) ?? [];
    await reading.fill(((low + high) / 2).toFixed(2));
    for (const used of await form.getByRole("radio", { name: /^Used: take/ }).all()) await used.check();
    for (const none of await form.getByRole("radio", { name: "Not used: there is none" }).all())
      await none.check();
    for (const why of await form.getByRole("textbox", { name: "If not used, why" }).all())
      await why.fill("None left.");
    const step = await form.locator('input[name="stepId"]').inputValue();
    await page.getByRole("button", { name: "Pass and go on" }).click();
    const heading = page.getByRole("heading", { level: 2 }).first();
    await expect(heading).not.toHaveText(title ?? "");
    await expect(heading).toBeFocused();
    await expect(heading).toHaveAccessibleDescription(/^Step \d+ of \d+/);
    await expect(heading).toBeInViewport();
    const said = page.getByRole("region", { name: "Messages" }).getByText("Passed.");
    await expect(said).toBeVisible();
    const [line, words, acts] = await Promise.all([
      said.boundingBox(),
      heading.boundingBox(),
      page.getByRole("button", { name: "Pass and go on" }).boundingBox(),
    ]);
    if (!line || !words || !acts) throw new Error("Something is not drawn.");
    expect(line.y).toBeGreaterThan(words.y + words.height);
    expect(line.y + line.height).toBeLessThan(acts.y);
    await demandTappable(page);
    // What was sent is kept no longer.
    const kept = await page.evaluate(() =>
      Object.keys(sessionStorage).filter((key) => key.startsWith("typed:")),
    );
    expect(kept.filter((key) => key.endsWith(`:step ${step}`))).toEqual([]);
    await page.getByText(/^Step \d+ of \d+/).tap();
    await expect(said).toBeHidden();
  });
  await demandUsable(page);
  ears.demandQuiet();
});

test("a job that waits stands on Today with its reason and day, and one handed over with its word", async ({
  browser,
}) => {
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  const ears = listen(page);
  await signIn(page, "saltpanTuner");
  await page.goto("/s/saltpan");
  await page.getByRole("link", { name: "My next job" }).click();
  await expect(page.getByText(/^Step \d+ of \d+/)).toBeVisible();
  const name = (await page.getByRole("heading", { level: 1 }).textContent()) ?? "";
  const number = /Job \d+/.exec(name)?.[0] ?? "no number";
  await page.locator("summary", { hasText: "It has to wait" }).click();
  const waits = page.getByRole("form", { name: "It has to wait" });
  await waits.getByRole("button", { name: "Let it wait" }).click();
  await expect(waits.getByRole("combobox", { name: "For what" })).toHaveAttribute("aria-invalid", "true");
  await waits.getByRole("combobox", { name: "For what" }).selectOption({ label: "outside work" });
  const word = waits.getByRole("textbox", { name: "A word on it" });
  await word.fill("The head is at the grinder.");
  // Half typed, it stands open when the card is loaded anew.
  await page.reload();
  await expect(word).toBeVisible();
  await expect(word).toHaveValue("The head is at the grinder.");
  await waits.getByRole("button", { name: "Let it wait" }).click();
  await expect(page.getByRole("note").filter({ hasText: "It waits for outside work." })).toBeVisible();
  await page.goto("/s/saltpan");
  const line = page.getByRole("listitem").filter({ hasText: "The head is at the grinder." });
  await expect(line).toContainText(`${number} for outside work`);
  await line.getByRole("link", { name: /^Open the card/ }).click();
  await page.getByRole("button", { name: "It waits no longer" }).click();
  await expect(page.getByRole("note").filter({ hasText: "It waits for" })).toBeHidden();

  await page.locator("summary", { hasText: "Hand it over" }).click();
  const over = page.getByRole("form", { name: "Hand it over" });
  await over
    .getByRole("combobox", { name: "To whom" })
    .selectOption({ label: DEMO_PEOPLE.saltpanOwner.name });
  await over.getByRole("textbox", { name: "Where it stands" }).fill("Measure the seat again.");
  await over.getByRole("button", { name: "Hand it over" }).click();
  await expect(page).toHaveURL(/\/s\/saltpan$/);

  const owner = await (await browser.newContext(PHONE)).newPage();
  await signIn(owner, "saltpanOwner");
  await owner.goto("/s/saltpan");
  const handed = owner.getByRole("listitem").filter({ hasText: "Measure the seat again." });
  await expect(handed).toContainText(number);
  await expect(handed).toContainText(DEMO_PEOPLE.saltpanTuner.name);
  await demandUsable(owner);
  // On a day of work the owner is at a job of their own, which goes before what is handed to them.
  const own = owner.getByRole("form", { name: "Stop my time" });
  if (await own.isVisible()) {
    await own.getByRole("button", { name: "Stop" }).click();
    await expect(own).toBeHidden();
  }
  await owner.getByRole("link", { name: "My next job" }).click();
  await expect(owner.getByRole("heading", { level: 1 })).toContainText(number);
  await expect(owner.getByRole("note").filter({ hasText: "Measure the seat again." })).toBeVisible();
  ears.demandQuiet();
});
