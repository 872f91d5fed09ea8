import { describe, expect, it } from "vitest";
import { hashOf } from "@/lib/data/common/hash";
import { storedQuote } from "@/lib/data/documents/quote";
import { declineByLink, declineQuote, replaceQuote, reviseQuote } from "@/lib/data/quotes/answer";
import { getQuote } from "@/lib/data/quotes/get";
import { listQuotes } from "@/lib/data/quotes/list";
import { renewLink, sendQuote } from "@/lib/data/quotes/send";
import { shownQuote } from "@/lib/data/quotes/shown";
import { whatIfs } from "@/lib/data/quotes/whatIf";
import { chooseOptions, createQuote, setConditions } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { ORIGIN, readyToQuote, sentQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const OWNER = { margin: true };

async function draft(shop: ShopHandle, id: number) {
  const quote = await getQuote(shop, id, OWNER);
  if (!quote?.draft) throw new Error("not a draft");
  return { ...quote, draft: quote.draft };
}

describe("a new quote", () => {
  it("starts with the presets, the shop's altitude and the season of today, once per key", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    const input = { bikeId: ready.bikeId, packageId: ready.packageId, key: "new-quote-1" };
    const id = await createQuote(a, input);
    expect(await createQuote(a, input)).toBe(id);
    const quote = await draft(a, id);
    expect(quote).toMatchObject({
      number: "1001",
      state: "draft",
      validUntil: "2026-12-09",
      revisionNumber: 1,
    });
    expect(quote.draft.choice.chosen).toEqual(["opening", "main", "breather"]);
    // 25 November, southern hemisphere.
    expect(quote.conditions.season).toBe("spring");
    expect(await b.read.quote.count()).toBe(0);
  });

  it("charges the plan's minutes, opening once, and each part at its marked-up cost", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const id = await createQuote(a, ready);
    const { price, plan, parts, savedMinor } = (await draft(a, id)).draft;
    expect(plan.minutes).toBe(83);
    const minor = (key: string) => price.lines.find((l) => l.key === key)?.shownMinor;
    // 44 min and 39 min at 100.00 an hour.
    expect(minor("work-workshop")).toBe(7_333);
    expect(minor("opening-workshop")).toBe(6_500);
    // One package by itself: nobody would come once for each of its operations.
    expect(savedMinor).toBe(0);
    const jet = parts.find((p) => p.setting === "mainJet");
    expect(jet?.size).toBeGreaterThan(137.5);
    expect(jet?.code).toBe(`RM-${jet?.size}`);
    expect(jet?.note).toBe("2 in the drawer");
    // Cost 4.20 plus 100 %, and GST 10 % in the price.
    expect(minor(jet?.code ?? "")).toBe(924);
    expect(price.grossMinor).toBe(price.lines.reduce((sum, l) => sum + l.shownMinor, 0));
    expect(price.netMinor + price.taxMinor).toBe(price.grossMinor);
  });

  it("shows neither costs nor margin to those who may not see them, and says nothing of markup in its reasons", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    expect((await draft(a, id)).draft.price.marginBp).not.toBeNull();
    const seen = (await getQuote(a, id, { margin: false }))?.draft;
    expect(seen?.price).toMatchObject({ marginBp: null, costMinor: 0 });
    expect(seen?.price.lines.every((l) => l.costMinor === null)).toBe(true);
    expect(JSON.stringify(seen?.price.lines)).not.toMatch(/cost \d|markup/);
  });

  it("is refused for a package without a published revision", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    await a.write((tx) => tx.package.update({ where: { id: ready.packageId }, data: { active: false } }));
    await expect(createQuote(a, ready)).rejects.toThrow(/no published revision/);
  });
});

describe("ticking options", () => {
  it("lets the touched option stand, drops what cannot go with it, and changes plan, settings and price at once", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    const before = await draft(a, id);
    await chooseOptions(a, {
      id,
      version: 1,
      choices: ["opening", "snorkel", "main", "breather"],
      touched: "snorkel",
    });
    const after = await draft(a, id);
    expect(after.draft.choice.chosen).toEqual(["snorkel", "main", "breather"]);
    expect(after.draft.plan.minutes).toBe(before.draft.plan.minutes - 23);
    expect(after.draft.price.grossMinor).toBeLessThan(before.draft.price.grossMinor);
    expect(after.draft.acknowledgements).toEqual(["starting-point"]);
    const stored = await a.read.quote.findUniqueOrThrow({ where: { id } });
    expect(stored).toMatchObject({
      version: 2,
      grossMinor: after.draft.price.grossMinor,
      minutes: after.draft.plan.minutes,
    });
  });

  it("keeps a forced option with its reason, however often it is unticked", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    await chooseOptions(a, { id, version: 1, choices: ["opening"], touched: "main" });
    const { groups } = (await draft(a, id)).draft;
    const main = groups.flatMap((g) => g.options).find((o) => o.key === "main");
    expect(main).toMatchObject({ ticked: true, forced: true });
    expect(main?.because).toMatch(/runs lean on the delivered jet/);
  });

  it("prices an option with a fixed price by that alone: its work is in the plan and not in the labour", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    const before = (await draft(a, id)).draft;
    await chooseOptions(a, {
      id,
      version: 1,
      choices: ["opening", "main", "breather", "check"],
      touched: "check",
    });
    const after = (await draft(a, id)).draft;
    expect(after.plan.minutes).toBe(before.plan.minutes + 30);
    expect(after.price.grossMinor).toBe(before.price.grossMinor + 4_500);
  });

  it("tells the second of two people editing who was first, and changes nothing", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    const other = as(a, { by: { ...a.by, personId: "p2", name: "Maren Dask" } });
    await chooseOptions(other, { id, version: 1, choices: ["breather"], touched: "" });
    await expect(
      chooseOptions(a, { id, version: 1, choices: ["opening"], touched: "" }),
    ).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringMatching(/Maren Dask changed the options/),
    });
    expect((await draft(a, id)).draft.choice.chosen).toEqual(["breather"]);
  });

  it("asks for a bigger jet in cold low air than in hot high air", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    const exact = async () => (await draft(a, id)).draft.target.sheet?.carburettors[0]?.mainJet?.exact ?? 0;
    await setConditions(a, {
      id,
      version: 1,
      altitudeM: 0,
      season: "winter",
      temperatureC: 2,
      humidityPercent: 40,
    });
    const cold = await exact();
    await setConditions(a, {
      id,
      version: 2,
      altitudeM: 1_800,
      season: "summer",
      temperatureC: 35,
      humidityPercent: 60,
    });
    expect(cold).toBeGreaterThan((await exact()) + 2);
  });
});

describe("a sent quote", () => {
  it("is frozen with its hash, has a link of which only the hash is kept, and a mail in the mail queue", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    const id = await createQuote(a, ready);
    const sent = await sendQuote(a, { id, version: 1, origin: ORIGIN, key: "send-it-once" });
    expect(sent.link).toMatch(new RegExp(`^${ORIGIN}/c/${a.slug}/[A-Za-z0-9_-]{27}$`));
    expect(await sendQuote(a, { id, version: 1, origin: ORIGIN, key: "send-it-once" })).toEqual({
      ...sent,
      link: null,
      letter: null,
    });
    const token = sent.link?.split("/").at(-1) ?? "";
    const [link] = await a.read.customerLink.findMany();
    // Valid through 9 December in Sydney (UTC+11 in summer).
    expect(link).toMatchObject({ tokenHash: tokenHash(token), expiresAt: new Date("2026-12-09T13:00:00Z") });
    expect(JSON.stringify(await a.read.once.findMany())).not.toContain(token);
    const [mail] = await a.read.mail.findMany();
    expect(mail?.text).toContain(sent.link);
    expect(await b.read.mail.count()).toBe(0);

    const revision = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    expect(hashOf(storedQuote(revision.frozen))).toBe(revision.hash);
    await a.write((tx) => tx.labourGrade.updateMany({ data: { ratePerHourMinor: 99_000 } }));
    expect((await getQuote(a, id, OWNER))?.frozen?.grossMinor).toBe(revision.grossMinor);
    expect(JSON.stringify(revision.frozen)).not.toMatch(/costMinor|markup band/);
    await expect(chooseOptions(a, { id, version: 2, choices: [], touched: "" })).rejects.toThrow(
      /is sent, not a draft/,
    );
  });

  it("has a hash that does not depend on the order in which a database keeps keys", () => {
    expect(hashOf({ a: 1, b: { c: [1, { e: 2, d: 3 }] } })).toBe(
      hashOf({ b: { c: [1, { d: 3, e: 2 }] }, a: 1 }),
    );
    expect(hashOf({ a: 1 })).not.toBe(hashOf({ a: 2 }));
  });

  it("is not sent while a choice is missing or clashes", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    await chooseOptions(a, { id, version: 1, choices: [], touched: "" });
    await expect(sendQuote(a, { id, version: 2, origin: ORIGIN })).rejects.toThrow(/nothing is chosen/);
    expect(await a.read.customerLink.count()).toBe(0);
  });

  it("is revised into a new draft: the frozen one stays and its link stops", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const before = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    await reviseQuote(a, { id: sent.id, version: 2 });
    expect(await draft(a, sent.id)).toMatchObject({
      state: "draft",
      revisionNumber: 2,
      earlier: [{ number: 1 }],
    });
    expect(await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } })).toEqual(before);
    expect((await a.read.customerLink.findFirstOrThrow()).revokedAt).not.toBeNull();
    await expect(reviseQuote(a, { id: sent.id, version: 3 })).rejects.toThrow(/is draft/);
  });

  it("can be given a fresh link, which ends the one before", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const again = await renewLink(a, { id: sent.id, version: 2, origin: ORIGIN });
    const links = await a.read.customerLink.findMany({ orderBy: { id: "asc" } });
    expect(links.map((l) => l.revokedAt === null)).toEqual([false, true]);
    expect(links[1]?.tokenHash).toBe(tokenHash(again.link?.split("/").at(-1) ?? ""));
  });

  it("is declined with a reason, by the desk or by link, once", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const [one, two] = [await sentQuote(a, ready), await sentQuote(a, ready)];
    await declineQuote(a, { id: one.id, version: 2, reason: "Too loud" });
    await declineByLink(a, { revisionId: two.revisionId, reason: "Next year" });
    await declineByLink(a, { revisionId: two.revisionId, reason: "Next year" });
    expect(await getQuote(a, one.id, OWNER)).toMatchObject({ state: "declined", declineReason: "Too loud" });
    expect(await getQuote(a, two.id, OWNER)).toMatchObject({ state: "declined", declineReason: "Next year" });
    await expect(declineQuote(a, { id: one.id, version: 3, reason: "" })).rejects.toThrow(/is declined/);
  });

  it("is replaced by another package's quote for the same bike", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const sent = await sentQuote(a, ready);
    const id = await replaceQuote(a, { id: sent.id, version: 2, packageId: ready.packageId });
    expect((await getQuote(a, sent.id, OWNER))?.state).toBe("replaced");
    expect(await draft(a, id)).toMatchObject({ number: "1002", bike: { id: ready.bikeId } });
    await expect(replaceQuote(a, { id: sent.id, version: 3, packageId: ready.packageId })).rejects.toThrow(
      /is replaced/,
    );
  });
});

describe("a quote by link", () => {
  it("shows what was printed and nothing of stock, costs, reasons or the calculation", async () => {
    const { a } = await twoShops();
    const sent = await sentQuote(a, await readyToQuote(a));
    const shown = await shownQuote(a, sent.revisionId);
    expect(shown).toMatchObject({ state: "sent", hash: sent.hash, customerName: "Ines Valdborg" });
    expect(shown?.lines.reduce((sum, l) => sum + l.shownMinor, 0)).toBe(shown?.printed.grossMinor);
    expect(JSON.stringify(shown)).not.toMatch(/because|cost|partId|calculation|drawer|margin/i);
    await reviseQuote(a, { id: sent.id, version: 2 });
    expect(await shownQuote(a, sent.revisionId)).toBeNull();
  });

  it("stays open to say that it was declined there, and closes when the desk writes it down", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const [byLink, byDesk] = [await sentQuote(a, ready), await sentQuote(a, ready)];
    await declineByLink(a, { revisionId: byLink.revisionId, reason: "" });
    await declineQuote(a, { id: byDesk.id, version: 2, reason: "" });
    const open = async (revisionId: number) =>
      (await a.read.customerLink.findFirstOrThrow({ where: { revisionId } })).revokedAt === null;
    expect([await open(byLink.revisionId), await open(byDesk.revisionId)]).toEqual([true, false]);
    expect((await shownQuote(a, byLink.revisionId))?.state).toBe("declined");
  });
});

describe("what if", () => {
  it("tells of each free option what it would change, and of what comes and goes with it", async () => {
    const { a } = await twoShops();
    const id = await createQuote(a, await readyToQuote(a));
    const found = await whatIfs(a, id);
    const row = (key: string) => found?.rows.find((r) => r.key === key);
    expect(row("needle")).toMatchObject({ on: false, minutesMore: 35, also: [] });
    expect(row("snorkel")).toMatchObject({ on: false, minutesMore: -23, also: ["Airbox opening, 48 mm"] });
    expect(row("check")?.grossMore).toBe(4_500);
    // Comes back by itself while the airbox is opened.
    expect(row("main")).toBeUndefined();
    expect((await draft(a, id)).version).toBe(1);
  });
});

describe("the list of quotes", () => {
  it("is narrowed by state, calls a sent quote expired after its last day, and goes on where a page ended", async () => {
    const { a, b } = await twoShops();
    const ready = await readyToQuote(a);
    const sent = await sentQuote(a, ready);
    for (let n = 0; n < 51; n++) await createQuote(a, ready);
    const numbers = async (shop: ShopHandle, state?: "draft" | "sent" | "expired") =>
      (await listQuotes(shop, { state })).rows.map((row) => row.number);
    expect(await numbers(a, "sent")).toEqual(["1001"]);
    expect(await numbers(a, "expired")).toEqual([]);
    const later = as(a, { now: new Date("2026-12-10T00:30:00Z") });
    expect(await numbers(later, "sent")).toEqual([]);
    expect(await numbers(later, "expired")).toEqual(["1001"]);
    expect(await getQuote(later, sent.id, OWNER)).toMatchObject({ state: "expired" });
    const first = await listQuotes(a, {});
    expect(first.rows).toHaveLength(50);
    const second = await listQuotes(a, { after: first.next ?? 0 });
    expect(second).toMatchObject({ next: null, rows: [{ number: "1002" }, { number: "1001" }] });
    expect((await listQuotes(b, {})).rows).toEqual([]);
  });
});
