import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { phonePhoto } from "../support/pictures";
import { pick, typeDate } from "./fields";
import { signIn } from "./people";
import { demandTappable } from "./reach";
import { demandUsable, listen } from "./watched";

const PHONE = {
  viewport: { width: 360, height: 740 },
  hasTouch: true,
  isMobile: true,
  baseURL: E2E.url,
} as const;

/** Books somebody in whose bike was to come yesterday, and opens Today. */
async function lateOne(page: Page, caller: string): Promise<void> {
  await page.goto("/s/saltpan/bookings/in?minutes=240");
  await page.getByLabel("Name", { exact: true }).fill(caller);
  await page.getByLabel("What for").fill("Coughs when it is opened gently");
  const yesterday = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10);
  await typeDate(page, "The bike comes", `${yesterday}T08:00`);
  await page.getByRole("button", { name: "Book it in" }).click();
  await expect(page.getByText(/^Booked\./)).toBeVisible();
  await page.goto("/s/saltpan");
  await expect(page.getByRole("heading", { name: "Not here yet" })).toBeVisible();
}

test("a late bike is asked about, comes in with its damage marked and is signed for; another does not come, 360 wide", async ({
  browser,
}) => {
  test.slow();
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  const ears = listen(page);
  const stamp = Date.now() % 100_000;
  const [caller, missing] = [`Halvard Moe ${stamp}`, `Runa Sand ${stamp}`];
  await signIn(page, "saltpanDesk");

  await test.step("they called: Today waits until the moment that they said", async () => {
    await lateOne(page, caller);
    await demandUsable(page);
    await demandTappable(page);
    await page.getByRole("link", { name: `Called, comes later: ${caller}` }).click();
    await page.getByRole("button", { name: "Keep that" }).click();
    await expect(page.getByText(/^it comes /)).toBeVisible();
    await demandUsable(page);
    await page.goto("/s/saltpan");
    await expect(page.getByRole("link", { name: `Here now: ${caller}` })).toHaveCount(0);
  });

  await test.step("the other did not come: its bay is free, and that can be taken back", async () => {
    await lateOne(page, missing);
    await page.getByRole("link", { name: `Did not come: ${missing}` }).click();
    await page.getByRole("button", { name: "It did not come" }).click();
    await expect(page.getByText("did not come", { exact: true })).toBeVisible();
    // What was said in passing has gone by then.
    await page.reload();
    await demandUsable(page);
    await demandTappable(page);
    await page.getByRole("button", { name: "It came after all" }).click();
    await expect(page.getByRole("heading", { name: "It has not come" })).toBeVisible();
    await page.getByRole("link", { name: "The bike is here" }).click();
  });

  await test.step("what is damaged is touched on the drawing, or named; what is wrong with it is asked", async () => {
    await expect(page.getByRole("heading", { level: 1, name: "A bike comes in" })).toBeVisible();
    await pick(page, "Bike", "drover");
    await page.getByLabel("Fuel").selectOption({ label: "3/8" });
    await page.getByLabel("Left on the bike").fill("Tank bag");
    const left = page.getByRole("button", { name: "Mark a place on the left side" });
    const box = await left.boundingBox();
    if (!box) throw new Error("no drawing");
    await left.click({ position: { x: (150 / 320) * box.width, y: (58 / 212) * box.height } });
    const first = page.getByRole("group", { name: "Mark 1" });
    await expect(first.getByLabel("Part")).toHaveValue("tank");
    await expect(first.getByLabel("What is wrong")).toBeFocused();
    await page.getByRole("button", { name: "Name a part, right side" }).press("Enter");
    const second = page.getByRole("group", { name: "Mark 2" });
    await second.getByLabel("Part").selectOption({ label: "exhaust" });
    await second.getByLabel("What is wrong").selectOption({ label: "scratched" });
    await demandUsable(page);
    await demandTappable(page);
    await page.getByRole("button", { name: "The bike is here" }).click();
    await expect(page.getByText("Choose what is wrong.").first()).toBeVisible();
    await expect(second.getByLabel("Part")).toHaveValue("exhaust");
    await first.getByLabel("What is wrong").selectOption({ label: "dented" });
    await page.getByRole("button", { name: "The bike is here" }).click();
    await expect(page.getByRole("heading", { level: 1, name: "Arrival of a bike" })).toBeVisible();
    await expect(page.getByText("fuel tank, left: dented")).toBeVisible();
    await expect(page.getByText("Coughs when it is opened gently")).toBeVisible();
  });

  const record = new URL(page.url()).pathname;
  await test.step("a mark gets its photo, then it is signed on the glass and frozen", async () => {
    await page.getByLabel("Take a photo of mark 1").setInputFiles({
      name: "dent.jpg",
      mimeType: "image/jpeg",
      buffer: await phonePhoto(),
    });
    await expect(page.getByRole("link", { name: /photo 1$/ })).toBeVisible();
    await page.getByLabel("Who signs").fill(missing);
    const sheet = page.getByRole("img", { name: /^Sign here/ });
    await sheet.scrollIntoViewIfNeeded();
    const box = await sheet.boundingBox();
    if (!box) throw new Error("no sheet");
    await page.mouse.move(box.x + 30, box.y + 60);
    await page.mouse.down();
    for (let at = 1; at <= 12; at++)
      await page.mouse.move(box.x + 30 + at * 18, box.y + 60 + (at % 2 === 0 ? 20 : -20), { steps: 3 });
    await page.mouse.up();
    await expect(page.getByText("Signed on the glass.", { exact: true })).toBeVisible();
    await demandUsable(page);
    await demandTappable(page);
    await page.getByRole("button", { name: "Sign it" }).click();
    await expect(page.getByRole("img", { name: `Signature of ${missing}` })).toBeVisible();
    await expect(page.getByLabel("Take a photo of mark 1")).toHaveCount(0);
    const pdf = await page.request.get(`/api${record}`);
    expect(pdf.headers()["content-type"]).toBe("application/pdf");
    await demandUsable(page);
  });

  await test.step("without scripts it is put right by naming parts, and signed by a typed name", async () => {
    const plain = await browser.newContext({
      ...PHONE,
      javaScriptEnabled: false,
      storageState: await context.storageState(),
    });
    const bare = await plain.newPage();
    await bare.goto(record);
    await bare.getByRole("link", { name: "Put it right" }).click();
    const third = bare.getByRole("group", { name: "Mark 3" });
    await third.getByLabel("What is wrong").selectOption({ label: "missing" });
    await third.getByLabel("Part").selectOption({ label: "mirror" });
    await bare.getByRole("button", { name: "Record it anew" }).click();
    await expect(bare.getByText("mirror, left: missing")).toBeVisible();
    await expect(bare.getByRole("link", { name: /photo 1$/ })).toBeVisible();
    await expect(bare.getByRole("img", { name: /^Sign here/ })).toHaveCount(0);
    await bare.getByLabel("Who signs").fill(missing);
    await bare.getByRole("button", { name: "Sign it" }).click();
    await expect(bare.getByText("(typed)")).toBeVisible();
    await plain.close();
    await page.goto(record);
    await expect(page.getByText("A later record replaces this one.")).toBeVisible();
    await demandUsable(page);
  });
  ears.demandQuiet();
});
