import { beforeEach, describe, expect, it } from "vitest";
import { keepAlternative } from "@/lib/data/quotes/alternatives";
import { getQuote } from "@/lib/data/quotes/get";
import { allowBelowMargin } from "@/lib/data/quotes/leastMargin";
import { sendQuote } from "@/lib/data/quotes/send";
import { offerExtras } from "@/lib/data/quotes/terms";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { ORIGIN, readyToQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let desk: ShopHandle;
let id: number;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  desk = as(a, { by: { ...a.by, name: "Runa", role: "desk" } });
  id = await createQuote(a, await readyToQuote(a));
});

const least = (minimumMarginBp: number) =>
  a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { minimumMarginBp } }));
const seen = async (margin = true) => {
  const quote = await getQuote(a, id, { margin });
  if (!quote?.draft) throw new Error("No draft.");
  return { ...quote, draft: quote.draft };
};
const send = async (shop: ShopHandle, alternatives?: string[]) =>
  sendQuote(shop, {
    id,
    version: (await seen()).version,
    origin: ORIGIN,
    ...(alternatives ? { alternatives } : {}),
  });
const allow = async (shop: ShopHandle, reason: string) =>
  allowBelowMargin(shop, { id, version: (await seen()).version, reason });

describe("a quote below the least margin", () => {
  it("is sent only once an owner has allowed it with a reason, which stays with the revision and on the audit trail", async () => {
    await least(9_000);
    expect((await seen(false)).draft).toMatchObject({ sendable: false, belowLeast: true });
    await expect(send(a)).rejects.toThrow(/below the shop's least margin/);
    await expect(allow(desk, "She is a friend")).rejects.toMatchObject({ kind: "forbidden" });
    await allow(a, "First job for the club");
    expect((await seen()).draft.sendable).toBe(true);
    await send(desk);
    const sent = await getQuote(a, id, { margin: true });
    expect(sent?.belowMargin).toMatchObject({ why: "First job for the club", by: "Test Owner" });
    expect((await getQuote(a, id, { margin: false }))?.belowMargin).toBeNull();
    const told = await a.read.auditEntry.findFirstOrThrow({
      where: { act: "allowed below the least margin" },
    });
    expect(told).toMatchObject({ noun: "quote", nounId: id });
    // The other shop has no such quote to allow.
    await expect(allowBelowMargin(b, { id, version: 1, reason: "Not ours" })).rejects.toMatchObject({
      kind: "missing",
    });
  });

  it("has to be allowed anew where the price falls further", async () => {
    await least(9_000);
    await allow(a, "First job for the club");
    await a.write((tx) =>
      tx.quoteRevision.updateMany({
        where: { quoteId: id },
        data: {
          terms: {
            lines: [],
            lineDiscounts: [],
            discount: { kind: "percent", bp: 3_000, why: "" },
            deposit: null,
            extras: [],
          },
        },
      }),
    );
    expect((await seen()).draft.sendable).toBe(false);
    await expect(send(a)).rejects.toThrow(/least margin/);
    await allow(a, "Settled by telephone");
    await send(a);
  });

  it("is not let out as an alternative to choose either", async () => {
    await chooseOptions(a, { id, version: 1, choices: ["opening", "main"], touched: "main" });
    await keepAlternative(a, { id, version: (await seen()).version, letter: "A", name: "Whole" });
    await chooseOptions(a, {
      id,
      version: (await seen()).version,
      choices: ["breather"],
      touched: "breather",
    });
    await keepAlternative(a, { id, version: (await seen()).version, letter: "B", name: "Filter" });
    const { draft } = await seen();
    const margins = [draft.price.marginBp ?? 0];
    // Between the two: the draft itself is above, the alternative kept first is below, or the other way round.
    await chooseOptions(a, {
      id,
      version: (await seen()).version,
      choices: ["opening", "main"],
      touched: "main",
    });
    margins.push((await seen()).draft.price.marginBp ?? 0);
    const [filter, whole] = margins as [number, number];
    expect(filter).not.toBe(whole);
    await least(Math.max(filter, whole));
    const better = whole > filter;
    if (!better)
      await chooseOptions(a, {
        id,
        version: (await seen()).version,
        choices: ["breather"],
        touched: "breather",
      });
    expect((await seen()).draft.sendable).toBe(true);
    await expect(send(a, ["A", "B"])).rejects.toThrow(/or a choice in it is/);
    await send(a);
  });
});

describe("an extra that takes a quote below the least margin", () => {
  const stops = async () => (await seen()).draft.warnings.filter((warning) => warning.stops);
  const marginOf = async (choices: string[]) => {
    await chooseOptions(a, { id, version: (await seen()).version, choices, touched: choices[0] ?? "" });
    return (await seen()).draft.price.marginBp ?? 0;
  };

  it("is among the reasons beside the button, and an owner may allow it", async () => {
    const withNeedle = await marginOf(["needle", "breather"]);
    const alone = await marginOf(["breather"]);
    expect(withNeedle).not.toBe(alone);
    const [extra, base] = withNeedle < alone ? ["needle", "breather"] : ["breather", "needle"];
    await marginOf([base as string]);
    await least(Math.max(withNeedle, alone) - 5);
    if ((await seen()).draft.belowLeast) throw new Error("The quote itself is below already.");
    await offerExtras(a, { id, version: (await seen()).version, extras: [extra as string] });
    expect(await stops()).toEqual([
      expect.objectContaining({
        message: expect.stringMatching(/^With the extra “.+” this quote is below the shop's least margin\.$/),
        place: "margin",
      }),
    ]);
    expect((await seen()).draft.sendable).toBe(false);
    await expect(send(a)).rejects.toThrow(/With the extra/);
    await allow(a, "Agreed with the club");
    expect(await stops()).toEqual([]);
    await send(a);
  });

  it("and one whose part has no price is a reason too, not left out unsaid", async () => {
    await marginOf(["needle"]);
    await a.write((tx) =>
      tx.part.updateMany({
        where: { code: "BF-20" },
        data: { costE4: null, averageE4: null, priceE4: null },
      }),
    );
    await offerExtras(a, { id, version: (await seen()).version, extras: ["breather"] });
    expect((await stops()).map((one) => one.message)).toEqual([
      "With the extra “Breather filter renewed”: BF-20 has no price and stands at nothing.",
    ]);
    await expect(send(a)).rejects.toThrow(/BF-20 has no price/);
  });
});

describe("the margin", () => {
  it("is not known only where a cost is missing: a gift costs what it costs", async () => {
    await a.write((tx) =>
      tx.quoteRevision.updateMany({
        where: { quoteId: id },
        data: {
          terms: {
            lines: [],
            lineDiscounts: [],
            discount: { kind: "percent", bp: 10_000, why: "Gift" },
            deposit: null,
            extras: [],
          },
        },
      }),
    );
    const gift = await seen();
    expect(gift.draft.price).toMatchObject({ grossMinor: 0, marginBp: null, costKnown: true });
    expect(gift.draft.price.costMinor).toBeGreaterThan(0);
    expect(gift.draft.belowLeast).toBe(true);
    await a.write((tx) =>
      tx.part.updateMany({ where: { code: "BF-20" }, data: { costE4: null, averageE4: null, priceE4: 1 } }),
    );
    expect((await seen()).draft.price.costKnown).toBe(false);
  });
});
