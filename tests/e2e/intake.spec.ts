import { expect, type Page, test } from "@playwright/test";
import { pick } from "./fields";
import { signIn } from "./people";
import { sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";

const PHONE = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true };

/** What is read at each hold point of this walk. */
const READ: Readonly<Record<string, string>> = {
  "Play of the looser slide in its guide": "0.15",
  "Left diaphragm against the light, points of light": "0",
  "Right diaphragm against the light, points of light": "0",
  "Float height, left": "14.5",
  "Float height, right": "15",
  "Difference at idle": "0.8",
  "Idle, hot": "1150",
};

const title = (page: Page) => page.getByRole("heading", { level: 2 }).first();
const act = (page: Page) => page.getByRole("button", { name: "Pass and go on" });

/** Passes the step that is shown with what this walk reads. */
async function pass(page: Page): Promise<void> {
  const name = (await title(page).textContent()) ?? "";
  const form = page.getByRole("form", { name: /^Pass / });
  for (const part of await form.getByRole("radio", { name: /^Used: take/ }).all()) await part.check();
  const missing = form.getByRole("radio", { name: "Not used: there is none" });
  for (const [at, none] of (await missing.all()).entries()) {
    await none.check();
    await form.getByRole("textbox", { name: "If not used, why" }).nth(at).fill("Of our own tin.");
  }
  for (const box of await form.getByRole("checkbox").all()) await box.check();
  for (const [label, value] of Object.entries(READ)) {
    const field = form.getByRole("textbox", { name: label, exact: true });
    if (await field.count()) await field.fill(value);
  }
  await expect(form.locator("[data-rests]")).toHaveCount(0);
  await act(page).click();
  await expect(title(page)).not.toHaveText(name);
}

test("what was felt before the quote is answered by it, measured on the card and handed over as one number, 360 wide", async ({
  browser,
}) => {
  test.setTimeout(600_000);
  const page = await (await browser.newContext(PHONE)).newPage();
  const customer = await (await browser.newContext(PHONE)).newPage();
  const ears = [listen(page), listen(customer)];
  await signIn(page, "saltpanOwner");

  let bike = "";
  await test.step("a twin comes in, and says what it does before anything is quoted", async () => {
    await page.goto("/s/saltpan/customers/new");
    await page
      .getByRole("textbox", { name: "Name", exact: true })
      .fill(`Perpetua Nash ${Date.now() % 100_000}`);
    await page.getByRole("button", { name: "Add the customer" }).click();
    await page.getByRole("link", { name: "Add a bike" }).click();
    await pick(page, "Model card", "orme 750");
    await page.getByRole("button", { name: "Add the bike" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /Orme Twin 750/ })).toBeVisible();
    bike = new URL(page.url()).pathname;
    await page.getByRole("link", { name: "New intake" }).click();
    await demandUsable(page);
    await page.getByRole("button", { name: "Record the intake" }).click();
    await expect(page.getByText(/Nothing is filled in/).first()).toBeVisible();
    await page
      .getByRole("textbox", { name: "Complaint, in the owner’s words" })
      .fill("Coughs when it is opened gently");
    const felt = page.getByRole("group", { name: "Observation 1" });
    await felt.getByRole("combobox", { name: "What it does" }).selectOption({ label: "feels lean" });
    const left = page.getByRole("group", { name: "Cylinder 1" });
    await left.getByRole("textbox", { name: "Compression, with unit" }).fill("11.5 bar");
    await left.getByRole("combobox", { name: "Plug looks" }).selectOption({ label: "white, blistered" });
    await page.getByRole("button", { name: "Record the intake" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Intake, / })).toBeVisible();
    await expect(page.getByText("A quarter, steady, hot: lean")).toBeVisible();
    await expect(page.getByText("plug white, blistered, compression 1,150 kPa")).toBeVisible();
    await expect(page.getByText(/^Air leak at the intake boot/)).toBeVisible();
    await expect(page.getByText("As found may be wrong.")).toBeVisible();
    await demandUsable(page);
  });

  await test.step("its quote says which of the work answers that, to the customer too", async () => {
    await page.getByRole("link", { name: "New quote" }).first().click();
    await page.getByRole("radio", { name: /^Twin balance/ }).check();
    await page.getByRole("button", { name: "Start the quote" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
    await expect(page.getByText("nothing ticked answers it")).toBeVisible();
    await expect(page.getByRole("heading", { name: "First rule out" })).toBeVisible();
    for (const [name, wanted] of [
      [/^Main jets, pair/, false],
      [/^Float heights, both/, true],
      [/^Slides and diaphragms/, true],
      [/^Intake rubbers/, true],
    ] as const) {
      const tick = page.getByRole("checkbox", { name });
      if ((await tick.isChecked()) === wanted) continue;
      const kept = page.waitForResponse((answer) => answer.request().method() === "POST");
      await tick.click();
      await kept;
      await expect(page.getByRole("checkbox", { name })).toBeChecked({ checked: wanted });
      // Whoever goes through the options by keys is still where they were.
      await expect(page.getByRole("checkbox", { name })).toBeFocused();
    }
    await expect(page.getByText("answered by Intake rubbers renewed")).toBeVisible();
    await demandUsable(page);
    const plain = await browser.newContext({
      ...PHONE,
      javaScriptEnabled: false,
      storageState: await page.context().storageState(),
    });
    const bare = await plain.newPage();
    await bare.goto(page.url());
    await bare.getByRole("link", { name: "What the figures rest on" }).click();
    await expect(bare.getByRole("heading", { level: 1, name: /^What quote \d+ rests on$/ })).toBeVisible();
    await expect(bare.getByText(/ min at .* an hour/).first()).toBeVisible();
    await plain.close();
    await page.waitForLoadState("networkidle");
    const link = await sendIt(page);
    await customer.goto(link);
    await expect(customer.getByText(/a quarter of throttle, steady, engine hot: too lean/)).toBeVisible();
    const read = customer.getByRole("group", { name: "Please read and tick" });
    for (const box of await read.getByRole("checkbox").all()) await box.check();
    await customer.getByRole("textbox", { name: "Your full name" }).fill("Perpetua Nash");
    await customer.getByRole("button", { name: "Accept this quote" }).click();
    await expect(customer.getByRole("heading", { name: "Thank you, this quote is accepted" })).toBeVisible();
  });

  let job = "";
  await test.step("the card asks which carburettor a reading is of, and holds it to the model card", async () => {
    await page.goto("/s/saltpan/jobs");
    await page
      .getByRole("link", { name: /^Job \d+/ })
      .first()
      .click();
    await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
    job = new URL(page.url()).pathname;
    await page.getByRole("button", { name: "The bike is here" }).click();
    await page.getByRole("button", { name: "Record the arrival" }).click();
    await expect(page.getByRole("link", { name: "Start work" })).toBeVisible();
    await page.goto(`${job}/card`);
    let asked = false;
    for (
      let n = 0;
      n < 40 && (await page.getByRole("link", { name: "Record the ride" }).count()) === 0;
      n++
    ) {
      const which = page.getByRole("combobox", { name: /of which carburettor$/ });
      if (await which.count()) {
        await demandUsable(page);
        await expect(page.getByText("Held to the wear limit of the model card.")).toBeVisible();
        for (const [label, value] of Object.entries(READ)) {
          const field = page.getByRole("textbox", { name: label, exact: true });
          if (await field.count()) await field.fill(value);
        }
        await expect(page.locator("[data-rests]")).toHaveCount(0);
        await act(page).click();
        await expect(page.getByText(/^Say which carburettor/).first()).toBeVisible();
        await which.selectOption({ label: "Right" });
        asked = true;
      }
      await pass(page);
    }
    expect(asked).toBe(true);
  });

  await test.step("the ride is good, and what the card measured stands as left", async () => {
    await page.getByRole("link", { name: "Record the ride" }).click();
    await page.getByRole("button", { name: "All good at every throttle position" }).click();
    await expect(page.getByText("all good", { exact: true }).first()).toBeVisible();
    await page.goto(`${job}/finish`);
    await page.getByRole("combobox", { name: /^All values left/ }).selectOption("read");
    await page.getByRole("checkbox", { name: "I went through all of these on this bike" }).check();
    await page
      .getByRole("textbox", { name: /^Idle speed/ })
      .first()
      .fill("1200");
    await page
      .getByRole("combobox", { name: "How idle speed is known" })
      .first()
      .selectOption({ label: "read off the part" });
    await page.getByRole("button", { name: "The bike is ready" }).click();
    await expect(page.getByText(/The card measured 1150 rpm/).first()).toBeVisible();
    await page
      .getByRole("textbox", { name: /^Idle speed/ })
      .first()
      .fill("1150");
    await page.getByRole("button", { name: "The bike is ready" }).click();
    await expect(page).not.toHaveURL(/\/finish$/);
  });

  await test.step("the handover tells each number once, and the bike keeps its readings", async () => {
    await page.goto(`${job}/handover`);
    const idle = page.getByRole("row", { name: /^Idle speed/ }).first();
    await expect(idle).toContainText("1,150");
    await expect(idle).toContainText("measured");
    for (const told of ["Idle, hot", "Float height, left"])
      await expect(page.getByText(told, { exact: true })).toHaveCount(0);
    await expect(page.getByRole("columnheader", { name: "Target" })).toHaveCount(0);
    await expect(page.getByText(/^Play of the looser slide in its guide, carburettor 2/)).toBeVisible();
    await expect(page.getByText("0.15 mm")).toBeVisible();
    await demandUsable(page);
    await page.goto(`${bike}/wear`);
    await expect(page.getByRole("heading", { name: "Slide guide play, right" })).toBeVisible();
    await expect(page.getByRole("heading", { name: "Float height, left" })).toBeVisible();
    await demandUsable(page);
    await page.goto(`${bike}/intakes`);
    await demandUsable(page);
  });
  for (const one of ears) one.demandQuiet();
});
