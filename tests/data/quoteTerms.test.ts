import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { hashOf } from "@/lib/data/common/hash";
import { storedQuote } from "@/lib/data/documents/quote";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { withExtras } from "@/lib/data/quotes/extras";
import { quoteFacts } from "@/lib/data/quotes/facts";
import { getQuote } from "@/lib/data/quotes/get";
import { storedFacts } from "@/lib/data/quotes/keptFacts";
import { sendQuote } from "@/lib/data/quotes/send";
import { shownQuote } from "@/lib/data/quotes/shown";
import {
  addLine,
  discountLine,
  discountQuote,
  offerExtras,
  removeLine,
  savePriceBook,
  setDeposit,
} from "@/lib/data/quotes/terms";
import { createQuote } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { BREATHING, ORIGIN, type Ready, readyToQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

async function draft(shop: ShopHandle): Promise<{ id: number; ready: Ready }> {
  const ready = await readyToQuote(shop, 5);
  return { id: await createQuote(shop, { bikeId: ready.bikeId, packageId: ready.packageId }), ready };
}
const seen = async (shop: ShopHandle, id: number) => {
  const quote = await getQuote(shop, id, { margin: true });
  if (!quote) throw new Error("The quote is there.");
  return quote;
};

describe("what is agreed on a quote beyond its package", () => {
  it("takes lines by hand, a line's discount, an amount off and a deposit, and the figures follow", async () => {
    const { a, b } = await twoShops();
    const { id } = await draft(a);
    const before = await seen(a, id);
    const gross = before.draft?.price.grossMinor ?? 0;
    const line = { id, name: "Header re-welded at Orme Welding", price: "88.00", cost: "60" };
    await addLine(a, { ...line, version: 1, kind: "outside" });
    await addLine(a, { id, version: 2, kind: "text", name: "Bike is collected by us", price: "", cost: "" });
    const work = before.draft?.price.lines.find((l) => l.kind === "labour")?.key ?? "";
    await discountLine(a, { id, version: 3, line: work, percent: 1000, why: "came back" });
    await discountQuote(a, { id, version: 4, how: "amount", amount: "12.50", why: "agreed by phone" });
    await setDeposit(a, { id, version: 5, how: "amount", amount: "100" });
    const after = await seen(a, id);
    const labour = before.draft?.price.lines.find((l) => l.key === work)?.shownMinor ?? 0;
    const wanted = gross + 8800 - Math.round(labour / 10) - 1250;
    expect(after.draft?.price.grossMinor).toBe(wanted);
    expect(after.draft?.depositMinor).toBe(10_000);
    expect(after.draft?.price.lines.find((l) => l.kind === "outside")).toMatchObject({ costMinor: 6000 });
    const row = await a.read.quote.findUniqueOrThrow({ where: { id } });
    expect([row.grossMinor, row.version]).toEqual([wanted, 6]);
    expect(await b.read.quote.findFirst({ where: {} })).toBeNull();
  });

  it("takes a line off with its discount, and goes back to the shop's deposit", async () => {
    const { a } = await twoShops();
    const { id } = await draft(a);
    const first = (await seen(a, id)).draft;
    await addLine(a, { id, version: 1, kind: "text", name: "Collecting", price: "40", cost: "" });
    await discountLine(a, { id, version: 2, line: "hand-1", percent: 5000, why: "half" });
    expect((await seen(a, id)).draft?.price.grossMinor).toBe((first?.price.grossMinor ?? 0) + 2000);
    await removeLine(a, { id, version: 3, line: "hand-1" });
    await setDeposit(a, { id, version: 4, how: "none", amount: "" });
    const last = (await seen(a, id)).draft;
    expect([last?.price.grossMinor, last?.depositMinor]).toEqual([first?.price.grossMinor, 0]);
    await setDeposit(a, { id, version: 5, how: "shop", amount: "" });
    expect((await seen(a, id)).draft?.depositMinor).toBe(first?.depositMinor);
  });

  it("names the field of an amount that cannot be read, changes nothing, and tells the second of two editing", async () => {
    const { a } = await twoShops();
    const { id } = await draft(a);
    const line = { id, version: 1, kind: "outside" as const, name: "Weld" };
    await expect(addLine(a, { ...line, price: "a lot", cost: "1" })).rejects.toMatchObject({
      fields: { price: expect.stringContaining("Enter an amount") },
    });
    await expect(addLine(a, { ...line, price: "20", cost: "" })).rejects.toMatchObject({
      fields: { cost: expect.any(String) },
    });
    await addLine(a, { ...line, price: "20", cost: "10" });
    await expect(setDeposit(a, { id, version: 1, how: "none", amount: "" })).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringContaining("Test Owner added a line to it"),
    });
  });

  it("says that a discount's line has gone, and counts it no longer", async () => {
    const { a } = await twoShops();
    const { id } = await draft(a);
    const gross = (await seen(a, id)).draft?.price.grossMinor;
    await addLine(a, { id, version: 1, kind: "text", name: "Collecting", price: "40", cost: "" });
    await discountLine(a, { id, version: 2, line: "hand-1", percent: 5000, why: "half" });
    await a.write((tx) =>
      tx.quoteRevision.updateMany({
        where: { quoteId: id },
        data: { terms: { lines: [], lineDiscounts: [{ line: "hand-1", bp: 5000, why: "half" }] } },
      }),
    );
    const { draft: now } = await seen(a, id);
    expect(now?.price.grossMinor).toBe(gross);
    expect(now?.warnings.map((w) => w.message).join(" ")).toContain("“hand-1”, which is no longer part");
  });

  it("keeps what was agreed when a sent quote is revised, and rounds down and warns by the price book", async () => {
    const { a } = await twoShops();
    const { id } = await draft(a);
    await addLine(a, { id, version: 1, kind: "text", name: "Collecting", price: "40", cost: "" });
    await savePriceBook(a, {
      version: 0,
      roundDownTo: "5",
      pricesFrom: "2026-01-01",
      pricesUntil: "2026-11-30",
    });
    const now = (await seen(a, id)).draft;
    expect((now?.price.grossMinor ?? 1) % 500).toBe(0);
    expect(now?.warnings.map((w) => w.message).join(" ")).toContain("good until 2026-11-30");
    expect(now?.sendable).toBe(true);
    await sendQuote(a, { id, version: 2, origin: ORIGIN });
    await reviseQuote(a, { id, version: 3 });
    expect((await seen(a, id)).draft?.agreed.lines.map((l) => l.name)).toEqual(["Collecting"]);
    await expect(
      savePriceBook(a, { version: 0, roundDownTo: "", pricesFrom: "", pricesUntil: "" }),
    ).rejects.toMatchObject({ kind: "conflict" });
  });

  it("never shows what a line costs to someone who may not see margins", async () => {
    const { a } = await twoShops();
    const { id } = await draft(a);
    await addLine(a, { id, version: 1, kind: "outside", name: "Weld", price: "88.00", cost: "61.23" });
    const quote = await getQuote(a, id, { margin: false });
    // As a number of its own: the digits may stand by chance within a longer one.
    expect(JSON.stringify(quote)).not.toMatch(/(?<![\d.])6123(?!\d)/);
  });
});

/** A quote sent with the needle and the fixed-price check offered as extras. */
async function offering(shop: ShopHandle) {
  const { id, ready } = await draft(shop);
  await offerExtras(shop, { id, version: 1, extras: ["needle", "check", "snorkel"] });
  const { revisionId } = await sendQuote(shop, { id, version: 2, origin: ORIGIN });
  return { id, revisionId, ready };
}

describe("extras that the customer may add", () => {
  it("are offered only where they take nothing off the quote, with what each adds", async () => {
    const { a } = await twoShops();
    const { revisionId } = await offering(a);
    const shown = await shownQuote(a, revisionId);
    // The snorkel stands against the airbox opening, which is chosen.
    expect(shown?.extras.map((e) => e.key)).toEqual(["needle", "check"]);
    expect(shown?.extras[1]).toMatchObject({ grossMinor: 4500, taken: false });
    const facts = JSON.stringify(shown);
    expect(facts).not.toContain("costE4");
    expect(facts).not.toContain("costPerHourMinor");
  });

  it("change the total as they are ticked, and the sum is what computing that choice afresh gives", async () => {
    const { a } = await twoShops();
    const { revisionId, ready } = await offering(a);
    const with2 = await shownQuote(a, revisionId, { extras: ["needle", "check", "nonsense"] });
    expect(with2?.extras.map((e) => e.taken)).toEqual([true, true]);
    const facts = await quoteFacts(a.read, {
      now: a.now,
      bikeId: ready.bikeId,
      works: [{ key: "", kind: "package", name: "Open-road breathing", recipe: BREATHING }],
      choices: ["opening", "main", "breather", "needle", "check"],
      conditions: { altitudeM: 410, season: "spring", temperatureC: null, humidityPercent: null },
    });
    expect(with2?.printed.grossMinor).toBe(computeQuote(facts).price.grossMinor);
  });

  it("give the same text and hash from the kept facts whatever stock and prices do meanwhile", async () => {
    const { a } = await twoShops();
    const { revisionId } = await offering(a);
    const hash = (await shownQuote(a, revisionId, { extras: ["needle"] }))?.hash;
    const jet = await a.read.part.findFirstOrThrow({ where: { code: "RM-142.5" } });
    await recordMove(a, { partId: jet.id, kind: "scrap", quantityMilli: -5000, why: "bent" });
    await a.write((tx) => tx.labourGrade.updateMany({ data: { ratePerHourMinor: 99_900 } }));
    expect((await shownQuote(a, revisionId, { extras: ["needle"] }))?.hash).toBe(hash);
    const row = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    const facts = storedFacts(row.facts);
    if (!facts) throw new Error("Facts are kept where extras are offered.");
    expect(hashOf(await withExtras(storedQuote(row.frozen), facts, ["needle"]))).toBe(hash);
  });

  it("are accepted as a revision of its own, with the proof of what was shown, and its job does that work", async () => {
    const { a, b } = await twoShops();
    const { id, revisionId } = await offering(a);
    const shown = await shownQuote(a, revisionId, { extras: ["needle", "check"] });
    if (!shown) throw new Error("It is shown.");
    const said = { ...yes({ id, revisionId, hash: shown.hash, token: "" }), extras: ["needle", "check"] };
    const made = await acceptQuote(a, said);
    const quote = await a.read.quote.findUniqueOrThrow({ where: { id }, include: { revisions: true } });
    expect([quote.state, quote.revisionNumber, quote.grossMinor]).toEqual([
      "accepted",
      2,
      shown.printed.grossMinor,
    ]);
    const accepted = await a.read.acceptance.findFirstOrThrow({ include: { revision: true } });
    expect(accepted.revision.number).toBe(2);
    expect(hashOf(storedQuote(accepted.revision.frozen))).toBe(accepted.shownHash);
    expect(storedQuote(accepted.revision.frozen).taken).toEqual(["Needle reseated", "Spark and valve check"]);
    const steps = await a.read.step.findMany({ where: { jobId: made.jobId } });
    expect(steps.map((s) => s.key)).toEqual(expect.arrayContaining(["needle", "check"]));
    const link = await a.read.customerLink.findFirstOrThrow({ where: { purpose: "quote" } });
    expect(link.revisionId).toBe(accepted.revisionId);
    expect(await acceptQuote(a, said)).toMatchObject({ jobId: made.jobId, again: true });
    expect(await a.read.job.findMany({})).toHaveLength(1);
    expect(await b.read.job.findMany({})).toEqual([]);
  });

  it("are refused where they were not shown, not offered, or nothing was kept to compute them from", async () => {
    const { a } = await twoShops();
    const { id, revisionId } = await offering(a);
    const plain = await shownQuote(a, revisionId);
    const said = yes({ id, revisionId, hash: plain?.hash ?? "", token: "" });
    await expect(acceptQuote(a, { ...said, extras: ["needle"] })).rejects.toThrow(
      "What was shown is not this",
    );
    await expect(acceptQuote(a, { ...said, extras: ["snorkel"] })).rejects.toThrow("cannot be added");
    expect(await a.read.job.findMany({})).toEqual([]);
    expect(await acceptQuote(a, said)).toMatchObject({ again: false });
  });
});
