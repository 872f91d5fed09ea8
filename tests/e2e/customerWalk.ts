import { type Browser, expect, type Locator, type Page, test } from "@playwright/test";
import { wordsIn } from "../../lib/words/words";
import { ENGLISH } from "../support/letterWords";
import { pdfText } from "../support/pdfText";
import { pick } from "./fields";
import { signIn, type Who } from "./people";
import { demandReachable, demandUsable } from "./watched";

const PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };

/** A shop with its customer's language, as one walk goes through it. */
export interface Walked {
  readonly slug: string;
  readonly owner: Who;
  readonly locale: string;
  readonly language: "en" | "nb";
  readonly customer: string;
  readonly email: string;
  readonly plate: string;
  readonly package: RegExp;
}

/** English words among all that a page says: its text, its title, the names of its controls. */
export async function english(page: Page): Promise<string[]> {
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

/** Everything on the page is in the customer's language, with what is folded opened. */
export async function demandSpoken(page: Page, { language }: Walked): Promise<void> {
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll("details")) fold.open = true;
  });
  if (language === "nb") expect(await english(page), page.url()).toEqual([]);
  await expect(page.locator("html")).toHaveAttribute("lang", language);
}

export const phoneOf = async (browser: Browser, { locale }: Walked, scripts = true): Promise<Page> =>
  (await browser.newContext({ ...PHONE, locale, javaScriptEnabled: scripts })).newPage();

export async function deskOf(browser: Browser, { owner }: Walked): Promise<Page> {
  const desk = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  await signIn(desk, owner);
  return desk;
}

/** Says how long a part of the walk took. */
export async function timed(what: string, run: () => Promise<void>): Promise<void> {
  const began = performance.now();
  await test.step(what, run);
  console.log(`  ${what}: ${((performance.now() - began) / 1000).toFixed(1)} s`);
}

/** A new customer with a bike; answers the bike's id. */
export async function newCustomer(desk: Page, walked: Walked): Promise<string> {
  const { slug } = walked;
  await desk.goto(`/s/${slug}/customers/new`);
  await desk.getByRole("textbox", { name: "Name", exact: true }).fill(walked.customer);
  await desk.getByRole("textbox", { name: "E-mail" }).fill(walked.email);
  await desk.getByRole("button", { name: "Add the customer" }).click();
  await desk.getByRole("link", { name: "Add a bike" }).click();
  await pick(desk, "Model card", "drover 580");
  await desk.getByRole("textbox", { name: "Plate" }).fill(walked.plate);
  await desk.getByRole("button", { name: "Add the bike" }).click();
  await expect(desk.getByRole("heading", { level: 1, name: /Drover|Trail/ })).toBeVisible();
  return new URL(desk.url()).pathname.split("/").at(-1) ?? "";
}

/** A quote of the walk's package, sent; answers the path of the link in its letter. */
export async function sentQuote(desk: Page, walked: Walked, bike: string): Promise<string> {
  await desk.goto(`/s/${walked.slug}/quotes/new?bike=${bike}`);
  await desk.getByRole("radio", { name: walked.package }).check();
  await desk.getByRole("button", { name: "Start the quote" }).click();
  await expect(desk.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
  await desk.getByRole("button", { name: "Send for a yes" }).click();
  await expect(desk.getByText(`A mail with the link goes to ${walked.email}.`)).toBeVisible();
  await desk.getByRole("button", { name: "Send it", exact: true }).click();
  await expect(desk.getByRole("status").filter({ hasText: "The customer's link" })).toContainText(
    `A mail to ${walked.email} is in the mail queue.`,
  );
  const { link } = await newestLetter(desk, walked, walked.email);
  return link;
}

/** The newest letter to an address: its words, in the customer's language, and the path of the link in it. */
export async function newestLetter(
  desk: Page,
  { slug, language }: Walked,
  to: string,
): Promise<{ text: string; link: string }> {
  await desk.goto(`/s/${slug}/shop/mail`);
  const mail = desk
    .getByRole("listitem")
    .filter({ hasText: `to ${to}` })
    .first();
  await mail.getByText("Read the mail").click();
  const text = `${await mail.locator("strong").first().textContent()}\n${await mail.locator("pre").textContent()}`;
  if (language === "nb") expect(text.replace(/https?:\S+/g, "").match(ENGLISH) ?? []).toEqual([]);
  const link = new RegExp(`https?://\\S+/c/${slug}/[\\w-]{27}`).exec(text)?.[0];
  return { text, link: link ? new URL(link).pathname : "" };
}

/** Letters and digits alone: a paper breaks lines and sets apart otherwise than a page. */
const bare = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, "").toLowerCase();

/** What the printed page says of the work, its price and what is to be confirmed stands in the PDF, sum for sum. */
async function demandSamePaper(phone: Page, { locale }: Walked): Promise<void> {
  const say = wordsIn(locale);
  await phone.emulateMedia({ media: "print" });
  const of = (title: string, parts: string) =>
    phone
      .locator("section", { has: phone.getByRole("heading", { name: title, exact: true }) })
      .locator(parts)
      .allInnerTexts();
  const printed = [
    ...(await of(say("quotePage.whatWeDo"), "li strong, li strong + span")),
    ...(await of(say("quotePage.cost"), "dd")),
    ...(await of(say("quotePage.goodToKnow"), "li")),
    ...(await phone
      .getByRole("group", { name: say("answering.readAndTick") })
      .locator("label")
      .allInnerTexts()),
  ].filter((text) => bare(text) !== "");
  await phone.emulateMedia({ media: null });
  expect(printed.length).toBeGreaterThan(8);
  const pdf = await phone.request.get(`${new URL(phone.url()).pathname}/pdf`);
  const paper = bare(await pdfText(new Uint8Array(await pdf.body())));
  expect(printed.filter((text) => !paper.includes(bare(text)))).toEqual([]);
}

/** Reads the quote, asks about it, and says yes to it. */
export async function readAndAccept(phone: Page, walked: Walked): Promise<void> {
  const say = wordsIn(walked.locale);
  await demandUsable(phone);
  await demandSpoken(phone, walked);
  await demandSamePaper(phone, walked);
  // What a chat shows of the address gives nothing private away.
  const shown = await phone
    .locator('meta[property^="og:"], meta[name="description"], title')
    .evaluateAll((all) => all.map((one) => one.getAttribute("content") ?? one.textContent ?? "").join(" "));
  for (const secret of [walked.customer, walked.plate, "Drover", "580"]) expect(shown).not.toContain(secret);
  await phone.getByRole("button", { name: say("answering.accept") }).click();
  await expect(phone.getByRole("alert").filter({ hasText: say("refused.marked") })).toBeVisible();
  await demandSpoken(phone, walked);
  await phone.getByRole("textbox", { name: say("answering.yourQuestion") }).fill("?!? 12 km");
  await phone.getByRole("button", { name: say("answering.ask") }).click();
  await expect(phone.getByText(say("answering.willAnswer"))).toBeVisible();
  for (const box of await boxesOf(phone, walked).all()) await box.check();
  await phone.getByRole("textbox", { name: say("answering.fullName") }).fill(walked.customer);
  await phone.getByRole("button", { name: say("answering.accept") }).click();
  await expect(phone.getByRole("heading", { name: say("links.accepted") })).toBeVisible();
  await expect(phone.getByRole("heading", { name: say("jobPage.agreed") })).toBeVisible();
  await demandUsable(phone);
  await demandSpoken(phone, walked);
}

export const boxesOf = (phone: Page, { locale }: Walked) =>
  phone.getByRole("group", { name: wordsIn(locale)("answering.readAndTick") }).getByRole("checkbox");

/** The job's page in one state of it, from a link made at the desk. */
export async function jobPage(desk: Page, phone: Page, walked: Walked, state: string): Promise<string> {
  await desk.goto(`/s/${walked.slug}/jobs?state=${state}`);
  await desk.locator("main tbody a[href*='/jobs/']").first().click();
  await desk.getByRole("button", { name: "Link for the customer" }).click();
  await desk.getByRole("button", { name: "Make a link" }).click();
  const shown = desk.getByRole("status").filter({ hasText: "Copy it now" });
  const path = new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname;
  await phone.goto(path);
  await expect(phone.getByRole("heading", { level: 1 })).toBeVisible();
  await demandReachable(phone);
  await demandSpoken(phone, walked);
  return path;
}

/** The address that a dialog or form of the desk says a mail goes to. */
const addressIn = async (place: Locator, sentence: RegExp): Promise<string> =>
  sentence.exec((await place.textContent()) ?? "")?.[1] ?? "";

/** The customer of a bike that is ready is told by letter, and reads it on the job's page. */
export async function readyByLetter(desk: Page, phone: Page, walked: Walked): Promise<void> {
  const say = wordsIn(walked.locale);
  await desk.goto(`/s/${walked.slug}/jobs?state=ready`);
  await desk.locator("main tbody a[href*='/jobs/']").first().click();
  await desk.getByRole("button", { name: "Link for the customer" }).click();
  const to = await addressIn(desk.getByRole("dialog"), /A mail says to (\S+) that/u);
  await desk.getByRole("button", { name: "Say that it is ready" }).click();
  await expect(desk.getByText("The mail is in the mail queue.")).toBeVisible();
  await phone.goto((await newestLetter(desk, walked, to)).link);
  await expect(phone.getByText(say("jobPage.ready"))).toBeVisible();
  await demandReachable(phone);
  await demandSpoken(phone, walked);
}

/** A late invoice is reminded of by letter, read on the phone, and paid at the desk; the page then says so. */
export async function remindedAndPaid(desk: Page, phone: Page, walked: Walked): Promise<void> {
  const say = wordsIn(walked.locale);
  await desk.goto(`/s/${walked.slug}/invoices?state=late`);
  const late = await desk
    .locator("main tbody a[href*='/invoices/']")
    .evaluateAll((all) => [...new Set(all.map((one) => one.getAttribute("href") ?? ""))]);
  let to = "";
  let invoice = "";
  for (const href of late) {
    await desk.goto(href);
    await desk.getByRole("link", { name: "Remind of the payment" }).click();
    await expect(desk.getByRole("heading", { name: /reminder$/u })).toBeVisible();
    to = await addressIn(desk.getByRole("form", { name: "Reminder" }), /Else it goes to (\S+)\./u);
    invoice = href;
    if (to) break;
  }
  expect(to, "a late invoice of somebody with an address").not.toBe("");
  await desk.getByRole("button", { name: "Send the reminder" }).click();
  await expect(desk.getByText(`A reminder to ${to} is in the mail queue.`)).toBeVisible();
  const { text, link } = await newestLetter(desk, walked, to);
  await phone.goto(link);
  await expect(phone.getByRole("heading", { name: say("invoicePage.paying") })).toBeVisible();
  await demandReachable(phone);
  await demandSpoken(phone, walked);
  await desk.goto(invoice);
  await expect(desk.getByRole("listitem").filter({ hasText: "Payment reminder" })).toBeVisible();
  await desk.getByRole("button", { name: "Record a payment" }).click();
  await desk.getByRole("button", { name: "Record the payment" }).click();
  await expect(desk.getByText("Payment recorded.")).toBeVisible();
  await phone.reload();
  await expect(phone.getByText(say("invoicePage.paidInFull"))).toBeVisible();
  await demandSpoken(phone, walked);
  expect(text).not.toBe("");
}
