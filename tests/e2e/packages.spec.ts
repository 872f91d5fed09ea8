import { expect, type Page, test } from "@playwright/test";
import { pick } from "./fields";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const DESK = { viewport: { width: 1280, height: 900 } };
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** What the checks say of the form as it is typed now. */
const asTyped = (page: Page) => page.getByRole("status", { name: "As typed now" });
const field = (page: Page, name: string) => page.getByRole("textbox", { name, exact: true });
const save = (page: Page, what: string) =>
  page.getByRole("button", { name: `Save the ${what}`, exact: true }).click();
/** What a form refuses with; the router's own announcer, outside the page, is an alert too. */
const refused = (page: Page) => page.getByRole("main").getByRole("alert");
/** Opens the form for a new item, and waits until it is there: the page before has fields of the same names. */
async function add(page: Page, link: string, heading: string): Promise<void> {
  await page.getByRole("link", { name: link }).click();
  await expect(page.getByRole("heading", { level: 1, name: heading })).toBeVisible();
}
/** Back on the draft's page, with the item in its list. */
async function demandSaved(page: Page, name: string): Promise<void> {
  await expect(page).toHaveURL(/\/edit(#\w+)?$/);
  await expect(
    page.getByRole("link", { name: new RegExp(`^(has a fault: )?${name}`) }).first(),
  ).toBeVisible();
}

test("a package is written from nothing, its clash named and mended, then published, tried, copied, carried and quoted", async ({
  browser,
}) => {
  const page = await (await browser.newContext(DESK)).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  const code = `BOWL-${Date.now() % 1_000_000}`;
  const name = `Bowl and jet ${code}`;
  let edit = "";

  await test.step("what must be opened, and the work in it", async () => {
    await page.goto("/s/saltpan/packages/new");
    await field(page, "Code").fill(code);
    await field(page, "Name").fill(name);
    await page.getByRole("button", { name: "Make the package" }).click();
    await expect(page.getByRole("heading", { level: 1, name: `${name}: draft` })).toBeVisible();
    edit = new URL(page.url()).pathname;
    await demandUsable(page);
    await add(page, "Add an access", "New access");
    await field(page, "Name").fill("Bowl off");
    await field(page, "Minutes to open").fill("3");
    await field(page, "Minutes to close").fill("4");
    await field(page, "Checked on closing").fill("O-ring in its groove");
    await save(page, "access");
    await demandSaved(page, "Bowl off");

    await add(page, "Add an operation", "New operation");
    await field(page, "Name").fill("Clean the bowl");
    await expect(asTyped(page)).toContainText("names no access");
    await field(page, "Minutes").fill("12");
    await page.getByRole("checkbox", { name: "Bowl off" }).check();
    await expect(asTyped(page)).toContainText("find nothing against this operation");
    await field(page, "Of what").fill("Float height");
    await field(page, "From").fill("15");
    await field(page, "To").fill("12");
    await expect(asTyped(page)).toContainText("Hold point 1: The low limit is above the high one.");
    await page.getByRole("button", { name: "Save it and add another operation" }).click();
    await expect(refused(page)).toContainText("The low limit is above the high one.");
    await expect(field(page, "Name")).toHaveValue("Clean the bowl");
    await expect(page.getByRole("checkbox", { name: "Bowl off" })).toBeChecked();
    await field(page, "From").fill("12");
    await field(page, "To").fill("15");
    await demandUsable(page);
    await page.getByRole("button", { name: "Save it and add another operation" }).click();
    await expect(page).toHaveURL(/after=clean-the-bowl/);
    await expect(field(page, "Name")).toHaveValue("");
    await field(page, "Name").fill("Fit the main jet");
    await field(page, "Minutes").fill("9");
    await page.getByRole("checkbox", { name: "Bowl off" }).check();
    await page.getByRole("checkbox", { name: "Clean the bowl" }).check();
    await save(page, "operation");
    await demandSaved(page, "Fit the main jet");
  });

  await test.step("one group with two options", async () => {
    await add(page, "Add a group", "New group");
    await field(page, "Name").fill("Carburettor");
    await page.getByRole("radio", { name: /^Exactly one/ }).check();
    await save(page, "group");
    await demandSaved(page, "Carburettor");
    for (const [option, operation] of [
      ["Bowl cleaned", "Clean the bowl"],
      ["Jet to suit", "Fit the main jet"],
    ] as const) {
      await add(page, "Add an option", "New option");
      await field(page, "Name").fill(option);
      await page.getByRole("checkbox", { name: "Ticked when a new quote starts" }).check();
      await page.getByRole("checkbox", { name: operation }).check();
      await save(page, "option");
      await demandSaved(page, option);
    }
    await page.getByRole("button", { name: "Up Jet to suit" }).click();
    await expect(page.getByRole("button", { name: "Up Bowl cleaned" })).toBeVisible();
  });

  await test.step("a rule that clashes is named while it is written, kept in the draft, and mended in the group", async () => {
    await add(page, "Add “needs”", "New rule");
    await page.getByRole("combobox", { name: "Option" }).selectOption({ label: "Jet to suit" });
    await page.getByRole("checkbox", { name: "Bowl cleaned" }).check();
    const clash =
      "“Jet to suit” can never be chosen: “Carburettor” takes exactly one of “Jet to suit”, “Bowl cleaned”; “Jet to suit” needs “Bowl cleaned”.";
    await expect(asTyped(page)).toContainText(clash);
    await demandUsable(page);
    await field(page, "Why").fill("A new jet into a dirty bowl is no work.");
    await save(page, "rule");
    await expect(page.getByText(clash)).toBeVisible();
    await expect(page.getByRole("button", { name: "Publish" })).toBeDisabled();
    await demandUsable(page);
    await page.getByRole("link", { name: /^has a fault: Carburettor/ }).click();
    await page.getByRole("radio", { name: "Any number" }).check();
    await expect(asTyped(page)).toContainText("find nothing against this group");
    await save(page, "group");
    await expect(page.getByText("Every check passes.")).toBeVisible();
  });

  await test.step("a key is changed wherever it is named; a thing in use says who names it, and comes back", async () => {
    await page.getByRole("link", { name: "Bowl off" }).click();
    await page.getByText("Key: bowl-off").click();
    await field(page, "Key").fill("bowl");
    await save(page, "access");
    await expect(page.getByText("Every check passes.")).toBeVisible();
    await page.getByRole("button", { name: "Take out Bowl off" }).click();
    const told = page.getByText(/operation “Clean the bowl”, operation “Fit the main jet”/);
    await expect(told).toBeVisible();
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.getByText("Every check passes.")).toBeVisible();
  });

  let card = "";
  await test.step("published, and tried on a model card: the bowl is opened once", async () => {
    await page.getByRole("button", { name: "Publish" }).click();
    await expect(page.getByRole("article", { name: "What the customer reads" })).toContainText("Jet to suit");
    await demandUsable(page);
    await page.getByRole("button", { name: "Publish it" }).click();
    await expect(page.getByText("Revision 1, published")).toBeVisible();
    await demandUsable(page);
    card = new URL(page.url()).pathname;
    await page.getByRole("link", { name: "Try it on a model" }).click();
    await pick(page, "Model card", "drover 580");
    await page.getByRole("button", { name: "Try it" }).click();
    // 3 + 12 + 9 + 4: the bowl is opened and closed once for both.
    await expect(page.getByText("28 min of work, all opened and closed as seldom as can be.")).toBeVisible();
    await demandUsable(page);
  });

  await test.step("saved as a file; a broken file is refused with each place; the whole one comes in equal", async () => {
    const file = await (await page.request.get(`/api${card}/export?revision=1`)).json();
    expect(file.recipe.accesses[0].key).toBe("bowl");
    await page.goto("/s/saltpan/packages/import");
    const text = field(page, "Or its text");
    await text.fill('{ "format": "throttlewright-package",\n  "version" 1 }');
    await page.getByRole("button", { name: "Bring it in" }).click();
    await expect(refused(page)).toContainText("This is not JSON from line 2, column 13 on.");
    const operations = [{ ...file.recipe.operations[0], minutes: "ten", colour: "red" }];
    await text.fill(JSON.stringify({ ...file, recipe: { ...file.recipe, operations } }));
    await page.getByRole("button", { name: "Bring it in" }).click();
    const alert = refused(page);
    await expect(alert).toContainText(
      "recipe, operations, entry 1 “Clean the bowl”, minutes: it is “ten”. It has to be a number.",
    );
    await expect(alert).toContainText("“colour” is not known here. Take it out.");
    await demandUsable(page);
    await text.fill(JSON.stringify({ ...file, code: `${code}-B` }));
    await field(page, "Name").fill(`${name}, brought in`);
    await page.getByRole("button", { name: "Bring it in" }).click();
    await expect(page.getByRole("heading", { level: 1, name: `${name}, brought in` })).toBeVisible();
    const again = await (await page.request.get(`/api${new URL(page.url()).pathname}/export`)).json();
    expect(again.recipe).toEqual(file.recipe);
  });

  await test.step("copied as a draft of its own, which can be thrown away and brought back", async () => {
    await page.goto(card);
    await page.getByRole("button", { name: "Copy", exact: true }).click();
    await field(page, "Code").fill(`${code}-C`);
    await page.getByRole("button", { name: "Copy it" }).click();
    await expect(page.getByRole("heading", { level: 1, name: `${name}, copy: draft` })).toBeVisible();
    await page.getByRole("button", { name: "Throw the draft away" }).click();
    await expect(page.getByText("This package has no revision yet.")).toBeVisible();
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.getByRole("link", { name: "Edit the draft" })).toBeVisible();
  });

  await test.step("and quoted", async () => {
    await page.goto("/s/saltpan/quotes/new?bike=1");
    await page.getByRole("radio", { name: new RegExp(`^${name} `) }).check();
    await page.getByRole("button", { name: "Start the quote" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
    await expect(page.getByRole("checkbox", { name: /^Jet to suit/ })).toBeChecked();
  });

  await test.step("on a phone the forms fit one hand, and the checks speak there too", async () => {
    const phone = await (
      await browser.newContext({ ...PHONE, storageState: await page.context().storageState() })
    ).newPage();
    const heard = listen(phone);
    await phone.goto(card);
    await phone.getByRole("button", { name: "New revision" }).click();
    await expect(phone.getByRole("heading", { level: 1, name: `${name}: draft` })).toBeVisible();
    await demandUsable(phone);
    await phone.getByRole("link", { name: /^Fit the main jet/ }).click();
    await phone.getByRole("button", { name: "Add a hold point" }).click();
    await phone.getByRole("button", { name: "Take this row out Hold points, row 2" }).click();
    await phone.getByRole("checkbox", { name: "Bowl off" }).uncheck();
    await expect(asTyped(phone)).toContainText("names no access");
    await demandUsable(phone);
    for (const rest of ["/options?key=jet-to-suit", "/rules?kind=only%20when"]) {
      await phone.goto(`${edit}${rest}`);
      await demandUsable(phone);
    }
    heard.demandQuiet();
  });
  ears.demandQuiet();
});

test("two authors of one draft: the second is told who changed the item, keeps what was typed, and may save it over", async ({
  browser,
}) => {
  const mine = await (await browser.newContext(DESK)).newPage();
  await signIn(mine, "saltpanOwner");
  const code = `TWO-${Date.now() % 1_000_000}`;
  await mine.goto("/s/saltpan/packages/new");
  await field(mine, "Code").fill(code);
  await field(mine, "Name").fill(`Two hands ${code}`);
  await mine.getByRole("button", { name: "Make the package" }).click();
  await expect(mine).toHaveURL(/\/edit$/);
  const edit = new URL(mine.url()).pathname;
  await mine.goto(`${edit}/accesses`);
  await field(mine, "Name").fill("Tank off");
  await field(mine, "Minutes to open").fill("7");
  await field(mine, "Minutes to close").fill("8");
  await save(mine, "access");
  await demandSaved(mine, "Tank off");

  const theirs = await (
    await browser.newContext({ ...DESK, storageState: await mine.context().storageState() })
  ).newPage();
  for (const page of [mine, theirs]) await page.goto(`${edit}/accesses?key=tank-off`);
  await field(theirs, "Name").fill("Tank off and drained");
  await save(theirs, "access");
  await demandSaved(theirs, "Tank off and drained");
  await field(mine, "Name").fill("Tank up on its prop");
  await field(mine, "Tools").fill("Prop rod");
  await save(mine, "access");
  await expect(refused(mine)).toContainText("changed this access while you were typing");
  await expect(field(mine, "Name")).toHaveValue("Tank up on its prop");
  await expect(field(mine, "Tools")).toHaveValue("Prop rod");
  await demandUsable(mine);
  await mine.getByRole("checkbox", { name: "Save mine over these changes" }).check();
  await save(mine, "access");
  await demandSaved(mine, "Tank up on its prop");

  // The same for the recipe as text: it does not write over what a form saved meanwhile.
  for (const page of [mine, theirs]) await page.goto(edit.replace(/edit$/, "write"));
  const text = await field(mine, "Recipe").inputValue();
  await field(theirs, "Recipe").fill(text.replace("Tank up on its prop", "Tank off, again"));
  await theirs.getByRole("button", { name: "Save as draft and check" }).click();
  await expect(theirs.getByText("Tank off, again").first()).toBeVisible();
  await field(mine, "Recipe").fill(text.replace("Tank up on its prop", "Seat off"));
  await mine.getByRole("button", { name: "Save as draft and check" }).click();
  await expect(refused(mine)).toContainText("changed this draft while you were writing");
  expect(await field(mine, "Recipe").inputValue()).toContain("Seat off");
});
