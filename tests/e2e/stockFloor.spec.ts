import { execFileSync } from "node:child_process";
import { readFile } from "node:fs/promises";
import { type BrowserContextOptions, expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { bin } from "../support/ownServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const DESK: BrowserContextOptions = { viewport: { width: 1280, height: 900 } };
const PHONE: BrowserContextOptions = {
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
};
const JET = "MH-122.5";

interface Story {
  readonly partId: number;
  readonly inWork: number;
  readonly short: number;
  readonly needed: string;
}

/** One of the jet is left, reserved for the job in work; the next job booked is short of one. */
function lastJet(): Story {
  const told = execFileSync(bin("tsx"), ["tests/support/lastJet.ts", JET], {
    env: { ...process.env, DATA_DIR: E2E.data },
  });
  return JSON.parse(told.toString()) as Story;
}

/** Counts the fingers that come down on a page; the keyboard's own Find key is told to it. */
async function countTaps(page: Page) {
  let keys = 0;
  await page.addInitScript(() =>
    document.addEventListener(
      "touchstart",
      () => sessionStorage.setItem("taps", String(Number(sessionStorage.getItem("taps")) + 1)),
      true,
    ),
  );
  return {
    begin: async () => {
      keys = 0;
      await page.evaluate(() => sessionStorage.setItem("taps", "0"));
    },
    pressFind: async () => {
      keys += 1;
      await page.keyboard.press("Enter");
    },
    made: async () => keys + Number(await page.evaluate(() => sessionStorage.getItem("taps"))),
  };
}

test.describe.configure({ mode: "serial" });

let story: Story;
test.beforeAll(() => {
  story = lastJet();
});

test("a tuner finds the last 122.5 jet, uses it and sees that none is left, in three taps on a phone", async ({
  browser,
}) => {
  const page = await (await browser.newContext(PHONE)).newPage();
  const ears = listen(page);
  const taps = await countTaps(page);
  await signIn(page, "saltpanTuner");
  await page.goto("/s/saltpan/stock");
  await demandUsable(page);

  await taps.begin();
  await page.getByRole("searchbox").tap();
  await page.keyboard.type("122.5");
  await taps.pressFind();
  const line = page.getByRole("listitem").filter({ hasText: JET });
  await line.getByRole("button", { name: `Use 1 of ${JET} for job ${story.inWork}` }).tap();
  await expect(line).toContainText("0 on hand");
  await expect(line).toContainText("None is left.");
  expect(await taps.made()).toBe(3);
  await expect(page.getByText(`${JET}: none left.`)).toBeVisible();
  await demandUsable(page);

  await page.goto(`/s/saltpan/stock/${story.partId}`);
  await page.getByRole("button", { name: `On hand, ${JET}: 0` }).tap();
  await expect(page.getByRole("dialog", { name: `On hand, ${JET}` })).toContainText(
    `used, job ${story.inWork}`,
  );
  await demandUsable(page);
  ears.demandQuiet();
});

test("the desk sees it short at once, orders it first for the job that needs it, and its cost follows the delivery", async ({
  browser,
}) => {
  const page = await (await browser.newContext(DESK)).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanDesk");

  await test.step("short in the list, on the part's page and on Today", async () => {
    await page.goto("/s/saltpan/stock?q=122.5");
    await expect(page.getByRole("row").filter({ hasText: JET })).toContainText(
      `short for job ${story.short}; below 2`,
    );
    await demandUsable(page);
    await page.goto(`/s/saltpan/stock/${story.partId}`);
    await expect(page.getByText("below its point")).toBeVisible();
    await expect(page.getByRole("listitem").filter({ hasText: `Job ${story.short}` })).toContainText(
      "short of 1",
    );
    await demandUsable(page);
    await page.goto("/s/saltpan");
    await expect(
      page
        .getByRole("listitem")
        .filter({ hasText: `Job ${story.short}` })
        .filter({ hasText: "hex 122.5" }),
    ).toBeVisible();
    await demandUsable(page);
  });

  await test.step("named first among what to order, with the job and the day", async () => {
    await page.goto("/s/saltpan/stock");
    await page.getByRole("link", { name: "What to order" }).click();
    const first = page.getByRole("main").getByRole("listitem").first();
    await expect(first).toContainText(JET);
    await expect(first).toContainText(`job ${story.short} is short, needed ${story.needed}`);
    await first.getByRole("button", { name: `Why 1 of ${JET}` }).click();
    await expect(page.getByRole("dialog", { name: `Why 1 of ${JET}` })).toContainText(`${story.short}`);
    await page.keyboard.press("Escape");
    await demandUsable(page);
  });

  let orderPath = "";
  await test.step("ordered from there", async () => {
    await page.getByRole("button", { name: "Put on the draft for Harrow Brass & Jet" }).click();
    await expect(page.getByRole("heading", { level: 1, name: /^Order \d+/ })).toBeVisible();
    orderPath = new URL(page.url()).pathname;
    await demandUsable(page);
    await page.getByRole("button", { name: "Place the order" }).click();
    await page.getByRole("button", { name: "Place it" }).click();
    await expect(page.getByText("Cancel what is open")).toBeVisible();
    await expect(page.getByRole("listitem").filter({ hasText: `for job ${story.short}` })).toContainText(
      "1 open, due",
    );
    await demandUsable(page);
  });

  await test.step("as a PDF and as a CSV to send", async () => {
    for (const [name, holds] of [
      ["PDF", /^%PDF-/],
      ["CSV", new RegExp(`"?${JET.replace(".", "\\.")}"?`)],
    ] as const) {
      const [file] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("link", { name, exact: true }).click(),
      ]);
      expect((await readFile(await file.path())).toString("latin1")).toMatch(holds);
      expect(file.suggestedFilename()).toMatch(new RegExp(`\\.${name}$`, "i"));
    }
  });

  const owner = await (await browser.newContext(DESK)).newPage();
  const ownersEars = listen(owner);
  await signIn(owner, "saltpanOwner");
  await test.step("one of it comes, dearer than ordered; the rest stays open and the job has its jet", async () => {
    await owner.goto(orderPath);
    const form = owner.getByRole("form", { name: "Receive a delivery" });
    const lines = form.getByRole("listitem");
    await expect(lines.first()).toBeVisible();
    for (const field of await form.getByRole("textbox", { name: "Came" }).all()) await field.fill("");
    const line = lines.filter({ hasText: JET }).first();
    await line.getByRole("textbox", { name: "Came" }).fill("-1");
    await line.getByRole("textbox", { name: "Cost of one, AUD" }).fill("4.10");
    await form.getByRole("textbox", { name: "Delivery note" }).fill("DN 4471");
    await form.getByRole("button", { name: "Receive" }).click();
    await expect(line.getByRole("textbox", { name: "Came" })).toHaveAttribute("aria-invalid", "true");
    await expect(form.getByRole("textbox", { name: "Delivery note" })).toHaveValue("DN 4471");
    await line.getByRole("textbox", { name: "Came" }).fill("1");
    await form.getByRole("button", { name: "Receive" }).click();
    await expect(
      owner.getByText(`Job ${story.short} waited for it and has it now.`, { exact: false }),
    ).toBeVisible();
    await expect(owner.getByText(`${JET} came at 4.10, ordered at 3.60`, { exact: false })).toBeVisible();
    await expect(owner.getByText("+0.50 AUD against the order", { exact: false })).toBeVisible();
    await demandUsable(owner);
    await owner.goto(`/s/saltpan/stock/${story.partId}`);
    // Nothing was left, so the one that came is the average: 4.10.
    const facts = owner.getByText("Average cost").locator("..");
    await expect(facts).toContainText("4.10 AUD");
    await expect(owner.getByRole("listitem").filter({ hasText: `Job ${story.short}` })).toContainText("held");
    await expect(owner.getByText(/^bin \S+, order \d+, DN 4471/)).toBeVisible();
    await demandUsable(owner);
  });

  await test.step("and the tuner's phone finds it by its label's code, held for the job", async () => {
    const phone = await (await browser.newContext(PHONE)).newPage();
    await signIn(phone, "saltpanTuner");
    await phone.goto("/s/saltpan/stock/scan");
    await phone.getByRole("textbox", { name: "Code, size or words" }).fill(JET);
    await phone.keyboard.press("Enter");
    await expect(phone.getByText("1 on hand, 0 free", { exact: false })).toBeVisible();
    await expect(phone.getByRole("button", { name: `Use 1 of ${JET} for job ${story.short}` })).toBeVisible();
    await demandUsable(phone);
  });
  ears.demandQuiet();
  ownersEars.demandQuiet();
});
