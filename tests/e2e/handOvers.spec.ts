import { execFileSync } from "node:child_process";
import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { bin } from "../support/ownServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

interface JobNamed {
  readonly id: number;
  readonly number: string;
}

/** Jobs that tests/support/handOvers.ts sets up. */
export interface HandOvers {
  /** The bike's second job; the first one left 2.375 turns and this idle speed, where 1.5 and 1,250 were found. */
  readonly second: JobNamed;
  readonly idle: number;
  /** Ready, with two minutes spent on it. */
  readonly short: JobNamed;
  /** Ridden, with a part still reserved and a clock that was forgotten. */
  readonly kept: JobNamed;
  /** Cancelled, with a deposit of 40.00. */
  readonly off: JobNamed;
  /** Code of the part that is still reserved. */
  readonly part: string;
}

const SIZES = {
  "on a phone, 360 wide": { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true },
  "at a desk, 1280 wide": { viewport: { width: 1280, height: 900 } },
} as const;

let sets: HandOvers[] = [];
test.beforeAll(() => {
  const told = execFileSync(bin("tsx"), ["tests/support/handOvers.ts"], {
    env: { ...process.env, DATA_DIR: E2E.data },
  });
  sets = JSON.parse(told.toString()) as HandOvers[];
});

const alertOf = (page: Page) => page.getByRole("main").getByRole("alert").first();

for (const [at, [where, size]] of widths(SIZES, "on a phone, 360 wide").entries())
  test(`what one room tells the next holds in the browser, ${where}`, async ({ browser }) => {
    const page = await (await browser.newContext(size)).newPage();
    const ears = listen(page);
    await signIn(page, "saltpanOwner");
    const { second, idle, short, kept, off, part } = sets[at] as HandOvers;

    await test.step("a second job on a bike starts from the first one's as-left sheet", async () => {
      await page.goto(`/s/saltpan/jobs/${second.id}`);
      const asFound = (setting: RegExp) =>
        page
          .getByRole("table", { name: /^Settings of carburettor/ })
          .getByRole("row", { name: setting })
          .getByRole("cell")
          .nth(1);
      await expect(asFound(/^Mixture screw/)).toContainText("2.375");
      await expect(asFound(/^Idle speed/)).toContainText(idle.toLocaleString("en"));
      await demandUsable(page);
    });

    await test.step("a job of two minutes by the hour bills one unit", async () => {
      await page.goto(`/s/saltpan/invoices/new?job=${short.id}`);
      const worked = page.locator("section").filter({ hasText: "As worked: minutes spent and parts used" });
      const line = worked.getByRole("listitem").filter({ hasText: "Work, " });
      await expect(line).toHaveCount(1);
      // A tenth of an hour is the shop's unit.
      await expect(line).toContainText(/(?<!\d)6\smin/);
      await demandUsable(page);
    });

    await test.step("a job is not finished while a part that is reserved for it is unaccounted for", async () => {
      await finish(page, kept.id);
      await expect(alertOf(page)).toContainText(part);
      await expect(alertOf(page)).toContainText("not accounted for");
      await demandUsable(page);
      await page.goto(`/s/saltpan/jobs/${kept.id}`);
      const form = page.getByRole("form", { name: `Account for ${part}` });
      await form.getByRole("textbox", { name: "If not used, why" }).fill("The old seal is as new");
      await form.getByRole("button", { name: "Not used" }).click();
      await expect(form).toHaveCount(0);
    });

    await test.step("a forgotten clock is asked about, not closed by finishing", async () => {
      await finish(page, kept.id);
      await expect(alertOf(page)).toContainText("past the end of the shift");
      await page.goto("/s/saltpan");
      await page.getByRole("link", { name: `Say when it stopped: Job ${kept.number}` }).click();
      await expect(page.getByRole("heading", { level: 1, name: "Correct time" })).toBeVisible();
      await demandUsable(page);
      await page.getByRole("button", { name: "Save the times" }).click();
      await expect(page).not.toHaveURL(/\/jobs\/time\//);
      await finish(page, kept.id);
      await expect(page).not.toHaveURL(/\/finish$/);
      await page.goto(`/s/saltpan/jobs/${kept.id}`);
      await page.getByText("Time entries (1)").click();
      await expect(page.getByText("Forgot to stop")).toBeVisible();
    });

    await test.step("the finished bike is signed for on the glass", async () => {
      await page.goto(`/s/saltpan/jobs/${kept.id}/handover`);
      await page.getByRole("textbox", { name: "Who signs" }).fill("Odile Varga");
      const glass = page.getByRole("img", { name: /^I took the bike back/ });
      await glass.scrollIntoViewIfNeeded();
      const box = await glass.boundingBox();
      if (!box) throw new Error("There is nothing to sign on.");
      await page.mouse.move(box.x + 30, box.y + 40);
      await page.mouse.down();
      for (const [x, y] of [
        [90, 20],
        [150, 60],
        [220, 25],
      ] as const)
        await page.mouse.move(box.x + x, box.y + y, { steps: 4 });
      await page.mouse.up();
      await demandUsable(page);
      await page.getByRole("button", { name: "Keep the signature" }).click();
      await expect(page.getByRole("img", { name: /Odile Varga/ })).toBeVisible();
    });

    await test.step("its owner answers how it runs by one tap, and the shop looks at it from Today", async () => {
      await page.goto(`/s/saltpan/jobs/${kept.id}`);
      await page.getByRole("button", { name: "Link for the customer" }).click();
      await page.getByRole("button", { name: "Make a link" }).click();
      const shown = page.getByRole("dialog").locator("output");
      await expect(shown).toContainText("/c/saltpan/");
      const link = new URL(((await shown.textContent()) ?? "").trim()).pathname;
      await page.goto(`${link}/runs?answer=tooHot`);
      await expect(page.getByRole("radio", { name: "It gets too hot" })).toBeChecked();
      await page.getByRole("textbox", { name: "In your words (may stay empty)" }).fill("Uphill in town.");
      await demandUsable(page);
      await page.getByRole("button", { name: "Send the answer" }).click();
      await expect(page.getByText(/You answered on .+: It gets too hot\./)).toBeVisible();
      await page.goto("/s/saltpan");
      const answered = page.getByRole("listitem").filter({ hasText: `after job ${kept.number}` });
      await expect(answered).toContainText("Uphill in town.");
      await answered.getByRole("link", { name: /^Look at it/ }).click();
      await page.getByRole("button", { name: "Looked at" }).click();
      await expect(page.getByRole("button", { name: "Looked at" })).toHaveCount(0);
      await demandUsable(page);
    });

    await test.step("a cancelled job's deposit is given back from Today", async () => {
      await page.goto("/s/saltpan");
      await page.getByRole("link", { name: `Give it back: Job ${off.number}` }).click();
      await page.getByRole("button", { name: "Give money back" }).click();
      await expect(page.getByRole("textbox", { name: /^Amount/ })).toHaveValue("40.00");
      await page.getByRole("textbox", { name: "Why it goes back" }).fill("The job is called off");
      await demandUsable(page);
      await page.getByRole("button", { name: "Record as given back" }).click();
      await expect(page.getByRole("button", { name: "Record as given back" })).toBeHidden();
      await page.goto("/s/saltpan");
      await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
      await expect(page.getByRole("link", { name: `Give it back: Job ${off.number}` })).toHaveCount(0);
    });
    ears.demandQuiet();
  });

/** Fills the as-left form in and sends it. */
async function finish(page: Page, jobId: number): Promise<void> {
  await page.goto(`/s/saltpan/jobs/${jobId}/finish`);
  const idle = page.getByRole("textbox", { name: "Idle speed, rpm" });
  if ((await idle.inputValue()) === "") await idle.fill("1400");
  await page.getByRole("combobox", { name: /^All values left/ }).selectOption("read");
  await page.getByRole("checkbox", { name: "I went through all of these on this bike" }).check();
  await page.getByRole("button", { name: "The bike is ready" }).click();
}
