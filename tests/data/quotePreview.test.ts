import { beforeEach, describe, expect, it } from "vitest";
import { keepAlternative } from "@/lib/data/quotes/alternatives";
import { reviseQuote } from "@/lib/data/quotes/answer";
import { getQuote } from "@/lib/data/quotes/get";
import { previewQuote } from "@/lib/data/quotes/preview";
import { sendQuote } from "@/lib/data/quotes/send";
import { offerExtras } from "@/lib/data/quotes/terms";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { ORIGIN, type Ready, readyToQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let ready: Ready;
let id: number;
beforeEach(async () => {
  ({ a, b } = await twoShops());
  ready = await readyToQuote(a);
  id = await createQuote(a, ready);
});

const page = async (shop = a) => {
  const quote = await getQuote(shop, id, { margin: true });
  if (!quote) throw new Error("No quote.");
  return quote;
};
const send = async (alternatives: string[] = [], shop = a) =>
  sendQuote(shop, { id, version: (await page()).version, origin: ORIGIN, alternatives });
const tick = async (choices: string[]) =>
  chooseOptions(a, { id, version: (await page()).version, choices, touched: choices[0] ?? "" });
const keep = async (letter: "A" | "B", name: string) =>
  keepAlternative(a, { id, version: (await page()).version, letter, name });

describe("what a draft's customer will read", () => {
  it("is what they get, in their own language, with the ways to choose from and the extras", async () => {
    await a.write((tx) =>
      tx.customer.update({
        where: { id: ready.customerId },
        data: { language: "nb", email: "ines@example.com" },
      }),
    );
    await keep("A", "Whole");
    await tick(["breather"]);
    await keep("B", "Filter only");
    await offerExtras(a, { id, version: (await page()).version, extras: ["check"] });
    const before = await previewQuote(a, id, ["A", "B"]);
    expect(before).toMatchObject({
      state: "draft",
      customer: { email: "ines@example.com" },
      stops: [],
      text: { printed: { locale: "nb-AU" }, extras: [{ key: "check" }] },
    });
    expect(before?.text.printed.alternatives?.map((one) => one.letter)).toEqual(["A", "B"]);
    await send(["A", "B"]);
    const after = await previewQuote(a, id);
    expect(after?.state).toBe("sent");
    expect(after?.text).toEqual(before?.text);
    expect(await previewQuote(b, id)).toBeNull();
  });

  it("says why it cannot go out: all that keeps the draft, and an alternative that is not kept", async () => {
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { minimumMarginBp: 9_900 } }));
    const { stops } = (await previewQuote(a, id, ["C"])) ?? { stops: [] };
    expect(stops.map((one) => one.message)).toEqual([
      "Alternative C is not kept any more.",
      "This price is below the shop's least margin.",
    ]);
  });
});

describe("a draft that says what its customer had before", () => {
  const again = async (shop = a) => (await page(shop)).again;

  it("goes out again at once, with the alternatives that went along, until something in it changes", async () => {
    expect(await again()).toBeNull();
    await keep("A", "Whole");
    await tick(["breather"]);
    await keep("B", "Filter only");
    await send(["A", "B"]);
    const later = as(a, { now: new Date(a.now.getTime() + 3 * 86_400_000) });
    await reviseQuote(later, { id, version: (await page()).version });
    expect(await again(later)).toEqual(["A", "B"]);
    await tick(["breather", "check"]);
    expect(await again(later)).toBeNull();
    await tick(["breather"]);
    expect(await again(later)).toEqual(["A", "B"]);
    await a.write((tx) => tx.part.updateMany({ where: { code: "BF-20" }, data: { priceE4: 990_000 } }));
    expect(await again(later)).toBeNull();
  });
});
