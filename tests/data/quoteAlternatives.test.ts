import { describe, expect, it } from "vitest";
import { type Accepting, acceptForCustomer, acceptQuote } from "@/lib/data/acceptance/accept";
import { hashOf } from "@/lib/data/common/hash";
import { storedQuote } from "@/lib/data/documents/quote";
import { dropAlternative, keepAlternative } from "@/lib/data/quotes/alternatives";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { quoteFacts } from "@/lib/data/quotes/facts";
import { getQuote } from "@/lib/data/quotes/get";
import { quoteProof } from "@/lib/data/quotes/proof";
import { sendQuote } from "@/lib/data/quotes/send";
import { shownQuote } from "@/lib/data/quotes/shown";
import { offerExtras } from "@/lib/data/quotes/terms";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { BREATHING, ORIGIN, readyToQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const OPEN = ["opening", "main", "breather"];
const SNORKEL = ["snorkel", "breather"];
const CARE = ["breather"];

/** A draft that stands as A (the opening), with B (the snorkel out) and C (care alone) kept, the needle and the snorkel as extras. */
async function threeAlternatives(shop: ShopHandle) {
  const ready = await readyToQuote(shop, 5);
  const id = await createQuote(shop, { bikeId: ready.bikeId, packageId: ready.packageId });
  let version = 1;
  const tick = (choices: string[]) => chooseOptions(shop, { id, version: version++, choices, touched: "" });
  await keepAlternative(shop, { id, version, letter: "A", name: "Open road" });
  await tick(SNORKEL);
  await keepAlternative(shop, { id, version, letter: "B", name: "" });
  await tick(CARE);
  await keepAlternative(shop, { id, version, letter: "C", name: "Only care" });
  await offerExtras(shop, { id, version: version++, extras: ["check", "snorkel"] });
  await tick(OPEN);
  return { id, version, ready };
}

const sendWith = async (shop: ShopHandle, alternatives: string[]) => {
  const { id, version, ready } = await threeAlternatives(shop);
  const { revisionId } = await sendQuote(shop, { id, version, origin: ORIGIN, alternatives });
  return { id, revisionId, version: version + 1, ready };
};

const said = (revisionId: number, shownHash: string, more: Partial<Accepting> = {}): Accepting => ({
  ...yes({ id: 0, revisionId, hash: shownHash, token: "" }),
  ...more,
});

describe("alternatives that go along with a quote", () => {
  it("are those the desk ticks, each with its total, hours, settings and curve, and none unless it does", async () => {
    const { a } = await twoShops();
    const { revisionId } = await sendWith(a, ["B", "A"]);
    const shown = await shownQuote(a, revisionId);
    expect(shown?.printed.alternatives?.map((w) => w.letter)).toEqual(["A", "B"]);
    expect(shown?.printed.alternative).toEqual({ letter: "A", name: "Open road" });
    const [open, snorkel] = shown?.printed.alternatives ?? [];
    expect(open).toMatchObject({ grossMinor: shown?.printed.grossMinor, roadUse: true });
    expect(open?.curve).toHaveLength(15);
    expect(open?.curve.some((p) => Math.abs(p.before - p.after) > 0.005)).toBe(true);
    expect(snorkel?.settings.find((s) => s.setting === "snorkelFitted")?.value).toBe(0);
    expect(JSON.stringify(shown)).not.toMatch(/costE4|costMinor|costPerHour/);
    const mail = await a.read.mail.findFirstOrThrow({ where: { subject: { startsWith: "Quote 1001" } } });
    expect(mail.text).toMatch(/choose between:\n- A, Open road: \$[\d.]+\n- B: \$[\d.]+/);

    const { a: plain } = await twoShops();
    const alone = await sendWith(plain, []);
    expect((await shownQuote(plain, alone.revisionId))?.printed.alternatives).toBeUndefined();
  });

  it("have the quote itself beside them where it is none of them, and are three at most", async () => {
    const { a } = await twoShops();
    const { id, version } = await threeAlternatives(a);
    await chooseOptions(a, { id, version, choices: [...OPEN, "needle"], touched: "" });
    const send = (alternatives: string[]) =>
      sendQuote(a, { id, version: version + 1, origin: ORIGIN, alternatives });
    await expect(send(["A", "B", "C"])).rejects.toThrow("4 choices are too many");
    await dropAlternative(a, { id, version: version + 1, letter: "C" });
    await expect(send(["B", "C"])).rejects.toThrow("Alternative C is not kept any more");
    const { revisionId } = await send(["A", "B"]);
    const shown = await shownQuote(a, revisionId);
    expect(shown?.printed.alternatives?.map((w) => w.letter)).toEqual(["", "A", "B"]);
    expect(shown?.printed.alternative?.letter).toBe("");
    expect(shown?.printed.options.map((o) => o.key)).toContain("needle");
  });

  it("are not sent while one of them cannot be, and the desk is told before it ticks", async () => {
    const { a } = await twoShops();
    const { id, version } = await threeAlternatives(a);
    await a.write((tx) =>
      tx.quoteAlternative.updateMany({ where: { letter: "B" }, data: { choices: ["opening", "snorkel"] } }),
    );
    const quote = await getQuote(a, id, { margin: true });
    expect(quote?.draft?.alternatives.map((w) => [w.letter, w.now, w.stop !== ""])).toEqual([
      ["A", true, false],
      ["B", false, true],
      ["C", false, false],
    ]);
    await expect(sendQuote(a, { id, version, origin: ORIGIN, alternatives: ["A", "B"] })).rejects.toThrow(
      "Alternative B cannot go along",
    );
    expect((await a.read.quote.findUniqueOrThrow({ where: { id } })).state).toBe("draft");
  });
});

describe("the way a customer chooses", () => {
  it("comes to what computing its ticks afresh gives, with the extras that go with it, whatever happens meanwhile", async () => {
    const { a } = await twoShops();
    const { revisionId, ready } = await sendWith(a, ["A", "B", "C"]);
    const facts = await quoteFacts(a.read, {
      bikeId: ready.bikeId,
      works: [{ key: "", kind: "package", name: "Open-road breathing", recipe: BREATHING }],
      choices: [...CARE, "snorkel", "check"],
      conditions: { altitudeM: 410, season: "spring", temperatureC: null, humidityPercent: null },
      now: a.now,
    });
    const first = await shownQuote(a, revisionId, { alternative: "C", extras: ["snorkel", "check"] });
    expect(first?.printed.grossMinor).toBe(computeQuote(facts).price.grossMinor);
    expect(first?.printed.acknowledgements.map((k) => k.key)).toEqual(["starting-point"]);
    // The snorkel stands against the opening of A, is part of B, and may be added to C.
    const extras = async (alternative: string) =>
      (await shownQuote(a, revisionId, { alternative }))?.extras.map((e) => e.key);
    expect([await extras("A"), await extras("B"), await extras("C")]).toEqual([
      ["check"],
      ["check"],
      ["snorkel", "check"],
    ]);
    await a.write((tx) => tx.labourGrade.updateMany({ data: { ratePerHourMinor: 99_900 } }));
    const jet = await a.read.part.findFirstOrThrow({ where: { code: "RM-142.5" } });
    await recordMove(a, { partId: jet.id, kind: "scrap", quantityMilli: -5000, why: "bent" });
    const later = await shownQuote(a, revisionId, { alternative: "C", extras: ["snorkel", "check"] });
    expect(later?.hash).toBe(first?.hash);
  });

  it("is the quote as sent where the address asks for none, for its own, or for one that is not offered, which is said", async () => {
    const { a } = await twoShops();
    const { revisionId } = await sendWith(a, ["A", "C"]);
    const plain = await shownQuote(a, revisionId);
    expect(await shownQuote(a, revisionId, { alternative: "A" })).toEqual(plain);
    for (const alternative of ["B", "Z", "", "<b>"]) {
      const altered = await shownQuote(a, revisionId, { alternative });
      expect(altered).toEqual({ ...plain, strayed: true });
    }
    expect(await shownQuote(a, revisionId, { extras: ["made-up"] })).toEqual({ ...plain, strayed: true });
    const moved = await shownQuote(a, revisionId, { alternative: "A", extras: ["check", "snorkel"] });
    expect(moved?.extras.filter((e) => e.taken).map((e) => e.key)).toEqual(["check"]);
  });

  it("loses an extra that does not go with it, by name", async () => {
    const { a } = await twoShops();
    const { id, version } = await threeAlternatives(a);
    await chooseOptions(a, { id, version, choices: CARE, touched: "" });
    const { revisionId } = await sendQuote(a, {
      id,
      version: version + 1,
      origin: ORIGIN,
      alternatives: ["A", "C"],
    });
    const onOpen = await shownQuote(a, revisionId, { alternative: "A", extras: ["snorkel", "check"] });
    expect(onOpen).toMatchObject({ strayed: false, leftOut: ["Snorkel out only"] });
    const onCare = await shownQuote(a, revisionId, { alternative: "C", extras: ["snorkel", "check"] });
    expect(onCare).toMatchObject({ strayed: false, leftOut: [] });
  });

  it("is accepted as a revision of its own, once from however many places, and its proof says which", async () => {
    const { a, b } = await twoShops();
    const { id, revisionId } = await sendWith(a, ["A", "B", "C"]);
    const shown = await shownQuote(a, revisionId, { alternative: "C", extras: ["check"] });
    if (!shown) throw new Error("It is shown.");
    const input = said(revisionId, shown.hash, { alternative: "C", extras: ["check"] });
    const all = await Promise.all(Array.from({ length: 6 }, () => acceptQuote(a, input)));
    expect(new Set(all.map((one) => one.jobId)).size).toBe(1);
    expect(all.filter((one) => !one.again)).toHaveLength(1);
    const proof = await quoteProof(a, id);
    expect(proof?.frozen).toMatchObject({
      revision: 2,
      madeFrom: 1,
      alternative: { letter: "C", name: "Only care" },
      taken: ["Spark and valve check"],
    });
    expect(proof).toMatchObject({ sound: true, acceptance: { same: true } });
    const steps = await a.read.step.findMany({ where: { jobId: all[0]?.jobId ?? 0 } });
    expect(
      steps
        .filter((s) => s.kind === "operation")
        .map((s) => s.key)
        .sort(),
    ).toEqual(["breather", "check"]);
    expect(await a.read.quote.findUniqueOrThrow({ where: { id } })).toMatchObject({
      revisionNumber: 2,
      grossMinor: shown.printed.grossMinor,
    });
    expect([await b.read.job.count(), await b.read.quoteRevision.count()]).toEqual([0, 0]);
  });

  it("makes no revision where it is the alternative that was sent", async () => {
    const { a } = await twoShops();
    const { id, revisionId } = await sendWith(a, ["A", "B"]);
    const shown = await shownQuote(a, revisionId, { alternative: "A" });
    await acceptQuote(a, said(revisionId, shown?.hash ?? "", { alternative: "A" }));
    expect(await a.read.quoteRevision.count({ where: { quoteId: id } })).toBe(1);
    expect((await quoteProof(a, id))?.frozen.alternative).toEqual({ letter: "A", name: "Open road" });
  });

  it("is refused where it was not offered or not shown, and nothing is made", async () => {
    const { a } = await twoShops();
    const { revisionId } = await sendWith(a, ["A", "B"]);
    const shown = await shownQuote(a, revisionId, { alternative: "B" });
    await expect(acceptQuote(a, said(revisionId, shown?.hash ?? "", { alternative: "C" }))).rejects.toThrow(
      "does not offer that alternative",
    );
    await expect(acceptQuote(a, said(revisionId, shown?.hash ?? ""))).rejects.toThrow(
      "What was shown is not",
    );
    await expect(
      acceptQuote(a, said(revisionId, shown?.hash ?? "", { alternative: "B", extras: ["snorkel"] })),
    ).rejects.toThrow("cannot be added");
    expect(await a.read.job.count()).toBe(0);
  });

  it("does not answer for a revision that the desk made and sent later", async () => {
    const { a } = await twoShops();
    const { id, revisionId, version } = await sendWith(a, ["A", "B"]);
    await reviseQuote(a, { id, version });
    const next = await sendQuote(a, { id, version: version + 1, origin: ORIGIN, alternatives: ["A", "B"] });
    const shown = await shownQuote(a, next.revisionId, { alternative: "A" });
    await acceptQuote(a, said(next.revisionId, shown?.hash ?? "", { alternative: "A" }));
    await expect(acceptQuote(a, said(revisionId, "0".repeat(64)))).rejects.toMatchObject({
      kind: "conflict",
    });
  });

  it("can be told to the desk with its extras", async () => {
    const { a } = await twoShops();
    const { id, revisionId } = await sendWith(a, ["A", "B"]);
    const shown = await shownQuote(a, revisionId, { alternative: "B", extras: ["check"] });
    const { agent: _, ...told } = said(revisionId, shown?.hash ?? "", {
      alternative: "B",
      extras: ["check"],
    });
    const made = await acceptForCustomer(a, { ...told, how: "by phone" });
    expect(made.again).toBe(false);
    const { frozen } = await a.read.quoteRevision.findFirstOrThrow({ where: { quoteId: id, number: 2 } });
    expect(hashOf(storedQuote(frozen))).toBe(shown?.hash);
    expect((await quoteProof(a, id))?.acceptance?.agent).toBe("told to Test Owner: by phone");
  });
});

describe("a choice whose kept facts give another total than was shown", () => {
  /** As if the product had come to reckon otherwise since the quote was sent: labour in the kept facts costs more. */
  async function dearer(shop: ShopHandle, revisionId: number) {
    const { facts } = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    const kept = facts as { grades: { ratePerHourMinor: number }[] };
    const grades = kept.grades.map((g) => ({ ...g, ratePerHourMinor: g.ratePerHourMinor + 1_000 }));
    await shop.write((tx) =>
      tx.quoteRevision.update({ where: { id: revisionId }, data: { facts: { ...kept, grades } } }),
    );
  }

  it("is refused with both amounts and a way on, makes nothing, and leaves the quote as sent to be accepted", async () => {
    const { a } = await twoShops();
    const { id, revisionId } = await sendWith(a, ["A", "C"]);
    const before = await shownQuote(a, revisionId, { alternative: "C" });
    const plain = await shownQuote(a, revisionId);
    await dearer(a, revisionId);
    const refusal = await acceptQuote(a, said(revisionId, before?.hash ?? "", { alternative: "C" })).catch(
      (c) => c,
    );
    expect(refusal).toMatchObject({ name: "Refusal", kind: "conflict" });
    expect(refusal.message).toMatch(/^“Only care” was offered at \$[\d.]+ and comes to \$[\d.]+ now/);
    expect(refusal.remedy).toContain("revise the quote and send it again");
    expect([await a.read.job.count(), await a.read.quoteRevision.count({ where: { quoteId: id } })]).toEqual([
      0, 1,
    ]);
    const shown = await shownQuote(a, revisionId, { alternative: "C" });
    expect(shown).toEqual({ ...plain, refused: { message: refusal.message, remedy: refusal.remedy } });
    expect(await acceptQuote(a, said(revisionId, plain?.hash ?? "", { alternative: "A" }))).toMatchObject({
      again: false,
    });
  });

  it("is refused for extras too, one or several, of the quote as sent", async () => {
    const { a } = await twoShops();
    const { id, version } = await threeAlternatives(a);
    await offerExtras(a, { id, version, extras: ["check", "needle"] });
    const { revisionId } = await sendQuote(a, { id, version: version + 1, origin: ORIGIN });
    const shown = await shownQuote(a, revisionId, { extras: ["needle"] });
    expect(shown?.refused).toBeNull();
    await dearer(a, revisionId);
    for (const extras of [["needle"], ["check", "needle"]]) {
      await expect(acceptQuote(a, said(revisionId, shown?.hash ?? "", { extras }))).rejects.toThrow(
        /was offered at .* and comes to/,
      );
      expect((await shownQuote(a, revisionId, { extras }))?.refused?.message).toContain("comes to");
    }
    expect(await a.read.job.count()).toBe(0);
  });
});
