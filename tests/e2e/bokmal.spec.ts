import { expect, test } from "@playwright/test";
import { wordsIn } from "../../lib/words/words";
import {
  boxesOf,
  demandSpoken,
  deskOf,
  english,
  jobPage,
  newCustomer,
  newestLetter,
  phoneOf,
  readAndAccept,
  readyByLetter,
  remindedAndPaid,
  sentQuote,
  timed,
  type Walked,
} from "./customerWalk";
import { EVERY_WALK } from "./widths";

const NORWEGIAN: Walked = {
  slug: "fjellrev",
  owner: "fjellrevOwner",
  locale: "nb-NO",
  language: "nb",
  customer: `Ragnhild Tveit ${Date.now() % 10_000}`,
  email: `ragnhild${Date.now() % 10_000}@customer.example`,
  plate: "RT 4711",
  package: /Høydejustering/,
};
const AUSTRALIAN: Walked = {
  slug: "saltpan",
  owner: "saltpanOwner",
  locale: "en-AU",
  language: "en",
  customer: `Merle Hadley ${Date.now() % 10_000}`,
  email: `merle${Date.now() % 10_000}@customer.example`,
  plate: "MH 4711",
  package: /Open-road breathing/,
};

test("a Norwegian customer goes from the letter to the yes, the booking, the reminder and paid without an English word, at 360 wide", async ({
  browser,
}) => {
  const walked = NORWEGIAN;
  const desk = await deskOf(browser, walked);
  const phone = await phoneOf(browser, walked);
  let link = "";

  await timed("Norwegian: the desk sends a quote and its letter", async () => {
    link = await sentQuote(desk, walked, await newCustomer(desk, walked));
  });

  await timed("Norwegian: the quote is read, asked about and answered", async () => {
    await phone.goto(link);
    await readAndAccept(phone, walked);
    const { text } = await newestLetter(desk, walked, walked.email);
    expect(text).toContain("godtatt");
  });

  await timed(
    "Norwegian: the job's page from the booking to the paid invoice, and what is kept of it",
    async () => {
      for (const state of ["booked", "inWork", "ready", "invoiced", "closed"]) {
        const path = await jobPage(desk, phone, walked, state);
        if (state === "booked") {
          const calendar = await (await phone.request.get(`${path}/calendar`)).text();
          expect(calendar).toMatch(/SUMMARY:.* hos Fjellrev Motor/u);
        }
        const handover = await phone.request.get(`${path}/handover`);
        expect(handover.status(), `handover of a job that is ${state}`).toBe(
          ["booked", "inWork"].includes(state) ? 404 : 200,
        );
      }
    },
  );

  await timed("Norwegian: ready by letter, reminded, paid", async () => {
    await readyByLetter(desk, phone, walked);
    await remindedAndPaid(desk, phone, walked);
  });

  await timed("Norwegian: another language is one touch away, and back", async () => {
    await phone.goto(link);
    await phone.getByRole("button", { name: "English" }).click();
    await expect(phone.locator("html")).toHaveAttribute("lang", "en");
    await expect(phone.getByRole("heading", { name: "What you agreed to" })).toBeVisible();
    await phone.getByRole("button", { name: "Norsk bokmål" }).click();
    await expect(phone.getByRole("heading", { name: "Dette avtalte du" })).toBeVisible();
    await demandSpoken(phone, walked);
  });

  await timed("Norwegian: a link that does not open says so in the browser's language", async () => {
    await phone.goto(`/c/fjellrev/${"x".repeat(27)}`);
    await expect(phone.getByRole("heading", { name: "Denne lenken åpner ikke" })).toBeVisible();
    expect(await english(phone)).toEqual([]);
  });
});

if (EVERY_WALK)
  test("an Australian customer goes the same way, at 360 wide", async ({ browser }) => {
    const walked = AUSTRALIAN;
    const desk = await deskOf(browser, walked);
    const phone = await phoneOf(browser, walked);

    await timed("Australian: from the letter to the yes", async () => {
      await phone.goto(await sentQuote(desk, walked, await newCustomer(desk, walked)));
      await readAndAccept(phone, walked);
      expect((await newestLetter(desk, walked, walked.email)).text).toContain("accepted");
    });

    await timed("Australian: ready by letter, reminded, paid", async () => {
      await readyByLetter(desk, phone, walked);
      await remindedAndPaid(desk, phone, walked);
    });
  });

test("with scripts off a customer goes from the letter to the yes, and is told what is missing at the top and beside its box", async ({
  browser,
}) => {
  const walked = { ...NORWEGIAN, email: `uten${Date.now() % 10_000}@customer.example`, plate: "RT 4712" };
  const say = wordsIn(walked.locale);
  const desk = await deskOf(browser, walked);
  const phone = await phoneOf(browser, walked, false);
  const accept = phone.getByRole("button", { name: say("answering.accept") });
  let link = "";

  await timed("Scripts off: the desk sends a quote", async () => {
    link = await sentQuote(desk, walked, await newCustomer(desk, walked));
  });

  await timed("Scripts off: from the letter to the yes", async () => {
    await phone.goto(link);
    const boxes = boxesOf(phone, walked);
    await boxes.first().check();
    await phone.getByRole("textbox", { name: say("answering.fullName") }).fill("Ragnhild Tveit");
    await accept.click();
    await expect(phone.getByRole("alert").filter({ hasText: say("refused.tickAll") })).toBeVisible();
    // What was typed and ticked is still there, and only what is missing is marked.
    await expect(boxes.first()).toBeChecked();
    await expect(boxes.first()).not.toHaveAttribute("aria-invalid", "true");
    await expect(boxes.last()).toHaveAttribute("aria-invalid", "true");
    await expect(boxes.last()).toHaveAccessibleDescription(new RegExp(say("refused.tickThis"), "u"));
    await expect(phone.getByRole("textbox", { name: say("answering.fullName") })).toHaveValue(
      "Ragnhild Tveit",
    );
    await expect(phone.locator("html")).toHaveAttribute("lang", "nb");
    await boxes.last().check();
    await accept.click();
    await expect(phone.getByRole("heading", { name: say("links.accepted") })).toBeVisible();
    await expect(phone.getByRole("heading", { name: say("jobPage.agreed") })).toBeVisible();
  });
});
