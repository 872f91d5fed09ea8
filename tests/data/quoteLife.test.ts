import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { quoteFigures, quotesBehind } from "@/lib/data/figures/quotes";
import { wilson, winLines } from "@/lib/data/figures/winRate";
import { addFinding } from "@/lib/data/jobs/findings";
import {
  dropAlternative,
  getAlternatives,
  keepAlternative,
  takeAlternative,
} from "@/lib/data/quotes/alternatives";
import { declineQuote, reviseQuote } from "@/lib/data/quotes/answer";
import { quotesToCall, whyCall } from "@/lib/data/quotes/call";
import { listQuotes } from "@/lib/data/quotes/list";
import { answerQuestion, askByLink, openQuestions } from "@/lib/data/quotes/questions";
import { remindQuote, setCallOn } from "@/lib/data/quotes/remind";
import { sendQuote } from "@/lib/data/quotes/send";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import { makeBike, ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const later = (days: number) => new Date(Date.parse("2026-11-25T00:30:00Z") + days * 86_400_000);

describe("a question by link", () => {
  it("is kept with the quote, mailed to the shop, answered once, and its answer mailed back", async () => {
    const { a, b } = await twoShops();
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { email: "desk@saltpan.example" } }));
    const sent = await sentQuote(a, await readyToQuote(a));
    const ask = { revisionId: sent.revisionId, text: "Will it be louder?", key: "question-1" };
    await askByLink(a, ask);
    await askByLink(a, ask);
    const [question, ...more] = await openQuestions(a);
    expect(more).toEqual([]);
    expect(question).toMatchObject({ text: "Will it be louder?", quote: { number: "1001" } });
    const told = await a.read.mail.findFirstOrThrow({ where: { to: "desk@saltpan.example" } });
    expect(told.text).toContain("Will it be louder?");
    const answer = { questionId: question?.id ?? 0, answer: "A little, on the intake side." };
    expect(await answerQuestion(a, answer)).toEqual({ mailed: true });
    const back = await a.read.mail.findFirstOrThrow({ where: { subject: "Your question on quote 1001" } });
    expect(back.text).toContain("A little, on the intake side.");
    await expect(answerQuestion(a, answer)).rejects.toMatchObject({ kind: "conflict" });
    expect(await openQuestions(a)).toEqual([]);
    expect(await b.read.quoteQuestion.findMany({})).toEqual([]);
  });

  it("is not taken without end", async () => {
    const { a } = await twoShops();
    const { revisionId } = await sentQuote(a, await readyToQuote(a));
    for (let n = 1; n <= 5; n++) await askByLink(a, { revisionId, text: `Question ${n}` });
    await expect(askByLink(a, { revisionId, text: "One more" })).rejects.toThrow("still waiting");
  });
});

describe("a reminder", () => {
  it("is a mail with a further link that opens, leaves the first one open, and goes once for one request", async () => {
    const { a } = await twoShops();
    const { id, revisionId } = await sentQuote(a, await readyToQuote(a));
    const input = { id, version: 2, words: "We have the jets here.", origin: ORIGIN, key: "remind-01" };
    await remindQuote(a, input);
    await remindQuote(a, input);
    const mails = await a.read.mail.findMany({ where: { subject: { contains: "waits" } } });
    expect(mails).toHaveLength(1);
    expect(mails[0]?.text).toContain("We have the jets here.");
    expect(mails[0]?.text).toMatch(/https:\/\/workshop\.example\/c\/[^/\s]+\/[\w-]{27}/);
    const links = await a.read.customerLink.findMany({ where: { revisionId } });
    expect(links.map((l) => l.revokedAt)).toEqual([null, null]);
  });

  it("is refused for a draft, after the last day, without an address, and on an old version", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const draft = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    const words = { words: "", origin: ORIGIN };
    await expect(remindQuote(a, { id: draft, version: 1, ...words })).rejects.toThrow("is draft");
    const { id } = await sentQuote(a, ready);
    await expect(remindQuote(a, { id, version: 1, ...words })).rejects.toMatchObject({ kind: "conflict" });
    const late = as(a, { now: later(30) });
    await expect(remindQuote(late, { id, version: 2, ...words })).rejects.toThrow("run out");
    await a.write((tx) => tx.customer.updateMany({ data: { email: "" } }));
    await expect(remindQuote(a, { id, version: 2, ...words })).rejects.toThrow("No mail address");
  });
});

describe("whom to call", () => {
  const calm = {
    today: "2026-11-25",
    locale: "en-IE",
    callOn: null,
    validUntil: "2026-12-20",
    sentDays: 1,
    opened: true,
    questions: 0,
    remindedDays: null,
  };
  it("is nobody while a quote is fresh, or put off to a later day", () => {
    expect(whyCall(calm)).toEqual([]);
    expect(whyCall({ ...calm, sentDays: 9, callOn: "2026-11-30" })).toEqual([]);
  });
  it("is first who asked, then who was promised a call, then whose quote ends, then who is silent", () => {
    const all = whyCall({
      ...calm,
      questions: 1,
      callOn: "2026-11-25",
      validUntil: "2026-11-27",
      sentDays: 9,
    });
    expect(all.map((r) => r.rank)).toEqual([0, 1, 2, 3]);
    expect(all.slice(1, 3).map((r) => r.why)).toEqual([
      "to be called on 25 Nov 2026",
      "runs out on 27 Nov 2026",
    ]);
    expect(whyCall({ ...calm, sentDays: 9, remindedDays: 1 })).toEqual([]);
    expect(whyCall({ ...calm, sentDays: 9, opened: false })[0]?.why).toBe("not opened for 9 days");
  });

  it("is listed with the most pressing first", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    const quiet = await sentQuote(a, ready);
    const asked = await sentQuote(a, ready);
    const promised = await sentQuote(a, ready);
    await askByLink(a, { revisionId: asked.revisionId, text: "When could it be?" });
    await setCallOn(a, { id: promised.id, version: 2, callOn: "2026-11-26" });
    expect((await quotesToCall(a)).map((q) => q.id)).toEqual([asked.id]);
    const soon = await quotesToCall(as(a, { now: later(6) }));
    expect(soon.map((q) => q.id)).toEqual([asked.id, promised.id, quiet.id]);
    await expect(setCallOn(a, { id: promised.id, version: 2, callOn: "" })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect(await quotesToCall(b)).toEqual([]);
  });
});

describe("the list of quotes", () => {
  it("is ordered by customer, value, age and last day, and found by words, page after page", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const other = await makeBike(a, "Aune Bekk");
    const first = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    const second = await createQuote(a, { bikeId: other.bikeId, packageId: ready.packageId });
    await chooseOptions(a, { id: first, version: 1, choices: ["breather"], touched: "" });
    const ids = async (query: Parameters<typeof listQuotes>[1]) =>
      (await listQuotes(a, query)).rows.map((r) => r.id);
    expect(await ids({ sort: "customer" })).toEqual([second, first]);
    expect(await ids({ sort: "-customer" })).toEqual([first, second]);
    expect(await ids({ sort: "value" })).toEqual([first, second]);
    expect(await ids({ sort: "-value", after: second })).toEqual([first]);
    expect(await ids({ sort: "customer", after: second })).toEqual([first]);
    expect(await ids({ sort: "sent", after: first })).toEqual([second]);
    expect(await ids({ q: "aune" })).toEqual([second]);
    expect(await ids({ kind: "variation" })).toEqual([]);
  });
});

describe("alternatives A, B and C of a quote", () => {
  it("are kept, compared as of today, taken and dropped", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    await keepAlternative(a, { id, version: 1, letter: "A", name: "Open road" });
    await chooseOptions(a, { id, version: 1, choices: ["breather"], touched: "" });
    await keepAlternative(a, { id, version: 2, letter: "B", name: "" });
    const alternatives = await getAlternatives(a, id);
    expect(alternatives?.alternatives.map((w) => [w.letter, w.name, w.now])).toEqual([
      ["A", "Open road", false],
      ["B", "", true],
    ]);
    expect(alternatives?.free).toEqual(["C"]);
    const [open, plain] = alternatives?.alternatives ?? [];
    expect([open?.roadUse, plain?.roadUse]).toEqual([["Airbox opening, 48 mm"], []]);
    expect([open?.ready, plain?.ready.on]).toEqual([{ on: null, unknown: [], short: 0 }, null]);
    expect(open?.cautions).toContain("Louder on the intake side.");
    expect(open?.settings.some((s) => s.key === "airboxOpeningMm" && s.value === 48)).toBe(true);
    expect(open?.mixture).toHaveLength(1);
    expect(plain?.mixture).toEqual([]);
    expect((open?.grossMinor ?? 0) > (plain?.grossMinor ?? 0)).toBe(true);
    await takeAlternative(a, { id, version: 2, letter: "A" });
    expect((await getAlternatives(a, id))?.alternatives.map((w) => w.now)).toEqual([true, false]);
    await expect(keepAlternative(a, { id, version: 2, letter: "C", name: "" })).rejects.toMatchObject({
      kind: "conflict",
    });
    await dropAlternative(a, { id, version: 3, letter: "A" });
    await expect(takeAlternative(a, { id, version: 3, letter: "A" })).rejects.toThrow("no alternative A");
    expect(await b.read.quoteAlternative.findMany({})).toEqual([]);
  });
});

describe("a finding that is quoted", () => {
  it("is quoted with the variation, open again after a no, quoted again by a revision, and agreed with the yes", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { state: "inWork" } }));
    const { findingId } = await addFinding(a, {
      jobId,
      stepId: undefined,
      text: "Inlet boot is cracked",
    } as Parameters<typeof addFinding>[1]);
    const state = async () => (await a.read.finding.findUniqueOrThrow({ where: { id: findingId } })).state;
    const { bikeId, packageId } = ready;
    const id = await createQuote(a, { bikeId, packageId, variationOfId: jobId, findingId });
    expect(await state()).toBe("quoted");
    await sendQuote(a, { id, version: 1, origin: ORIGIN });
    await declineQuote(a, { id, version: 2, reason: "Later" });
    expect(await state()).toBe("open");
    await reviseQuote(a, { id, version: 3 });
    expect(await state()).toBe("quoted");
    const { revisionId } = await sendQuote(a, { id, version: 4, origin: ORIGIN });
    const { hash } = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    const made = await acceptQuote(a, yes({ id, revisionId, hash: hash ?? "", token: "" }));
    expect(made.jobId).toBe(jobId);
    expect(await state()).toBe("agreed");
  });

  it("of another job stays as it is", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const one = await acceptQuote(a, yes(await sentQuote(a, ready)));
    const two = await acceptQuote(a, yes(await sentQuote(a, ready)));
    const { id: findingId } = await a.write((tx) =>
      tx.finding.create({
        data: { jobId: one.jobId, text: "Chain is dry", createdAt: a.now },
        select: { id: true },
      }),
    );
    const { bikeId, packageId } = ready;
    await createQuote(a, { bikeId, packageId, variationOfId: two.jobId, findingId });
    expect((await a.read.finding.findUniqueOrThrow({ where: { id: findingId } })).state).toBe("open");
  });
});

describe("figures of quotes", () => {
  // Brown, Cai and DasGupta 2001 give the Wilson interval; 8 of 10 at 95 %: 0.490 to 0.943 (checked by the formula by hand).
  it("give a share's likely range, never outside 0 to 1", () => {
    expect(wilson(8, 10).low).toBeCloseTo(0.4902, 4);
    expect(wilson(8, 10).high).toBeCloseTo(0.9433, 4);
    expect(wilson(0, 3)).toEqual({ low: 0, high: expect.closeTo(0.5615, 4) });
    expect(wilson(0, 0)).toEqual({ low: 0, high: 1 });
  });

  it("count what waits as sent and leave it out of the rate", () => {
    const fact = (state: "won" | "lost" | "open", grossMinor: number) => ({
      package: "P",
      month: "2026-11",
      state,
      grossMinor,
    });
    const [line] = winLines([fact("won", 100), fact("lost", 50), fact("open", 30)], (f) => f.package);
    expect(line).toMatchObject({
      sent: 3,
      won: 1,
      lost: 1,
      open: 1,
      rate: 0.5,
      wonMinor: 100,
      sentMinor: 180,
    });
  });

  it("are of the months asked for, by month and by package, and of one shop alone", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    await acceptQuote(a, yes(await sentQuote(a, ready)));
    const no = await sentQuote(a, ready);
    await declineQuote(a, { id: no.id, version: 2, reason: "Too dear" });
    await sentQuote(a, ready);
    await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    const year = { from: "2025-12-01", to: "2026-11-30" };
    const figures = await quoteFigures(a, year);
    expect(figures.months).toHaveLength(12);
    expect(figures.months.at(-1)).toMatchObject({ key: "2026-11", sent: 3, won: 1, lost: 1, open: 1 });
    expect(figures.packages.map((p) => [p.key, p.sent])).toEqual([["Open-road breathing", 3]]);
    expect(figures.reasons.map((r) => r.reason)).toEqual(["Too dear"]);
    const afterwards = await quoteFigures(as(a, { now: later(60) }), year);
    expect(afterwards.whole).toMatchObject({ won: 1, lost: 2, open: 0 });
    expect(
      (await quoteFigures(as(a, { now: later(400) }), { from: "2027-01-01", to: "2027-12-31" })).whole.sent,
    ).toBe(0);
    expect((await quoteFigures(b, year)).whole.sent).toBe(0);

    // On days of the shop's clock, with the quotes behind them that come to the same.
    const today = { from: "2026-11-25", to: "2026-11-25" };
    const narrowed = await quoteFigures(a, today);
    expect(narrowed.months).toEqual([figures.months.at(-1)]);
    expect(narrowed.whole).toEqual(figures.whole);
    const { quotes, whole } = await quotesBehind(a, today, "Open-road breathing", 500);
    expect(whole).toEqual({ ...narrowed.packages[0], key: "all" });
    expect(quotes.reduce((sum, one) => sum + one.grossMinor, 0)).toBe(narrowed.whole.sentMinor);
    expect(quotes.map((one) => one.state)).toEqual(["open", "lost", "won"]);
    expect((await quotesBehind(a, today, "No package", 500)).quotes).toEqual([]);
    expect((await quotesBehind(a, today, undefined, 2)).more).toBe(true);
    for (const other of ["2026-11-24", "2026-11-26"])
      expect((await quoteFigures(a, { from: other, to: other })).whole.sent).toBe(0);
    expect((await quoteFigures(b, today)).whole.sent).toBe(0);
  });
});
