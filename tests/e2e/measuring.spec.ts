import { expect, test } from "@playwright/test";
import { pick } from "./fields";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

test("a twin is balanced on its card by the drawing, screw by screw, 360 wide", async ({ browser }) => {
  test.setTimeout(300_000);
  const phone = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true };
  const page = await (await browser.newContext(phone)).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  let bike = "";
  let card = "";

  await test.step("a twin comes in for its balance, agreed by word", async () => {
    await page.goto("/s/saltpan/customers/new");
    await page.getByRole("textbox", { name: "Name", exact: true }).fill(`Tove Marr ${Date.now() % 100_000}`);
    await page.getByRole("button", { name: "Add the customer" }).click();
    await page.getByRole("link", { name: "Add a bike" }).click();
    await pick(page, "Model card", "orme 750");
    await page.getByRole("button", { name: "Add the bike" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /Orme Twin 750/ })).toBeVisible();
    bike = new URL(page.url()).pathname;
    await page.getByRole("link", { name: "Open a job" }).click();
    await page.getByRole("textbox", { name: "In a few words" }).fill("Balance by vacuum");
    await page.getByRole("textbox", { name: "Minutes planned" }).fill("30");
    await page.getByRole("textbox", { name: /^Up to/ }).fill("200");
    await page.getByRole("button", { name: "Open the job" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
    card = `${new URL(page.url()).pathname}/card`;
    await page.getByRole("button", { name: "The bike is here" }).click();
    await page.getByRole("button", { name: "Record the arrival" }).click();
    await expect(page.getByRole("button", { name: "Record the arrival" })).toBeHidden();
  });

  await test.step("both gauges are asked for, and the next screw is named until both stand in the band", async () => {
    await page.goto(card);
    await page.getByText("Vacuum balance", { exact: true }).click();
    const form = page.getByRole("form", { name: "Vacuum balance" });
    const left = form.getByRole("textbox", { name: "Vacuum, left" });
    const right = form.getByRole("textbox", { name: "Vacuum, right" });
    const keep = form.getByRole("button", { name: "Keep these readings" });
    await left.fill("180");
    await form.getByRole("combobox", { name: "Gauges read in" }).selectOption("mmHg");
    await keep.click();
    await expect(form.getByText(/Enter the vacuum of this carburettor/).first()).toBeVisible();
    await expect(left).toHaveValue("180");
    await right.fill("225");
    await keep.click();
    await expect(page.getByText("not in the band", { exact: true })).toBeVisible();
    await expect(page.getByText(/^Next: screw A, between Left and Right/)).toBeVisible();
    await expect(page.getByText(/45 mmHg apart, ratio 0\.80/)).toBeVisible();
    await demandUsable(page);
    await left.fill("200");
    await right.fill("205");
    await keep.click();
    await expect(page.getByText("in the band", { exact: true })).toBeVisible();
    await expect(page.getByText(/^Next: screw/)).toHaveCount(0);
    await expect(page.getByText("Vacuum balance, read 2 times on this job")).toBeVisible();
  });

  await test.step("both readings stand with the bike, with the drawing one tap away", async () => {
    await page.goto(`${bike}/balance`);
    await expect(page.getByRole("heading", { level: 2, name: /, job \d+$/ })).toHaveCount(2);
    await page.getByText("How to measure: Vacuum balance of twins and fours").click();
    const drawing = page.getByRole("img", { name: "Vacuum balance of four carburettors" });
    await expect(drawing).toBeVisible();
    const sizes = await drawing.locator("text").evaluateAll((all) =>
      all.map((one) => {
        const scale = (one as SVGTextElement).getScreenCTM()?.a ?? 0;
        return Number.parseFloat(getComputedStyle(one).fontSize) * scale;
      }),
    );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
    await demandUsable(page);
  });

  await test.step("a field of the sheet and the bench lead to the same drawings", async () => {
    await page.goto(`${bike}/sheets/new?kind=asFound`);
    const how = page.getByRole("link", { name: /^How to measure Float height/ }).first();
    await page.goto((await how.getAttribute("href")) ?? "");
    await expect(page.getByRole("heading", { level: 1, name: "Float height by gauge" })).toBeVisible();
    await demandUsable(page);
    await page.goto("/s/saltpan/bench/procedures");
    expect(await page.getByRole("img").count()).toBeGreaterThanOrEqual(12);
    await demandUsable(page);
  });
  ears.demandQuiet();
});
