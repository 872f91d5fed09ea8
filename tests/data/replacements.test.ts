import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { problemsOf } from "@/lib/data/books/invariants";
import { getJob } from "@/lib/data/jobs/get";
import { takeReplacement } from "@/lib/data/jobs/replacement";
import { mergeParts, previewParts } from "@/lib/data/merging/parts";
import { orderSuggestions } from "@/lib/data/orders/suggest";
import { addPackageRevision, publishRevision } from "@/lib/data/packages/author";
import { removePart } from "@/lib/data/parts/remove";
import { changePart, createPart } from "@/lib/data/parts/save";
import { getQuote } from "@/lib/data/quotes/get";
import { createQuote } from "@/lib/data/quotes/write";
import { searchAll } from "@/lib/data/search/search";
import { findScanned } from "@/lib/data/stock/find";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart } from "@/lib/data/stock/parts";
import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { NewPartSchema, PartSchema } from "@/lib/schemas/parts";
import { BREATHING, readyToQuote, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

/** The breather takes three filters. */
const THREE: Recipe = {
  ...BREATHING,
  options: BREATHING.options.map((option) =>
    option.key === "breather"
      ? { ...option, parts: [{ kind: "part", code: "BF-20", quantityMilli: 3000 }] }
      : option,
  ),
  operations: BREATHING.operations.map((operation) => ({ ...operation, parts: [] })),
};

const filter = (code: string, more: object = {}) => ({
  code,
  name: `Breather filter ${code}`,
  kind: "filter",
  unit: "each",
  cost: "9.60",
  price: "",
  ...more,
});
const add = (shop: ShopHandle, code: string, more: object = {}) =>
  createPart(shop, NewPartSchema.parse(filter(code, more)));
async function replace(shop: ShopHandle, code: string, replacedBy: string) {
  const { id, version } = await shop.read.part.findUniqueOrThrow({ where: { code } });
  const typed = filter(code, { id: String(id), version: String(version), active: "true", replacedBy });
  await changePart(shop, PartSchema.parse(typed));
  return id;
}

describe("a part that is made no more", () => {
  it("says what takes its place, in a chain that never closes to a circle", async () => {
    for (const code of ["F-1", "F-2", "F-3"]) await add(a, code);
    await add(a, "F-M", { unit: "ml" });
    const first = await replace(a, "F-1", "F-2");
    await replace(a, "F-2", "F-3");
    const refused = (code: string, by: string) =>
      replace(a, code, by).then(
        () => "",
        (cause: { fields?: Record<string, string> }) => cause.fields?.replacedBy ?? "",
      );
    expect(await refused("F-3", "F-1")).toContain("is itself replaced, in the end by F-3");
    expect(await refused("F-3", "F-3")).toContain("does not replace itself");
    expect(await refused("F-3", "F-M")).toContain("counted in ml");
    expect(await refused("F-3", "NOPE")).toContain("no part NOPE");
    expect((await getPart(a, first, false))?.replacedBy?.code).toBe("F-2");
    const { id, version } = await a.read.part.findUniqueOrThrow({ where: { code: "F-3" } });
    await expect(removePart(a, { id, version })).rejects.toThrow("part that it replaces");
    await replace(a, "F-1", "");
    expect((await getPart(a, first, false))?.replacedBy).toBeNull();
  });

  it("is found with what took its place, by search and by its label; the other shop knows of neither", async () => {
    await add(a, "OLD-77");
    await add(a, "NEW-88");
    await replace(a, "OLD-77", "NEW-88");
    await add(b, "OLD-77");
    const found = async (shop: ShopHandle) =>
      (await searchAll(shop, "OLD-77")).flatMap(({ hits }) => hits.map(({ label, sub }) => [label, sub]));
    expect(await found(a)).toEqual([
      ["OLD-77", "Breather filter OLD-77 · made no more: NEW-88"],
      ["NEW-88", "Breather filter NEW-88 · in place of OLD-77"],
    ]);
    expect((await found(b)).map(([label]) => label)).toEqual(["OLD-77"]);
    expect((await findScanned(a, "OLD-77")).map(({ code }) => code)).toEqual(["OLD-77", "NEW-88"]);
    expect((await findScanned(b, "OLD-77")).map(({ code }) => code)).toEqual(["OLD-77"]);
  });

  it("is used up on a quote before the new one is taken, and what jobs lack of it is ordered of the new one", async () => {
    for (const shop of [a, b]) {
      const ready = await readyToQuote(shop);
      const { id } = await addPackageRevision(shop, { packageId: ready.packageId, recipe: THREE });
      await publishRevision(shop, { revisionId: id, version: 1 });
      const newId = await add(shop, "BF-21");
      const taken = async () => {
        const id = await createQuote(shop, ready);
        const parts = (await getQuote(shop, id, { margin: false }))?.draft?.parts ?? [];
        return parts
          .filter(({ code }) => code.startsWith("BF"))
          .map((p) => [p.code, p.quantityMilli, p.shortMilli]);
      };
      // Two are in stock.
      expect(await taken()).toEqual([["BF-20", 3000, 1000]]);
      const sent = await sentQuote(shop, ready);
      const { jobId } = await acceptQuote(shop, yes(sent));
      if (shop === b) continue;
      const typed = await shop.read.part.findUniqueOrThrow({ where: { code: "BF-20" } });
      await shop.write((tx) => tx.part.update({ where: { id: typed.id }, data: { replacedById: newId } }));
      const suggested = (await orderSuggestions(shop, true)).flatMap(({ lines }) => lines);
      const [line] = suggested.filter(({ code }) => code.startsWith("BF"));
      expect(line).toMatchObject({ code: "BF-21", quantityMilli: 1000, jobId });
      expect(line?.because[0]?.fact).toBe("the job asks for BF-20, which is made no more");
      const [held] =
        (await getJob(shop, jobId))?.reservations.filter(({ shortMilli }) => shortMilli > 0) ?? [];
      expect(held?.replacement).toMatchObject({ code: "BF-21" });
      await recordMove(shop, { partId: newId, kind: "opening", quantityMilli: 5000, unitCostE4: 96_000 });
      await takeReplacement(shop, { jobId, reservationId: held?.id ?? 0 });
      await expect(takeReplacement(shop, { jobId, reservationId: held?.id ?? 0 })).rejects.toThrow(
        "missing any more",
      );
      const now = await shop.read.reservation.findMany({
        where: { jobId, part: { kind: "filter" } },
        orderBy: { id: "asc" },
      });
      expect(
        now.map(({ partId, wantedMilli, reservedMilli }) => [partId, wantedMilli, reservedMilli]),
      ).toEqual([
        [typed.id, 2000, 2000],
        [newId, 1000, 1000],
      ]);
      // The two that are left are this job's, so that the next quote takes the new one alone.
      expect(await taken()).toEqual([["BF-21", 3000, 0]]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("follows a merge: what it replaced is replaced by the kept one, and no part by itself", async () => {
    const [old, kept, gone] = [await add(a, "F-1"), await add(a, "F-2"), await add(a, "F-3")];
    await add(a, "F-4");
    await replace(a, "F-1", "F-3");
    await replace(a, "F-2", "F-3");
    await replace(a, "F-3", "F-4");
    const found = await previewParts(a.read, kept, gone);
    const version = (side?: { version: number }) => side?.version ?? 0;
    await mergeParts(a, {
      keptId: kept,
      keptVersion: version(found?.preview.kept),
      goneId: gone,
      goneVersion: version(found?.preview.gone),
    });
    expect((await getPart(a, old, false))?.replacedBy?.code).toBe("F-2");
    expect((await getPart(a, kept, false))?.replacedBy?.code).toBe("F-4");
    expect((await getPart(a, gone, false))?.replacedBy).toBeNull();
  });
});
