import { createHash } from "node:crypto";
import { expect, type Page, test } from "@playwright/test";
import sharp from "sharp";
import { E2E } from "../support/e2eServer";
import { phonePhoto } from "../support/pictures";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;

const file = async (width?: number, height?: number) => ({
  name: "../../IMG 0001 from home.jpg",
  mimeType: "image/jpeg",
  buffer: await phonePhoto(width, height),
});

/** The picture that a thumb leads to, as the server sends it. */
async function sentPicture(page: Page, id: string, headers: Record<string, string> = {}) {
  return page.request.get(`/api/s/saltpan/photos/${id}`, { headers });
}

test("a photo of a part and of a step, taken on a phone: kept upright and bare, captioned, removed and put back", async ({
  browser,
}) => {
  const page = await (await browser.newContext(PHONE)).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanTuner");

  let id = "";
  await test.step("one tap opens the camera; the photo stands on the part", async () => {
    await page.goto("/s/saltpan/stock/2");
    const camera = page.getByLabel(/^Take a photo/);
    await expect(camera).toHaveAttribute("capture", "environment");
    await expect(camera).toHaveAttribute("accept", "image/*");
    await camera.setInputFiles(await file());
    await expect(page.getByText("The photo is kept.")).toBeVisible();
    const thumb = page.getByRole("link", { name: /photo 1$/ });
    await expect(thumb.getByRole("img")).toBeVisible();
    id = ((await thumb.getAttribute("href")) ?? "").split("/").at(-1) ?? "";
    await demandUsable(page);
  });

  await test.step("it is sent bare, for looking only, and asked for again by its hash", async () => {
    const sent = await sentPicture(page, id);
    expect(sent.status()).toBe(200);
    const headers = sent.headers();
    expect(headers["content-type"]).toBe("image/jpeg");
    expect(headers["content-security-policy"]).toContain("sandbox");
    expect(headers["x-content-type-options"]).toContain("nosniff");
    expect(headers["cache-control"]).toBe("private, no-cache");
    const body = await sent.body();
    expect(headers.etag).toBe(`"${createHash("sha256").update(body).digest("hex")}"`);
    const { exif, width, height } = await sharp(body).metadata();
    expect({ exif, width, height }).toEqual({ exif: undefined, width: 200, height: 600 });
    expect((await sentPicture(page, id, { "If-None-Match": headers.etag ?? "" })).status()).toBe(304);
    const small = await page.request.get(`/api/s/saltpan/photos/${id}/small`);
    expect((await sharp(await small.body()).metadata()).height).toBe(480);
  });

  await test.step("it opens large, takes a caption, is removed and put back", async () => {
    await page.getByRole("link", { name: /photo 1$/ }).click();
    await expect(page.getByRole("heading", { level: 1, name: "Photo of a part" })).toBeVisible();
    await demandUsable(page);
    await page.getByRole("textbox", { name: "Caption" }).fill("Burr on the seat");
    await page.getByRole("button", { name: "Keep the caption" }).click();
    await expect(page.getByRole("img", { name: "Burr on the seat" })).toBeVisible();
    await page.getByRole("button", { name: "Remove the photo" }).click();
    await expect(page.getByRole("note")).toContainText("Removed.");
    expect((await sentPicture(page, id)).status()).toBe(404);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.getByRole("img", { name: "Burr on the seat" })).toBeVisible();
    await demandUsable(page);
  });

  await test.step("a step of the card takes one, too", async () => {
    await page.goto("/s/saltpan/jobs?state=inWork");
    await page
      .locator("main")
      .getByRole("link", { name: /^Job \d+/ })
      .first()
      .click();
    await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
    const job = new URL(page.url()).pathname;
    await page.goto(`${job}/card`);
    await page.getByLabel(/^Take a photo/).setInputFiles(await file(300, 300));
    await expect(page.getByRole("img", { name: /photo 1$/ })).toBeVisible();
    await demandUsable(page);
    await page.goto(job);
    await expect(page.getByRole("heading", { name: "Photographed along the work" })).toBeVisible();
    await demandUsable(page);

    await page.goto(`${job}/found`);
    await page.getByRole("textbox", { name: /^What/ }).fill("Slide scored on the engine side");
    await page.getByLabel(/^Take a photo/).setInputFiles(await file(200, 300));
    await expect(page.getByRole("img", { name: "The photo you chose" })).toBeVisible();
    await demandUsable(page);
    await page.getByRole("button", { name: "Keep it" }).click();
    await expect(page).toHaveURL(/\/card$/);
    await page.goto(job);
    await expect(page.getByRole("img", { name: "Slide scored on the engine side, photo 1" })).toBeVisible();
    await demandUsable(page);
  });
  ears.demandQuiet();
});

test("a lost connection says so and keeps the photo, which is kept once however often it is sent", async ({
  browser,
}) => {
  const page = await (await browser.newContext(PHONE)).newPage();
  await signIn(page, "saltpanOwner");
  await page.goto("/s/saltpan/stock/3");
  const photos = page.getByRole("link", { name: /photo \d+$/ });
  await page.route("**/api/s/saltpan/photos?*", (route) => route.abort("connectionreset"));
  await page.getByLabel(/^Take a photo/).setInputFiles(await file());
  await expect(page.getByRole("alert").filter({ hasText: "The connection was lost" })).toBeVisible();
  await expect(page.getByRole("img", { name: "The photo you chose" })).toBeVisible();
  await demandUsable(page);
  await page.unroute("**/api/s/saltpan/photos?*");
  // The first that gets through is carried out, but its answer is lost on the way back.
  await page.route("**/api/s/saltpan/photos?*", async (route) => {
    await route.fetch();
    await route.abort("connectionreset");
  });
  await page.getByRole("button", { name: "Send it again" }).click();
  await expect(page.getByRole("alert").filter({ hasText: "The connection was lost" })).toBeVisible();
  await page.unroute("**/api/s/saltpan/photos?*");
  await page.getByRole("button", { name: "Send it again" }).click();
  await expect(page.getByText("The photo is kept.")).toBeVisible();
  await expect(photos).toHaveCount(1);
});

test("what is no photo, too large, a bomb or of nothing is refused with a sentence, and nothing is kept", async ({
  page,
}) => {
  await signIn(page, "saltpanOwner");
  const send = async (data: Buffer, of = "noun=part&id=4") => {
    const answer = await page.request.post(`/api/s/saltpan/photos?${of}`, {
      headers: { Origin: E2E.url, "Content-Type": "image/jpeg" },
      data,
    });
    return `${answer.status()} ${await answer.text()}`;
  };
  const good = await phonePhoto(40, 40);
  expect(await send(Buffer.from("<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"))).toMatch(
    /^422 This file is not a photo/,
  );
  expect(await send(Buffer.alloc(12 * 1024 * 1024 + 1, good))).toMatch(/^413 It is larger than 12 MB/);
  const bomb = await sharp({ create: { width: 8000, height: 6500, channels: 3, background: "#000" } })
    .png()
    .toBuffer();
  expect(bomb.length).toBeLessThan(1024 * 1024);
  expect(await send(bomb)).toMatch(/^422 The photo has 52 megapixels/);
  expect(await send(good, "noun=part&id=999999")).toMatch(/^404 There is no such part/);
  expect(await send(good, "noun=customer&id=1")).toMatch(/^422 It is not said what this photo shows/);
  expect(await send(good, "noun=part&id=../4")).toMatch(/^422 /);
  await page.goto("/s/saltpan/stock/4");
  await expect(page.getByRole("link", { name: /photo \d+$/ })).toHaveCount(0);
  await page.getByLabel(/^Choose a photo/).setInputFiles({
    name: "notes.jpg",
    mimeType: "image/jpeg",
    buffer: Buffer.from("not a photo"),
  });
  await expect(page.getByRole("alert").filter({ hasText: "not a photo that can be shown" })).toBeVisible();
});

test("photos are for those who work on bikes and with their owners: the books see none", async ({ page }) => {
  await signIn(page, "saltpanBooks");
  for (const address of ["/api/s/saltpan/photos/1", "/api/s/saltpan/photos/1/small"])
    expect((await page.request.get(address)).status()).toBe(403);
  await page.goto("/s/saltpan/stock/1");
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await expect(page.getByRole("heading", { name: "Photos" })).toHaveCount(0);
});

test("the customer of a variation sees what was found, and by that link no other photo", async ({
  browser,
}) => {
  const desk = await (await browser.newContext()).newPage();
  await signIn(desk, "saltpanDesk");
  await desk.goto("/s/saltpan/quotes?state=sent");
  const quotes = await desk
    .locator("main a[href*='/quotes/']")
    .evaluateAll((links) =>
      links.map((link) => link.getAttribute("href") ?? "").filter((href) => /\/quotes\/\d+$/.test(href)),
    );
  let photo = "";
  for (const href of new Set(quotes)) {
    await desk.goto(href);
    const thumb = desk.getByRole("link", { name: "Split where it turns" });
    if ((await thumb.count()) === 0) continue;
    photo = ((await thumb.getAttribute("href")) ?? "").split("/").at(-1) ?? "";
    break;
  }
  expect(photo).toMatch(/^\d+$/);
  await demandUsable(desk);
  await desk.getByRole("button", { name: "Make a new link" }).click();
  const shown = desk.getByRole("status").filter({ hasText: "The customer's link" });
  await expect(shown).toBeVisible();
  const link = new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname;

  const customer = await (await browser.newContext(PHONE)).newPage();
  const ears = listen(customer);
  await customer.goto(link);
  await expect(customer.getByRole("img", { name: "Split where it turns" })).toBeVisible();
  await demandUsable(customer);
  for (const size of ["", "/small"]) {
    const sent = await customer.request.get(`${link}/photos/${photo}${size}`);
    expect(sent.status()).toBe(200);
    expect(sent.headers()["content-security-policy"]).toContain("sandbox");
    for (const other of ["1", "999", "x"])
      if (other !== photo)
        expect((await customer.request.get(`${link}/photos/${other}${size}`)).status()).toBe(404);
    expect((await customer.request.get(`${link.slice(0, -1)}_/photos/${photo}${size}`)).status()).toBe(404);
    expect((await customer.request.get(`/api/s/saltpan/photos/${photo}${size}`)).status()).toBe(404);
  }
  ears.demandQuiet();
});
