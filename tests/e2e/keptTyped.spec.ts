import { expect, test } from "@playwright/test";
import { sentDay, typeDate } from "./fields";
import { holdScripts } from "./held";
import { signIn } from "./people";
import { newBike, newDraft } from "./quoting";
import { listen } from "./watched";

test("what was typed stays in the form when its session has ended, though the server sends none of it back", async ({
  page,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/customers/new");
  await page.locator('input[name="name"]').fill("Ines Valdborg");
  await page.getByLabel("For the shop only").fill("Calls before eight.");
  await page.context().clearCookies();
  // What the server answers is read on its way: a browser need not keep it.
  const answers: string[] = [];
  await page.route("**/customers/new", async (route) => {
    if (route.request().method() !== "POST") return route.continue();
    const response = await route.fetch();
    answers.push(await response.text());
    return route.fulfill({ response });
  });
  await page.getByRole("button", { name: "Add the customer" }).click();
  await expect(page.getByText("You are signed out.")).toBeVisible();
  expect(answers).toHaveLength(1);
  expect(answers[0]).not.toContain("Ines Valdborg");
  await expect(page.locator('input[name="name"]')).toHaveValue("Ines Valdborg");
  await expect(page.getByLabel("For the shop only")).toHaveValue("Calls before eight.");
  ears.demandQuiet();
});

test("what is typed while an answer is on its way stays as it is, and whoever types goes on", async ({
  page,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/shop/hours");
  const form = page.getByRole("form", { name: "Add days off" });
  const why = form.getByLabel("Why");
  await typeDate(page, "First day", "2031-03-04");
  await typeDate(page, "Last day", "2031-03-05");
  await why.fill("Salt races");
  let release = () => {};
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route("**/shop/hours", async (route) => {
    if (route.request().method() === "POST") await held;
    await route.continue();
  });
  await form.getByRole("button", { name: "Add days off" }).click();
  await why.fill("Boat show");
  release();
  await expect(page.getByText("Salt races")).toBeVisible();
  await expect(why).toHaveValue("Boat show");
  await expect(why).toBeFocused();
  await expect(sentDay(page, "fromDay")).toHaveValue("");
  ears.demandQuiet();
});

test("what is half typed in a form of a draft stays while something else of the draft is ticked", async ({
  page,
}) => {
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await newDraft(page, await newBike(page, "Ines Valdborg", "HALF 01"));
  await page.getByText("Where and when it is ridden").click();
  const form = page.getByRole("form", { name: "Conditions" });
  const altitude = form.getByLabel("Altitude");
  const before = Number(await altitude.inputValue());
  await altitude.fill(String(before + 310));
  const filter = page.getByRole("checkbox", { name: /Air filter renewed/ });
  const total = page.getByText(/^Total AUD/).locator("..");
  const old = await total.textContent();
  await filter.check();
  await expect(total).not.toHaveText(old ?? "");
  await expect(altitude).toHaveValue(String(before + 310));
  await form.getByRole("button", { name: "Compute for this air" }).click();
  await expect(page.getByRole("heading", { name: `Mixture over throttle, ${before + 310} m` })).toBeVisible();
  await page.reload();
  await expect(filter).toBeChecked();
  await page.getByText("Where and when it is ridden").click();
  await expect(altitude).toHaveValue(String(before + 310));
  ears.demandQuiet();
});

test("ticks that are made before the page is live are sent once it is", async ({ browser }) => {
  const page = await (await browser.newContext({ serviceWorkers: "block" })).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  const draft = await newDraft(page, await newBike(page, "Ines Valdborg", "HALF 02"));
  const release = await holdScripts(page);
  await page.goto(draft, { waitUntil: "commit" });
  const filter = page.getByRole("checkbox", { name: /Air filter renewed/ });
  const snorkel = page.getByRole("radio", { name: /^Snorkel out only/ });
  await expect(filter).not.toBeChecked();
  await expect(snorkel).not.toBeChecked();
  await filter.check();
  await snorkel.check();
  const total = page.getByText(/^Total AUD/).locator("..");
  const old = await total.textContent();
  // One after the other: each is sent once the one before it is answered.
  let answers = 0;
  page.on("response", (answer) => {
    if (answer.request().method() === "POST") answers += 1;
  });
  release();
  await expect.poll(() => answers).toBe(2);
  await expect(total).not.toHaveText(old ?? "");
  await page.reload();
  await expect(filter).toBeChecked();
  await expect(snorkel).toBeChecked();
  ears.demandQuiet();
});

test("what is chosen or typed before a page is live counts as though it were done after", async ({
  browser,
}) => {
  const page = await (await browser.newContext({ serviceWorkers: "block" })).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");

  await test.step("a list is narrowed", async () => {
    const release = await holdScripts(page);
    await page.goto("/s/saltpan/jobs", { waitUntil: "commit" });
    await page.getByLabel("State", { exact: true }).selectOption("ready");
    release();
    await expect(page).toHaveURL(/state=ready/);
    await page.unrouteAll();
  });

  await test.step("a record stays chosen in a field that finds by words from then on", async () => {
    const release = await holdScripts(page);
    await page.goto("/s/saltpan/bikes/new", { waitUntil: "commit" });
    const plain = page.locator("select[name=modelCardId]");
    const chosen = await plain.locator("option").nth(2).textContent();
    await plain.selectOption({ index: 2 });
    release();
    const live = page.locator("input[role=combobox]").and(page.getByRole("combobox", { name: "Model card" }));
    await live.scrollIntoViewIfNeeded();
    await expect(live).toHaveValue(chosen ?? "");
    await page.unrouteAll();
  });

  await test.step("what follows from a choice follows, and what was typed beside it stays", async () => {
    const release = await holdScripts(page);
    await page.goto("/s/saltpan/jobs/new?bike=1", { waitUntil: "commit" });
    const title = page.getByLabel("In a few words");
    await title.fill("Idle hunts");
    await page.getByRole("radio", { name: /The shop's own bike/ }).check();
    await expect(page.getByLabel("Who said yes")).toBeVisible();
    release();
    await expect(page.getByLabel("Who said yes")).toBeHidden();
    await expect(title).toHaveValue("Idle hunts");
    await page.unrouteAll();
  });
  ears.demandQuiet();
});
