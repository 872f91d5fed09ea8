import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { getQuote } from "@/lib/data/quotes/get";
import { askByLink } from "@/lib/data/quotes/questions";
import { remindQuote, setCallOn } from "@/lib/data/quotes/remind";
import { type QuoteRound, quoteRound } from "@/lib/data/quotes/rounds";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { nodeArgs } from "../support/compiled";
import { ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

// Half past eleven on 25 November 2026 in the first shop's zone; quotes sent then are valid until 9 December.
const SENT = Date.parse("2026-11-25T00:30:00Z");
const HOUR = 3_600_000;
const later = (days: number, hours = 0) => new Date(SENT + days * 24 * HOUR + hours * HOUR);
const root = fileURLToPath(new URL("../..", import.meta.url));

const wants = (shop: ShopHandle, remindAfterDays: number | null, remindBeforeDays: number | null) =>
  shop.write((tx) => tx.settings.update({ where: { id: 1 }, data: { remindAfterDays, remindBeforeDays } }));
const round = (shop: ShopHandle, now: Date): Promise<QuoteRound> => quoteRound(as(shop, { now }), ORIGIN);
const reminders = (shop: ShopHandle) =>
  shop.read.mail.findMany({
    where: { subject: { contains: "waits for your answer" } },
    orderBy: { id: "asc" },
  });

describe("a round of reminders", () => {
  it("leaves one mail for each quote without an answer once its days are over, with a link that opens, in this shop alone", async () => {
    const { a, b } = await twoShops();
    await wants(a, 5, null);
    const sent = await sentQuote(a, await readyToQuote(a));
    const theirs = await sentQuote(b, await readyToQuote(b));
    expect(await round(a, later(4))).toEqual({ expired: 0, reminded: 0 });
    expect(await round(a, later(5))).toEqual({ expired: 0, reminded: 1 });
    expect(await round(a, later(5, 1))).toEqual({ expired: 0, reminded: 0 });
    expect(await round(a, later(9))).toEqual({ expired: 0, reminded: 0 });
    const [mail, ...more] = await reminders(a);
    expect(more).toEqual([]);
    expect(mail).toMatchObject({ to: "customer@example.com", state: "waiting" });
    expect(mail?.text).toMatch(new RegExp(`${ORIGIN}/c/${a.slug}/[\\w-]{27}\\n`));
    expect(await a.read.customerLink.count({ where: { revisionId: sent.revisionId, revokedAt: null } })).toBe(
      2,
    );
    expect((await getQuote(a, sent.id, { margin: true }))?.remindedAt).toEqual(later(5));
    // The second shop set no days, so nobody there is written to.
    expect(await round(b, later(9))).toEqual({ expired: 0, reminded: 0 });
    expect(await reminders(b)).toEqual([]);
    expect((await b.read.quote.findUniqueOrThrow({ where: { id: theirs.id } })).remindedAt).toBeNull();
  });

  it("goes so many days before the last one too, whichever comes first, but never on the day of sending", async () => {
    const { a } = await twoShops();
    await wants(a, null, 3);
    const ready = await readyToQuote(a);
    await sentQuote(a, ready);
    expect((await round(a, later(10))).reminded).toBe(0);
    expect((await round(a, later(11))).reminded).toBe(1);
    await wants(a, 30, 20);
    await sentQuote(a, ready);
    expect((await round(a, later(0, 2))).reminded).toBe(0);
    expect((await round(a, later(1))).reminded).toBe(1);
  });

  it("reaches one that is due behind any number that are not yet", async () => {
    const { a, b } = await twoShops();
    await wants(a, 5, null);
    const { id } = await sentQuote(a, await readyToQuote(a));
    const due = await a.read.quote.findUniqueOrThrow({ where: { id } });
    // Older rows, sent an hour after midnight of the next day: of those the fifth day after has not come.
    await a.write((tx) =>
      tx.quote.createMany({
        data: Array.from({ length: 60 }, (_, n) => ({
          ...due,
          id: -1 - n,
          sequence: 5000 + n,
          number: `late ${n}`,
          sentAt: later(0, 14),
        })),
      }),
    );
    expect(await round(a, later(5))).toEqual({ expired: 0, reminded: 1 });
    expect((await a.read.quote.findUniqueOrThrow({ where: { id } })).remindedAt).toEqual(later(5));
    expect(await a.read.quote.count({ where: { remindedAt: null } })).toBe(60);
    expect(await reminders(b)).toEqual([]);
  });

  it("never goes at night: only from 8 to before 18 o'clock on the shop's own clock", async () => {
    const { a, b } = await twoShops();
    for (const shop of [a, b]) {
      await wants(shop, 1, null);
      await sentQuote(shop, await readyToQuote(shop));
    }
    // 11:30 in the first shop is 01:30 in the second, in Norway.
    expect([(await round(a, later(3))).reminded, (await round(b, later(3))).reminded]).toEqual([1, 0]);
    await a.write((tx) => tx.quote.updateMany({ data: { remindedAt: null } }));
    const at = async (hours: number) =>
      (await round(a, new Date(later(3).getTime() + hours * HOUR))).reminded;
    expect([await at(6.5), await at(12), await at(20.4)]).toEqual([0, 0, 0]);
    expect(await at(20.5)).toBe(1);
    expect((await round(b, later(3, 7))).reminded).toBe(1);
  });

  it("leaves out who answered, who has no address, who waits for the shop's answer, and who is to be called later", async () => {
    const { a } = await twoShops();
    await wants(a, 2, null);
    const ready = await readyToQuote(a);
    await acceptQuote(a, yes(await sentQuote(a, ready)));
    const asked = await sentQuote(a, ready);
    await askByLink(a, { revisionId: asked.revisionId, text: "When could it be?" });
    const called = await sentQuote(a, ready);
    await setCallOn(a, { id: called.id, version: 2, callOn: "2026-11-30" });
    expect((await round(a, later(3))).reminded).toBe(0);
    expect((await round(a, later(5))).reminded).toBe(1);
    expect((await a.read.quote.findUniqueOrThrow({ where: { id: called.id } })).remindedAt).toEqual(later(5));
    await a.write((tx) => tx.customer.updateMany({ data: { email: "" } }));
    await sentQuote(a, ready);
    expect((await round(a, later(6))).reminded).toBe(0);
  });

  it("counts anew when a quote is revised and sent again, and not after the desk reminded by hand", async () => {
    const { a } = await twoShops();
    await wants(a, 2, null);
    const { id } = await sentQuote(a, await readyToQuote(a));
    await remindQuote(as(a, { now: later(1) }), { id, version: 2, words: "", origin: ORIGIN });
    expect((await round(a, later(3))).reminded).toBe(0);
    const again = as(a, { now: later(4) });
    await reviseQuote(again, { id, version: 3 });
    await sendQuote(again, { id, version: 4, origin: ORIGIN });
    expect((await round(a, later(5))).reminded).toBe(0);
    expect((await round(a, later(6))).reminded).toBe(1);
    expect(await reminders(a)).toHaveLength(2);
  });

  it("tells the desk who changed the quote when its own reminder comes second", async () => {
    const { a } = await twoShops();
    await wants(a, 2, null);
    const { id } = await sentQuote(a, await readyToQuote(a));
    const system = { personId: "system", name: "Throttlewright", role: "system" as const, staffId: null };
    await quoteRound(as(a, { now: later(2), by: system }), ORIGIN);
    await expect(
      remindQuote(as(a, { now: later(2) }), { id, version: 2, words: "", origin: ORIGIN }),
    ).rejects.toThrow("Throttlewright reminded of it");
    expect(await reminders(a)).toHaveLength(1);
  });

  it("is one mail for each quote from many rounds at once, and from two processes", async () => {
    const { a } = await twoShops();
    await wants(a, 2, null);
    const ready = await readyToQuote(a, 9);
    for (let n = 0; n < 4; n++) await sentQuote(a, ready);
    const rounds = await Promise.all(Array.from({ length: 5 }, () => round(a, later(2))));
    expect(rounds.reduce((sum, one) => sum + one.reminded, 0)).toBe(4);
    for (let n = 0; n < 8; n++) await sentQuote(a, ready);
    const starts = await Promise.all([atStart(a), atStart(a)]);
    const both = await Promise.all(starts.map((go) => go()));
    expect(both.reduce((sum, one) => sum + one.reminded, 0)).toBe(8);
    const numbers = (await reminders(a)).map((m) => m.subject);
    expect(numbers).toHaveLength(12);
    expect(new Set(numbers).size).toBe(12);
  });
});

/** A process of its own at the start line of its round. */
async function atStart(shop: ShopHandle): Promise<() => Promise<QuoteRound>> {
  const child: ChildProcess = spawn(
    process.execPath,
    [...nodeArgs("tests/support/oneRound.ts"), shop.slug, later(2).toISOString()],
    { cwd: root, env: process.env, stdio: ["pipe", "pipe", "pipe"] },
  );
  let said = "";
  let complained = "";
  child.stderr?.on("data", (chunk) => {
    complained += chunk;
  });
  const ended = new Promise<void>((done) => child.on("close", () => done()));
  await new Promise<void>((there, failed) => {
    child.stdout?.on("data", (chunk) => {
      said += chunk;
      if (said.includes("ready")) there();
    });
    child.on("close", () => failed(new Error(`The round ended early: ${complained}`)));
  });
  return async () => {
    child.stdin?.write("go\n");
    await ended;
    const answer = said.split("\n").find((line) => line.startsWith("{"));
    if (!answer) throw new Error(`The round said nothing: ${complained}`);
    return JSON.parse(answer) as QuoteRound;
  };
}

describe("a quote whose last day is over", () => {
  it("expires by itself, at night too, once, and is reminded of no more", async () => {
    const { a, b } = await twoShops();
    await wants(a, 2, 2);
    const { id, revisionId, hash } = await sentQuote(a, await readyToQuote(a));
    await sentQuote(b, await readyToQuote(b));
    expect(await round(a, new Date("2026-12-09T12:59:00Z"))).toEqual({ expired: 0, reminded: 0 });
    expect(await round(a, new Date("2026-12-09T13:01:00Z"))).toEqual({ expired: 1, reminded: 0 });
    expect(await round(a, later(15))).toEqual({ expired: 0, reminded: 0 });
    expect(await a.read.quote.findUniqueOrThrow({ where: { id } })).toMatchObject({ state: "expired" });
    expect((await b.read.quote.findFirstOrThrow()).state).toBe("sent");
    await expect(acceptQuote(a, yes({ id, revisionId, hash, token: "" }))).rejects.toThrow("is expired");
    const today = await getToday(as(a, { now: later(15) }), { quotes: true, invoices: false, stock: false });
    expect(today.quotes.map((q) => [q.id, q.endsInDays < 0])).toEqual([[id, true]]);
    await reviseQuote(as(a, { now: later(15) }), { id, version: 3 });
    expect((await a.read.quote.findUniqueOrThrow({ where: { id } })).state).toBe("draft");
  });

  it("gives its finding back to be quoted again, and takes it up when it is revised", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    const { id: findingId } = await a.write((tx) =>
      tx.finding.create({ data: { jobId, text: "Boot is cracked", createdAt: a.now }, select: { id: true } }),
    );
    const { bikeId, packageId } = ready;
    const id = await createQuote(a, { bikeId, packageId, variationOfId: jobId, findingId });
    await sendQuote(a, { id, version: 1, origin: ORIGIN });
    const state = async () => (await a.read.finding.findUniqueOrThrow({ where: { id: findingId } })).state;
    expect(await state()).toBe("quoted");
    await round(a, later(16));
    expect(await state()).toBe("open");
    await reviseQuote(as(a, { now: later(16) }), { id, version: 3 });
    expect(await state()).toBe("quoted");
  });
});
