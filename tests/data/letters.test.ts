import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { notTold } from "@/lib/data/bookings/notTold";
import { speakTo } from "@/lib/data/customers/language";
import { mailInvoice } from "@/lib/data/invoices/links";
import { mailReady } from "@/lib/data/invoices/readyMail";
import { getLetter, listLetters, resetLetter, saveLetter, switchLetter } from "@/lib/data/mail/letterTexts";
import { lettersAbout } from "@/lib/data/mail/list";
import { letterSample } from "@/lib/data/papers/letterSample";
import { getQuote } from "@/lib/data/quotes/get";
import { answerQuestion, askByLink } from "@/lib/data/quotes/questions";
import { remindQuote } from "@/lib/data/quotes/remind";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { LETTER_KINDS, usable } from "@/lib/domain/letters/kinds";
import { Refusal } from "@/lib/domain/refusal";
import { customerLocale } from "@/lib/words/language";
import { letters } from "@/lib/words/letters";
import { wordsIn } from "@/lib/words/words";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const mailsOf = (shop: ShopHandle) => shop.read.mail.findMany({ orderBy: { id: "asc" } });
const refused = async (run: Promise<unknown>): Promise<Refusal> => {
  const cause = await run.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (!(cause instanceof Refusal)) throw new Error(`Not refused: ${String(cause)}`);
  return cause;
};
const OURS = { kind: "quote", language: "en", version: 0 } as const;
const MINE = { subject: "For {name}: {title}", text: "G'day {name}.\n\n{link}\n\nOff you go.\n{phone}" };

describe("a shop's own words of a letter", () => {
  it("are what its customers read from then on, in that language and in that shop alone", async () => {
    const { a, b } = await twoShops();
    await saveLetter(a, { ...OURS, ...MINE });
    const ready = await readyToQuote(a, 40);
    await sentQuote(a, ready);
    await sentQuote(b, await readyToQuote(b, 40));
    await speakTo(a, { id: ready.customerId, language: "nb" });
    await sentQuote(a, ready);
    const [mine, norwegian] = await mailsOf(a);
    expect(mine).toMatchObject({
      subject: "For Ines Valdborg: Open-road breathing",
      letter: "quote",
      language: "en",
    });
    expect(mine?.text).toMatch(
      /^G'day Ines Valdborg\.\n\nhttps:\/\/workshop\.example\/c\/\S+\n\nOff you go\.$/u,
    );
    expect(norwegian).toMatchObject({ subject: expect.stringMatching(/^Tilbud /u), language: "nb" });
    expect((await mailsOf(b))[0]?.subject).toMatch(/^Tilbud |^Quote /u);
    expect((await listLetters(a)).find((one) => one.kind === "quote")?.edited).toEqual(["en"]);
    expect((await listLetters(b)).flatMap((one) => one.edited)).toEqual([]);
  });

  it("are kept with version and audit, refused on an old version, and put back to ours without being lost", async () => {
    const { a } = await twoShops();
    await saveLetter(a, { ...OURS, ...MINE });
    expect((await refused(saveLetter(a, { ...OURS, ...MINE }))).kind).toBe("conflict");
    await saveLetter(a, { ...OURS, version: 1, ...MINE, subject: "Second {title}" });
    expect((await refused(resetLetter(a, { ...OURS, version: 1 }))).kind).toBe("conflict");
    await resetLetter(a, { ...OURS, version: 2 });
    const [en] = (await getLetter(a, "quote")).texts;
    expect(en).toEqual({ language: "en", ...letters.en.quote, own: false, version: 3 });
    // What was drawn before somebody wrote and put back does not count as new.
    expect((await refused(saveLetter(a, { ...OURS, ...MINE }))).kind).toBe("conflict");
    const told = await a.read.auditEntry.findMany({ where: { noun: "letter" }, orderBy: { id: "asc" } });
    expect(told.map((one) => [one.act, (one.detail as { was: { subject: string } }).was.subject])).toEqual([
      ["changed", ""],
      ["changed", MINE.subject],
      ["put back", "Second {title}"],
    ]);
  });

  it("are not kept with a placeholder that is not known or without the link", async () => {
    const { a } = await twoShops();
    const cause = await refused(saveLetter(a, { ...OURS, subject: "{nmae}", text: "No link." }));
    expect(cause.fields.subject).toContain("{nmae} is not known here. You may use {name}");
    expect(cause.fields.text).toContain("Put {link} in");
    expect(await a.read.letterText.count()).toBe(0);
  });
});

describe("a letter that is switched off", () => {
  it("is not written as a quote is sent, which happens all the same, and is refused by hand with what to do", async () => {
    const { a, b } = await twoShops();
    for (const kind of ["quote", "reminder"] as const)
      await switchLetter(a, { kind, on: false, days: null, version: 0 });
    const stale = switchLetter(a, { kind: "quote", on: true, days: null, version: 0 });
    expect((await refused(stale)).kind).toBe("conflict");
    const ready = await readyToQuote(a, 40);
    await a.write((tx) => tx.customer.updateMany({ data: { phone: "0400 111" } }));
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    expect(await sendQuote(a, { id, version: 1, origin: ORIGIN })).toMatchObject({
      link: expect.stringContaining("/c/"),
      letter: { withheld: "off" },
    });
    const by = await refused(remindQuote(a, { id, version: 2, words: "", origin: ORIGIN }));
    expect([by.message, by.remedy]).toEqual([
      "This letter is switched off.",
      "Call 0400 111, or hand over the link. Shop > Letters switches it on.",
    ]);
    expect(await mailsOf(a)).toEqual([]);
    await sentQuote(b, await readyToQuote(b, 40));
    expect(await mailsOf(b)).toHaveLength(1);
    // Only letters that the rounds write by days keep any.
    expect(await a.read.letter.findMany({ select: { days: true }, orderBy: { kind: "asc" } })).toEqual([
      { days: null },
      { days: null },
    ]);
  });
});

describe("a customer who wants no letters", () => {
  it("gets none of any act, each of which happens, and whoever writes by hand is told to call", async () => {
    const { a, b } = await twoShops();
    await nameShop(a);
    const ready = await readyToQuote(a, 40);
    await a.write((tx) => tx.customer.updateMany({ data: { noLetters: true, phone: "0400 222" } }));
    const { jobId } = await readyJob(a, ready);
    const invoiceId = await issuedInvoice(a, jobId);
    const sent = await sentQuote(a, ready);
    await askByLink(a, { revisionId: sent.revisionId, text: "How loud?" });
    const question = await a.read.quoteQuestion.findFirstOrThrow();
    expect(await answerQuestion(a, { questionId: question.id, answer: "A little." })).toEqual({
      mailed: false,
    });
    const say = "Ines Valdborg wants no letters, so none is written.";
    const hands = [
      mailReady(a, { jobId, origin: ORIGIN }),
      mailInvoice(a, { id: invoiceId, origin: ORIGIN }),
      mailInvoice(a, { id: invoiceId, to: "counter@example.com", origin: ORIGIN }),
      remindQuote(a, { id: sent.id, version: 2, words: "", origin: ORIGIN }),
    ];
    for (const hand of hands) {
      const { message, remedy } = await refused(hand);
      expect([message, remedy]).toEqual([say, "Call 0400 222, or hand over the link."]);
    }
    expect((await mailsOf(a)).filter((mail) => mail.letter !== "")).toEqual([]);
    expect((await getQuote(a, sent.id, { margin: false }))?.withheld).toBe("noLetters");
    // No link was left behind by what was refused.
    expect(await a.read.customerLink.count({ where: { purpose: { in: ["invoice", "job"] } } })).toBe(0);
    expect(await mailsOf(b)).toEqual([]);
  });

  it("is named where a booking would have been told, without a link to hand over", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a, 40);
    await a.write((tx) => tx.customer.updateMany({ data: { noLetters: true } }));
    const bay = await a.read.bay.findFirstOrThrow();
    const staff = await a.read.staff.findFirstOrThrow();
    const at = { startsAt: a.now, endsAt: new Date(a.now.getTime() + 3_600_000) };
    const whose = { words: "Fork oil", customerId: ready.customerId, bayId: bay.id, staffId: staff.id };
    const { id } = await a.write((tx) => tx.booking.create({ data: { ...whose, ...at } }));
    expect(await notTold(a, id, "booking")).toBe(
      "Ines Valdborg wants no letters, so none is written. Tell them when they come.",
    );
    expect(await notTold(b, id, "booking")).toBe("");
  });
});

describe("what a letter says with the shop's own", () => {
  it("is of the newest that it could be about, whole in both languages, and nothing of another shop", async () => {
    const { a, b } = await twoShops();
    await nameShop(a);
    const ready = await readyToQuote(a, 40);
    const { jobId } = await readyJob(a, ready);
    await issuedInvoice(a, jobId);
    const sent = await sentQuote(a, ready);
    await askByLink(a, { revisionId: sent.revisionId, text: "How loud?" });
    const question = await a.read.quoteQuestion.findFirstOrThrow();
    await answerQuestion(a, { questionId: question.id, answer: "A little." });
    const real: string[] = [];
    for (const kind of LETTER_KINDS)
      for (const language of ["en", "nb"] as const) {
        const sample = await letterSample(a, kind, language, ORIGIN);
        if (sample.real) real.push(kind);
        for (const name of usable(kind)) expect(sample.values[name], `${kind} ${name}`).toBeTypeOf("string");
        const theirs = await letterSample(b, kind, language, ORIGIN);
        expect(theirs.real).toBe(false);
        expect(JSON.stringify(theirs.values)).not.toMatch(/Ines|Saltpan|Drover/u);
      }
    expect([...new Set(real)]).toEqual([
      "quote",
      "reminder",
      "answer",
      "yes",
      "ready",
      "invoice",
      "paymentReminder",
      "paymentReminder2",
      "paymentReminder3",
      "statement",
      "howRuns",
    ]);
    expect((await letterSample(a, "quote", "nb", ORIGIN)).values).toMatchObject({
      name: "Ines Valdborg",
      link: `${ORIGIN}/c/${a.slug}/...`,
    });
  });

  it("tells a yes back in either language, in whichever it was given", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a, 40));
    await acceptQuote(a, { ...yes(sent), language: "en" });
    const said = async (language: "en" | "nb") => (await letterSample(a, "yes", language, ORIGIN)).values;
    const { locale } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
    expect((await said("en")).follow).toBe(wordsIn(customerLocale(locale, "en"))("mails.follow"));
    expect((await said("nb")).follow).toBe(wordsIn(customerLocale(locale, "nb"))("mails.follow"));
  });

  it("lists what was written about one thing, and not another's", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a, 40);
    const sent = await sentQuote(a, ready);
    await acceptQuote(as(a, { now: new Date(a.now.getTime() + 60_000) }), yes(sent));
    await sentQuote(a, ready);
    const about = { noun: "quote", nounId: sent.id } as const;
    expect((await lettersAbout(a.read, about)).map((one) => one.letter)).toEqual(["yes", "quote"]);
    expect(await lettersAbout(b.read, about)).toEqual([]);
  });
});
