import { beforeEach, describe, expect, it } from "vitest";
import { getQuote } from "@/lib/data/quotes/get";
import { insteadOfShort } from "@/lib/data/quotes/instead";
import { createQuote } from "@/lib/data/quotes/write";
import { jetFamilyFacts, saveJetFamily } from "@/lib/data/stock/jetFamilies";
import { recordMove } from "@/lib/data/stock/moves";
import { sameThreadFor } from "@/lib/data/stock/sameThread";
import type { ShopHandle } from "@/lib/db/shop";
import { JetFamilySchema } from "@/lib/schemas/jetFamilies";
import { readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

/** Three jets of a drawer that numbers by flow: 200 flows as bore 141.4. */
async function hexDrawer(shop: ShopHandle): Promise<void> {
  for (const size of [190, 200, 210]) {
    const { id } = await shop.write((tx) =>
      tx.part.create({
        data: {
          code: `HX-${size}`,
          name: `Hex ${size}`,
          kind: "jet",
          family: "Hex main",
          sizeMilli: size * 1000,
          convention: "flow",
          searchKey: "hex",
          createdAt: shop.now,
        },
      }),
    );
    await recordMove(shop, { partId: id, kind: "opening", quantityMilli: 2000, unitCostE4: 40_000 });
  }
}

const describeDrawer = (shop: ShopHandle, name: string, thread: string, more = {}) =>
  saveJetFamily(shop, JetFamilySchema.parse({ name, version: "0", thread, ...more }));

describe("a jet that is missing", () => {
  it("is answered on a quote by jets of another drawer with its thread, and by nothing in another shop", async () => {
    for (const shop of [a, b]) {
      const ready = await readyToQuote(shop, 0);
      await hexDrawer(shop);
      if (shop === a) await describeDrawer(shop, "Round main", "M5 x 0.75");
      await describeDrawer(shop, "Hex main", "M5 × 0,75");
      const id = await createQuote(shop, ready);
      const parts = (await getQuote(shop, id, { margin: false }))?.draft?.parts ?? [];
      const jet = parts.find((part) => part.setting === "mainJet");
      expect(jet?.shortMilli).toBe(1000);
      const instead = await insteadOfShort(shop, parts);
      const found = instead[jet?.code ?? ""] ?? [];
      expect(found.length > 0).toBe(shop === a);
      for (const one of found) {
        expect(one).toMatchObject({ family: "Hex main", across: true });
        expect(one.size).not.toBe(jet?.size);
        expect(one.low < (jet?.size ?? 0) * 1.1 && one.high > (jet?.size ?? 0) * 0.9).toBe(true);
      }
    }
  });

  it("is looked up by its size where it is no part yet, and not at all where nobody says what its number means", async () => {
    await readyToQuote(a, 0);
    await hexDrawer(a);
    await describeDrawer(a, "Round main", "M5 x 0.75");
    await describeDrawer(a, "Hex main", "M5 x 0.75");
    // 1.41 squared is flow 198.8: 200 is 0.6 % away, 190 4.4 %, 210 5.6 %.
    const asked = { key: "own", partId: null, family: "Round main", size: 141, neededMilli: 1000 };
    expect((await sameThreadFor(a.read, [asked])).own?.map(({ code }) => code)).toEqual([
      "HX-200",
      "HX-190",
      "HX-210",
    ]);
    await a.write((tx) => tx.part.updateMany({ where: { family: "Round main" }, data: { convention: "" } }));
    expect(await sameThreadFor(a.read, [asked])).toEqual({});
    const filter = await a.read.part.findUniqueOrThrow({ where: { code: "BF-20" } });
    expect(await sameThreadFor(a.read, [{ key: "x", partId: filter.id, neededMilli: 1 }])).toEqual({});
  });
});

describe("a drawer that is described", () => {
  it("keeps its thread against its version, and what its numbers mean for every jet in it", async () => {
    await readyToQuote(a, 0);
    await describeDrawer(a, "Round main", "M5 x 0.75", { convention: "flow" });
    const jets = await a.read.part.findMany({ where: { family: "Round main" } });
    expect(new Set(jets.map(({ convention }) => convention))).toEqual(new Set(["flow"]));
    expect((await jetFamilyFacts(a)).get("Round main")).toMatchObject({ thread: "M5 x 0.75", version: 1 });
    await expect(describeDrawer(a, "Round main", "M6 x 0.75")).rejects.toThrow("Somebody else described");
    await describeDrawer(a, "Round main", "M6 x 0.75", { version: "1" });
    await expect(describeDrawer(a, "No such drawer", "M6 x 0.75")).rejects.toThrow(
      "No jet lies in this drawer",
    );
    expect((await jetFamilyFacts(b)).size).toBe(0);
  });
});
