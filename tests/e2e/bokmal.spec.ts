import { expect, type Page, test } from "@playwright/test";
import { pick } from "./fields";
import { signIn } from "./people";
import { sendIt } from "./quoting";
import { demandReachable, demandUsable } from "./watched";

const PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };

/** Words that an English sentence hardly does without, and that no Norwegian one has. */
const ENGLISH =
  /\b(?:the|and|your|you|with|of|this|that|quote|ready|price|shop|please|work|bike|deposit|accept|days?|hours|from|paid|what|number|before|will|it|total|tick|said)\b/giu;

/** English words among all that a page says: its text, its title, the names of its controls. */
async function english(page: Page): Promise<string[]> {
  const said = await page.evaluate(() => [
    document.title,
    ...[...document.querySelectorAll("[aria-label], [title], [alt], [placeholder]")].flatMap((node) =>
      ["aria-label", "title", "alt", "placeholder"].map((name) => node.getAttribute(name) ?? ""),
    ),
    ...[...document.querySelectorAll("svg title, svg desc, legend, caption")].map(
      (node) => node.textContent ?? "",
    ),
  ]);
  // A language is named in itself.
  said.push(...(await page.locator("body").allInnerTexts()));
  return said.join("\n").replaceAll("English", "").match(ENGLISH) ?? [];
}

async function demandBokmal(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll("details")) fold.open = true;
  });
  expect(await english(page), page.url()).toEqual([]);
  await expect(page.locator("html")).toHaveAttribute("lang", "nb");
}

test("a Norwegian customer goes from the mail to the yes, the deposit and the booking without an English word, at 360 wide", async ({
  browser,
}) => {
  const desk = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  const phone = await (await browser.newContext({ ...PHONE, locale: "nb-NO" })).newPage();
  await signIn(desk, "fjellrevOwner");
  let link = "";

  await test.step("the desk sends a quote", async () => {
    await desk.goto("/s/fjellrev/customers/new");
    await desk
      .getByRole("textbox", { name: "Name", exact: true })
      .fill(`Ragnhild Tveit ${Date.now() % 10_000}`);
    await desk.getByRole("textbox", { name: "E-mail" }).fill("ragnhild@customer.example");
    await desk.getByRole("button", { name: "Add the customer" }).click();
    await desk.getByRole("link", { name: "Add a bike" }).click();
    await pick(desk, "Model card", "drover 580");
    await desk.getByRole("textbox", { name: "Plate" }).fill("RT 4711");
    await desk.getByRole("button", { name: "Add the bike" }).click();
    await expect(desk.getByRole("heading", { level: 1, name: /RT 4711|Drover|Trail/ })).toBeVisible();
    const bike = new URL(desk.url()).pathname.split("/").at(-1);
    await desk.goto(`/s/fjellrev/quotes/new?bike=${bike}`);
    await desk.getByRole("radio", { name: /Høydejustering/ }).check();
    await desk.getByRole("button", { name: "Start the quote" }).click();
    await expect(desk.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
    link = await sendIt(desk);
  });

  await test.step("the quote is read, asked about and answered", async () => {
    await phone.goto(link);
    await demandUsable(phone);
    await demandBokmal(phone);
    await phone.getByRole("button", { name: "Godta tilbudet" }).click();
    await expect(
      phone.getByRole("alert").filter({ hasText: "Noe av dette kan ikke lagres ennå." }),
    ).toBeVisible();
    await demandBokmal(phone);
    await phone.getByRole("textbox", { name: "Spørsmålet ditt" }).fill("Kan jeg vente på den?");
    await phone.getByRole("button", { name: "Spør verkstedet" }).click();
    await expect(phone.getByText("Verkstedet har fått det og svarer.")).toBeVisible();
    for (const box of await phone.getByRole("group", { name: "Les og kryss av" }).getByRole("checkbox").all())
      await box.check();
    await phone.getByRole("textbox", { name: "Fullt navn" }).fill("Ragnhild Tveit");
    await phone.getByRole("button", { name: "Godta tilbudet" }).click();
    await expect(phone.getByRole("heading", { name: "Takk, tilbudet er godtatt" })).toBeVisible();
    await expect(phone.getByRole("heading", { name: "Dette avtalte du" })).toBeVisible();
    await demandUsable(phone);
    await demandBokmal(phone);
  });

  await test.step("every mail to her is Norwegian", async () => {
    await desk.goto("/s/fjellrev/shop/mail");
    const mails = desk.getByRole("listitem").filter({ hasText: "ragnhild@customer.example" });
    await expect(mails.first()).toBeVisible();
    for (const mail of await mails.all()) {
      await mail.getByText("Read the mail").click();
      const text = await mail.locator("pre, [data-mail-text], p").allInnerTexts();
      const said = text.filter((one) => one.includes("Ragnhild")).join("\n");
      expect(said).not.toBe("");
      expect(said.replace(/https?:\S+/g, "").match(ENGLISH) ?? []).toEqual([]);
    }
  });

  await test.step("the job's page is Norwegian from the booking to the paid invoice, and so is what is kept of it", async () => {
    for (const state of ["booked", "inWork", "ready", "invoiced", "closed"]) {
      await desk.goto(`/s/fjellrev/jobs?state=${state}`);
      await desk.locator("main tbody a[href*='/jobs/']").first().click();
      await desk.getByRole("button", { name: "Link for the customer" }).click();
      await desk.getByRole("button", { name: "Make a link" }).click();
      const shown = desk.getByRole("status").filter({ hasText: "Copy it now" });
      const path = new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname;
      await phone.goto(path);
      await expect(phone.getByRole("heading", { level: 1 })).toBeVisible();
      await demandReachable(phone);
      await demandBokmal(phone);
      if (state === "booked") {
        const calendar = await (await phone.request.get(`${path}/calendar`)).text();
        expect(calendar).toMatch(/SUMMARY:.* hos Fjellrev Motor/u);
      }
      const handover = await phone.request.get(`${path}/handover`);
      expect(handover.status(), `handover of a job that is ${state}`).toBe(
        ["booked", "inWork"].includes(state) ? 404 : 200,
      );
    }
  });

  await test.step("another language is one touch away, and back", async () => {
    await phone.goto(link);
    await phone.getByRole("button", { name: "English" }).click();
    await expect(phone.locator("html")).toHaveAttribute("lang", "en");
    await expect(phone.getByRole("heading", { name: "What you agreed to" })).toBeVisible();
    await phone.getByRole("button", { name: "Norsk bokmål" }).click();
    await expect(phone.getByRole("heading", { name: "Dette avtalte du" })).toBeVisible();
    await demandBokmal(phone);
  });

  await test.step("a link that does not open says so in the browser's language", async () => {
    await phone.goto(`/c/fjellrev/${"x".repeat(27)}`);
    await expect(phone.getByRole("heading", { name: "Denne lenken åpner ikke" })).toBeVisible();
    expect(await english(phone)).toEqual([]);
  });
});
