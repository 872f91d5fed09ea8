import { beforeEach, describe, expect, it } from "vitest";
import { createPackage } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { removePackage } from "@/lib/data/packages/remove";
import { removePart } from "@/lib/data/parts/remove";
import { createPart } from "@/lib/data/parts/save";
import { removeDraftQuote } from "@/lib/data/quotes/remove";
import { createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { NewPartSchema } from "@/lib/schemas/parts";
import { readyToQuote, sentQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

describe("what was made by mistake", () => {
  it("is removed: a part that never moved; one that has moved is refused with what it has", async () => {
    const made = NewPartSchema.parse({
      code: "X-1",
      name: "Filter",
      kind: "filter",
      unit: "each",
      supplier: "Own",
    });
    const id = await createPart(a, made);
    await createPart(b, made);
    await expect(removePart(a, { id, version: 9 })).rejects.toThrow("changed meanwhile");
    await removePart(a, { id, version: 1 });
    expect([await a.read.part.count(), await a.read.partSupplier.count(), await b.read.part.count()]).toEqual(
      [0, 0, 1],
    );
    await expect(removePart(a, { id, version: 1 })).rejects.toThrow("no such part");
    const moved = await createPart(a, { ...made, opening: 2000 });
    await expect(removePart(a, { id: moved, version: 1 })).rejects.toThrow(
      "X-1 has 1 move, which would be lost.",
    );
    // Its code is free again only once it is gone.
    await expect(createPart(a, made)).rejects.toThrow("is taken");
  });

  it("is not removed while a package or an open quote takes it: both are named, and the other shop's are not asked", async () => {
    const { bikeId, packageId } = await readyToQuote(a);
    const unmoved = async (shop: ShopHandle, code: string) =>
      createPart(
        shop,
        NewPartSchema.parse({ code, name: "Filter", kind: "filter", unit: "each", supplier: "Own" }),
      );
    // The package's own filter, as a part that never moved.
    await a.write((tx) => tx.part.updateMany({ where: { code: "BF-20" }, data: { code: "BF-OLD" } }));
    const id = await unmoved(a, "BF-20");
    await expect(removePart(a, { id, version: 1 })).rejects.toThrow(
      "BF-20 is taken by the package “Open-road breathing”.",
    );
    await createQuote(a, { bikeId, packageId });
    const { number } = await a.read.quote.findFirstOrThrow();
    await expect(removePart(a, { id, version: 1 })).rejects.toThrow(
      `BF-20 is taken by the package “Open-road breathing” and by quote ${number}.`,
    );
    await removePart(b, { id: await unmoved(b, "BF-20"), version: 1 });
    expect([await a.read.part.count({ where: { code: "BF-20" } }), await b.read.part.count()]).toEqual([
      1, 0,
    ]);
  });

  it("is removed: a package with nothing but a draft; one that was published or quoted is not", async () => {
    const { packageId } = await readyToQuote(a);
    const id = await createPackage(a, { code: "OOPS", name: "Made twice", summary: "" });
    await beginDraft(a, { packageId: id });
    await createPackage(b, { code: "OOPS", name: "Made twice", summary: "" });
    const { version } = await a.read.package.findUniqueOrThrow({ where: { id } });
    await removePackage(a, { id, version });
    expect(await a.read.packageRevision.count({ where: { packageId: id } })).toBe(0);
    expect([await a.read.package.count(), await b.read.package.count()]).toEqual([1, 1]);
    await expect(removePackage(a, { id: packageId, version: 1 })).rejects.toThrow(
      "Open-road breathing has 1 published revision, which would be lost.",
    );
  });

  it("is removed: a draft quote that was never sent; what was sent stays", async () => {
    const ready = await readyToQuote(a);
    const sent = await sentQuote(a, ready);
    const before = await a.read.quote.findMany({
      select: { id: true, version: true },
      orderBy: { id: "asc" },
    });
    const id = await createQuote(a, { bikeId: ready.bikeId, packageId: ready.packageId });
    const { version } = await a.read.quote.findUniqueOrThrow({ where: { id } });
    await expect(removeDraftQuote(a, { id, version: version + 1 })).rejects.toThrow("changed meanwhile");
    expect(await a.read.quoteRevision.count({ where: { quoteId: id } })).toBe(1);
    await removeDraftQuote(a, { id, version });
    expect(
      await a.read.quote.findMany({ select: { id: true, version: true }, orderBy: { id: "asc" } }),
    ).toEqual(before);
    expect(await a.read.quoteWork.count({ where: { revision: { quoteId: id } } })).toBe(0);
    const { quoteId } = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
    const own = await a.read.quote.findUniqueOrThrow({ where: { id: quoteId } });
    await expect(removeDraftQuote(a, own)).rejects.toThrow("was sent once, and what was sent stays");
  });
});
