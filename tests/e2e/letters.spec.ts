import { expect, test } from "@playwright/test";
import { pick } from "./fields";
import { signIn } from "./people";
import { demandUsable } from "./watched";

test("an owner reads a letter with the shop's own, writes it anew, is told what is wrong with it, puts it back, and writes nobody who wants none", async ({
  browser,
}) => {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  await signIn(page, "saltpanOwner");

  await test.step("a letter and the shop's own words are usable on a phone", async () => {
    await page.setViewportSize({ width: 360, height: 740 });
    for (const path of ["letters/paymentReminder", "words/1"]) {
      await page.goto(`/s/saltpan/shop/${path}`);
      await demandUsable(page);
    }
    await page.setViewportSize({ width: 1280, height: 900 });
  });

  await test.step("it is read as it is written, refused with a placeholder that is none, saved and put back", async () => {
    await page.goto("/s/saltpan/shop/letters/ready");
    const read = page.getByRole("heading", { name: "As it is read" }).locator("xpath=ancestor::section[1]");
    await expect(read).toContainText(/Your .+ is ready, Saltpan/);
    const text = page.getByRole("textbox", { name: "Letter", exact: true });
    await text.fill("Good news, {name}: {bike} is done.\n{nmae}\n{link}");
    await expect(read).toContainText("{nmae} is not known here.");
    await page.getByRole("button", { name: "Save the letter" }).click();
    await expect(text).toHaveAccessibleDescription(/\{nmae\} is not known here\. You may use \{name\}/);
    await text.fill("Good news, {name}: {bike} is done.\n{link}");
    await expect(read).toContainText(/Good news, .+: .+ is done\./);
    await page.getByRole("button", { name: "Save the letter" }).click();
    await expect(page.getByRole("heading", { name: "Your words" })).toBeVisible();
    await page.getByRole("button", { name: "Put it back to the words it comes with" }).click();
    await expect(page.getByRole("heading", { name: "The words as they come" })).toBeVisible();
    await expect(text).toHaveValue(/^Hello \{name\},/);
  });

  await test.step("a letter is switched off and on", async () => {
    const on = page.getByRole("checkbox", { name: "This letter is on" });
    const form = page.getByRole("form", { name: "When it is written" });
    for (const ticked of [false, true]) {
      await on.setChecked(ticked);
      await form.getByRole("button", { name: "Save" }).click();
      await expect(page.getByText(ticked ? "The letter is on." : "The letter is off.")).toBeVisible();
    }
  });

  await test.step("a customer who wants no letters gets the quote by its link alone", async () => {
    await page.goto("/s/saltpan/customers/new");
    await page
      .getByRole("textbox", { name: "Name", exact: true })
      .fill(`Quiet Person ${Date.now() % 10_000}`);
    await page.getByRole("textbox", { name: "Phone" }).fill("0400 555 010");
    await page.getByRole("textbox", { name: "E-mail" }).fill("quiet@customer.example");
    await page.getByRole("checkbox", { name: "No letters" }).check();
    await page.getByRole("button", { name: "Add the customer" }).click();
    await expect(page.getByText("none are written")).toBeVisible();
    await page.getByRole("link", { name: "Add a bike" }).click();
    await pick(page, "Model card", "drover 580");
    await page.getByRole("textbox", { name: "Plate" }).fill("QP 1");
    await page.getByRole("button", { name: "Add the bike" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /Drover 580/ })).toBeVisible();
    await page.goto(`/s/saltpan/quotes/new?bike=${new URL(page.url()).pathname.split("/").at(-1)}`);
    await page.getByRole("radio", { name: /Open-road breathing/ }).check();
    await page.getByRole("button", { name: "Start the quote" }).click();
    await page.getByRole("button", { name: "Send for a yes" }).click();
    await page.getByRole("button", { name: "Send it", exact: true }).click();
    const shown = page.getByRole("status").filter({ hasText: "The customer's link" });
    await expect(shown).toContainText(
      "wants no letters, so none is written. Call 0400 555 010, or hand over the link.",
    );
    const link = new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname;
    await page.getByRole("link", { name: "Back to the quote" }).click();
    await expect(page).not.toHaveURL(/\/preview/);
    const quote = page.url();
    await page.goto(link);
    await expect(page.getByRole("heading", { name: "What we do" })).toBeVisible();
    await page.goto(quote);
    await expect(page.getByText("Link opened")).toBeVisible();
    await expect(page.getByText("Call 0400 555 010, or hand over the link.")).toBeVisible();
    await page.goto("/s/saltpan/shop/mail");
    await expect(page.getByText("quiet@customer.example")).toHaveCount(0);
  });
});
